//! Templates as the native program writes them for pages (`crate/outlean/src/question.rs`).

use crate::action::units;
use crate::message::{at, items, number, pairs, rig, text};
use outlean_course::{
    Atom, BuildStep, ChooseTemplate, Claim, Condition, FaultsTemplate, Ground, Item, OrderTemplate, Planted,
    Put, SetTemplate, Span, Statement, Template, Text,
};
use wasm_bindgen::prelude::*;

/// A template.
///
/// # Errors
///
/// Names the key.
pub fn template(sent: &JsValue) -> Result<Template, String> {
    let id = text(sent, "id")?;
    let rig = || rig(&at(sent, "rig"));
    let vary = || spans(sent, "vary");
    Ok(match text(sent, "kind")?.as_str() {
        "choose" => Template::Choose(ChooseTemplate {
            id,
            rig: rig()?,
            vary: vary()?,
            statements: each(sent, "statements", statement)?,
            one: at(sent, "one").is_truthy(),
        }),
        "order" => Template::Order(OrderTemplate { id, steps: each(sent, "steps", step)? }),
        "faults" => Template::Faults(FaultsTemplate {
            id,
            rig: rig()?,
            vary: vary()?,
            items: each(sent, "items", |sent| {
                Ok(Item { says: says(sent)?, sound: claim(sent, "sound")?, because: None })
            })?,
            faults: each(sent, "faults", |sent| Ok(Planted { set: puts(sent)? }))?,
            least: number(sent, "least")? as usize,
            most: number(sent, "most")? as usize,
        }),
        "set" => Template::Set(SetTemplate {
            id,
            rig: rig()?,
            vary: vary()?,
            until: each(sent, "until", |sent| {
                Ok(Condition { claim: claim(sent, "claim")?, says: text(sent, "says")? })
            })?,
            may: spans(sent, "may")?,
        }),
        kind => return Err(format!("there is no kind `{kind}`")),
    })
}

fn each<T>(
    sent: &JsValue,
    key: &str,
    read: impl Fn(&JsValue) -> Result<T, String>,
) -> Result<Vec<T>, String> {
    items(sent, key)?.iter().map(read).collect()
}

/// Numbers that vary, at `key`.
///
/// # Errors
///
/// Names the key.
pub fn spans(sent: &JsValue, key: &str) -> Result<Vec<Span>, String> {
    each(sent, key, |sent| {
        let (least, most, step) = (number(sent, "least")?, number(sent, "most")?, number(sent, "step")?);
        Ok(Span { field: text(sent, "field")?, least, most, step, units: units(&text(sent, "units")?) })
    })
}

fn statement(sent: &JsValue) -> Result<Statement, String> {
    let ground = match at(sent, "fact").as_bool() {
        Some(holds) => Ground::Fact { holds, source: String::new() },
        None => Ground::Claim(claim(sent, "claim")?),
    };
    Ok(Statement { says: says(sent)?, ground, because: None })
}

fn step(sent: &JsValue) -> Result<BuildStep, String> {
    let after = items(sent, "after")?.iter().filter_map(JsValue::as_string).collect();
    Ok(BuildStep { id: text(sent, "id")?, says: text(sent, "says")?, after, because: None })
}

fn says(sent: &JsValue) -> Result<Text, String> {
    Text::read(&text(sent, "says")?).map_err(|_| "`says` has a gap that nothing fills".into())
}

fn claim(sent: &JsValue, key: &str) -> Result<Claim, String> {
    let atom = |sent: &JsValue| match (sent.as_f64(), sent.as_string()) {
        (Some(number), _) => Atom::Number(number),
        (None, word) => Atom::Word(word.unwrap_or_default()),
    };
    let atoms: Vec<Atom> = items(sent, key)?.iter().map(atom).collect();
    Claim::of_atoms(&atoms).ok_or_else(|| format!("`{key}` is no claim"))
}

fn puts(sent: &JsValue) -> Result<Vec<Put>, String> {
    let put = |(key, value): (String, JsValue)| match (value.as_f64(), value.as_string()) {
        (Some(number), _) => Ok(Put::Number(key, number)),
        (None, Some(word)) => Ok(Put::Word(key, word)),
        (None, None) => Err(format!("`{key}` must be a number or a word")),
    };
    pairs(sent).into_iter().map(put).collect()
}
