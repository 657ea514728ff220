//! Messages to and from the page: plain objects, read and written by hand. A derive for each type would make the
//! program three times as large as everything else in it.

use outlean_picture::Words;
use outlean_rig::Rig;
use outlean_rigfile::{FlatError, SetError, Units, Value, choice, entries_of, field, rig_of, show};
use wasm_bindgen::prelude::*;

// All that is asked of the page's language. js-sys has a name for everything in it, and brings a kilobyte of what
// nothing here asks for.
#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_name = Object)]
    fn object() -> JsValue;
    #[wasm_bindgen(js_name = Array)]
    fn array() -> JsValue;
    #[wasm_bindgen(js_namespace = Reflect, js_name = set)]
    fn set(of: &JsValue, key: &JsValue, value: &JsValue) -> bool;
    #[wasm_bindgen(js_namespace = Reflect, js_name = get, catch)]
    fn get(of: &JsValue, key: &JsValue) -> Result<JsValue, JsValue>;
    #[wasm_bindgen(js_namespace = Object, js_name = entries, catch)]
    fn entries(of: &JsValue) -> Result<JsValue, JsValue>;
}

/// A plain object being written.
pub struct Plain(JsValue);

impl Plain {
    /// An empty one.
    pub fn new() -> Self {
        Self(object())
    }

    /// Sets what stands at `key`.
    pub fn put(self, key: &str, value: impl Into<JsValue>) -> Self {
        // Setting a property of an object made here cannot fail.
        set(&self.0, &key.into(), &value.into());
        self
    }

    /// Sets a number that may not be there; then it is `undefined`.
    pub fn put_some(self, key: &str, value: Option<f64>) -> Self {
        self.put(key, value.map_or(JsValue::UNDEFINED, JsValue::from_f64))
    }
}

impl From<Plain> for JsValue {
    fn from(plain: Plain) -> Self {
        plain.0
    }
}

/// A list of things, each written by `write`.
pub fn list<T>(all: impl IntoIterator<Item = T>, mut write: impl FnMut(T) -> JsValue) -> JsValue {
    let array = array();
    for (i, each) in (0_u32..).zip(all) {
        set(&array, &i.into(), &write(each));
    }
    array
}

/// What stands at `key` of something sent; `undefined` where nothing does.
pub fn at(sent: &JsValue, key: &str) -> JsValue {
    get(sent, &key.into()).unwrap_or(JsValue::UNDEFINED)
}

/// The text at `key`.
///
/// # Errors
///
/// Names the key.
pub fn text(sent: &JsValue, key: &str) -> Result<String, String> {
    at(sent, key).as_string().ok_or_else(|| format!("`{key}` must be text"))
}

/// The number at `key`.
///
/// # Errors
///
/// Names the key.
pub fn number(sent: &JsValue, key: &str) -> Result<f64, String> {
    at(sent, key).as_f64().ok_or_else(|| format!("`{key}` must be a number"))
}

/// The list at `key`.
///
/// # Errors
///
/// Names the key.
pub fn items(sent: &JsValue, key: &str) -> Result<Vec<JsValue>, String> {
    all(&at(sent, key)).ok_or_else(|| format!("`{key}` must be a list"))
}

/// Most that a list may hold.
const MOST: f64 = 9_999.0;

/// What is in a list; `None` for what has no length, or a greater one than [`MOST`].
fn all(list: &JsValue) -> Option<Vec<JsValue>> {
    let count = at(list, "length").as_f64().filter(|count| *count <= MOST)? as u32;
    Some((0..count).map(|i| get(list, &i.into()).unwrap_or(JsValue::UNDEFINED)).collect())
}

/// The keys of an object sent, with what stands there.
pub fn pairs(sent: &JsValue) -> Vec<(String, JsValue)> {
    let mut pairs = Vec::new();
    for pair in entries(sent).ok().as_ref().and_then(all).unwrap_or_default() {
        if let Some(key) = at(&pair, "0").as_string() {
            pairs.push((key, at(&pair, "1")));
        }
    }
    pairs
}

/// The words sent: an object of templates by key.
pub fn words(sent: &JsValue) -> Words {
    Words::new(pairs(sent).into_iter().filter_map(|(key, value)| Some((key, value.as_string()?))))
}

/// The rig sent: numbers in SI and words of choices, by the keys of the field and choice tables.
///
/// # Errors
///
/// Names the key and what is allowed there.
pub fn rig(sent: &JsValue) -> Result<Rig, String> {
    let pairs = pairs(sent);
    let mut texts = Vec::new();
    for (key, value) in &pairs {
        let value = match (value.as_f64(), value.as_string()) {
            (Some(number), _) => Sent::Number(number),
            (None, Some(word)) => Sent::Word(word),
            (None, None) => return Err(format!("`{key}` must be a number or a word")),
        };
        texts.push((key.as_str(), value));
    }
    let entries: Vec<(&str, Value<'_>)> = texts
        .iter()
        .map(|(key, value)| {
            let value = match value {
                Sent::Number(number) => Value::Number(*number),
                Sent::Word(word) => Value::Word(word),
            };
            (*key, value)
        })
        .collect();
    let sent_word = |key: &str| match entries.iter().find(|(at, _)| *at == key) {
        Some((_, Value::Word(word))) => *word,
        _ => "",
    };
    let allowed = |key: &str| choice(key).map(|choice| choice.spec.options.join(", ")).unwrap_or_default();
    rig_of(&entries).map_err(|why| match why {
        FlatError::Key(key) => match choice(key) {
            Some(_) => format!("`{key}` is a number; allowed is {}", allowed(key)),
            None if field(key).is_some() => format!("`{key}` is `{}`; allowed is a number", sent_word(key)),
            None => format!("a rig has no `{key}`"),
        },
        FlatError::Word(key) => format!("`{key}` is `{}`; allowed is {}", sent_word(key), allowed(key)),
        FlatError::Field(key, SetError::Absent) => format!("this rig has no `{key}`"),
        FlatError::Field(key, SetError::Fault(fault)) => {
            let shown = |value: f64| show(value, fault.field.dimension(), Units::Metric).to_string();
            format!(
                "`{key}` is {}; allowed is {} to {}",
                shown(fault.value),
                shown(fault.allowed.least),
                shown(fault.allowed.most)
            )
        }
    })
}

enum Sent {
    Number(f64),
    Word(String),
}

/// A rig to be sent.
pub fn plain_rig(rig: &Rig) -> JsValue {
    let mut plain = Plain::new();
    for (key, value) in entries_of(rig) {
        plain = match value {
            Value::Number(number) => plain.put(&key, number),
            Value::Word(word) => plain.put(&key, word),
        };
    }
    plain.into()
}
