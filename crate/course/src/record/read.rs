//! Reading a record's file, whatever it holds: bounded, without panic, nothing lost.

use super::{Allowed, Aside, FORMAT, Reason, Record, VERSION, first, json};
use crate::{Attempt, Learner, Score};
use serde_json::{Map, Value};

/// Most bytes of a record's file.
pub const RECORD_BYTES: usize = 16_000_000;
/// Most characters of the name of a lesson, and of a question's.
pub const MOST_IN_NAME: u32 = 80;
/// Most characters of an objective.
pub const MOST_IN_OBJECTIVE: u32 = 300;
/// Most attempts, and most that stand aside.
const MOST_ITEMS: usize = 50_000;
/// The last second of the year 9999.
const LAST_SECOND: u64 = 253_402_300_799;
/// The greatest whole number that a page reads without loss.
const MOST_WHOLE: u64 = (1 << 53) - 1;

/// Why a file is no record at all: nothing of it is taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unread(pub Reason);

/// The record in the text of a file. What in it is no attempt stands aside with the reason.
///
/// # Errors
///
/// Why it is no record: too long, no JSON, another format, a version that is not known yet, no learner, no attempts.
pub fn read(text: &str) -> Result<Record, Unread> {
    let no = |field: &str, value: &str, allowed| Unread(Reason::new(field, value, allowed));
    if text.len() > RECORD_BYTES {
        return Err(no("file", &text.len().to_string(), Allowed::Bytes(RECORD_BYTES as u64)));
    }
    // A mark of the byte order, as some editors leave it, is no part of the text.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let whole: Value =
        serde_json::from_str(text).map_err(|why| no("file", &why.to_string(), Allowed::Json))?;
    let Value::Object(mut file) = whole else { return Err(no("file", &whole.to_string(), Allowed::Object)) };
    let mut fields = Fields(&mut file);
    let format = fields.take("format");
    if format.as_str() != Some(FORMAT) {
        return Err(Unread(because("format", &format, Allowed::Format)));
    }
    let version = fields.take("version");
    let known = version.as_u64().filter(|version| (1..=u64::from(VERSION)).contains(version));
    let Some(known) = known else {
        return Err(Unread(because("version", &version, Allowed::Version(VERSION))));
    };
    let learner = Learner(fields.name("learner", 60).map_err(Unread)?);
    let attempts = fields.list("attempts").map_err(Unread)?;
    // The first version had nothing aside.
    let aside = if known == 1 { Vec::new() } else { fields.list("aside").map_err(Unread)? };
    fields.done().map_err(Unread)?;

    let (mut taken, mut put_aside) = (Vec::new(), Vec::new());
    for each in attempts {
        let raw = each.to_string();
        let read = if known == 1 { first::migrated(each) } else { Ok(each) };
        match read.and_then(attempt) {
            Ok(attempt) => taken.push(attempt),
            Err(why) => put_aside.push(Aside { raw, why }),
        }
    }
    put_aside.extend(aside.into_iter().map(stood_aside));
    Ok(Record::new(learner, taken, put_aside))
}

/// What stood aside before: an attempt by now, perhaps, but that is for a person to say.
fn stood_aside(mut value: Value) -> Aside {
    let raw = value.to_string();
    let mut known = || -> Option<Aside> {
        let file = value.as_object_mut()?;
        let raw = file.get("raw")?.as_str()?.to_owned();
        let why = file.get("why")?.as_object()?;
        let allowed = allowed(why.get("allowed")?)?;
        Some(Aside {
            raw,
            why: Reason::new(why.get("field")?.as_str()?, why.get("value")?.as_str()?, allowed),
        })
    };
    known().unwrap_or_else(|| Aside { why: Reason::new("aside", &raw, Allowed::Object), raw })
}

/// What was allowed, as it is written.
fn allowed(value: &Value) -> Option<Allowed> {
    let most = |name: &str| value.get(name)?.as_u64();
    let small = |name: &str| u32::try_from(most(name)?).ok();
    Some(match value.as_str() {
        Some("json") => Allowed::Json,
        Some("format") => Allowed::Format,
        Some("object") => Allowed::Object,
        Some("list") => Allowed::List,
        Some("share") => Allowed::Share,
        Some("yes_no") => Allowed::YesNo,
        Some("no_such_field") => Allowed::NoSuchField,
        Some("once") => Allowed::Once,
        Some(_) => return None,
        None => most("bytes")
            .map(Allowed::Bytes)
            .or_else(|| most("items").map(Allowed::Items))
            .or_else(|| most("whole").map(Allowed::Whole))
            .or_else(|| small("version").map(Allowed::Version))
            .or_else(|| small("text").map(Allowed::Text))
            .or_else(|| small("name").map(Allowed::Name))
            .or_else(|| small("word").map(Allowed::Word))?,
    })
}

/// An attempt of the present version.
fn attempt(value: Value) -> Result<Attempt, Reason> {
    let Value::Object(mut object) = value else { return Err(because("attempt", &value, Allowed::Object)) };
    let mut fields = Fields(&mut object);
    let time = fields.whole("time", LAST_SECOND)?;
    let lesson = fields.name("lesson", MOST_IN_NAME)?;
    let question = fields.name("question", MOST_IN_NAME)?;
    let lesson_version = fields.text("lesson_version", 64)?;
    let seed = fields.whole("seed", MOST_WHOLE)?;
    let response = fields.text("response", 2000)?;
    let mark = fields.take("mark");
    let Value::Object(mut mark) = mark else { return Err(because("mark", &mark, Allowed::Object)) };
    let mut inner = Fields(&mut mark);
    let mark = Score { share: inner.share("share")?, verdict: inner.word("verdict", 24)? };
    inner.done()?;
    let seconds = fields.perhaps_whole("seconds")?;
    let hints = fields.perhaps_whole("hints")?;
    let objective = fields.text("objective", MOST_IN_OBJECTIVE)?;
    fields.done()?;
    let attempt =
        Attempt { time, lesson, question, lesson_version, seed, response, mark, seconds, hints, objective };
    Ok(attempt)
}

/// Why a field with this value is not taken.
pub(super) fn because(field: &str, value: &Value, allowed: Allowed) -> Reason {
    let shown = if value.is_null() { String::new() } else { json(value) };
    Reason::new(field, &shown, allowed)
}

/// The fields of an object, taken out one by one.
pub(super) struct Fields<'a>(pub &'a mut Map<String, Value>);

impl Fields<'_> {
    /// A field; null where there is none.
    pub fn take(&mut self, name: &str) -> Value {
        self.0.remove(name).unwrap_or_default()
    }

    pub fn whole(&mut self, name: &str, most: u64) -> Result<u64, Reason> {
        let value = self.take(name);
        let found = value.as_u64().filter(|found| *found <= most);
        found.ok_or_else(|| because(name, &value, Allowed::Whole(most)))
    }

    fn perhaps_whole(&mut self, name: &str) -> Result<Option<u32>, Reason> {
        let value = self.take(name);
        if value.is_null() {
            return Ok(None);
        }
        let found = value.as_u64().and_then(|found| u32::try_from(found).ok());
        found.map(Some).ok_or_else(|| because(name, &value, Allowed::Whole(u32::MAX.into())))
    }

    fn share(&mut self, name: &str) -> Result<f64, Reason> {
        let value = self.take(name);
        // Nothing is no less than nothing: −0 is 0.
        let found = value.as_f64().filter(|share| (0.0..=1.0).contains(share)).map(f64::abs);
        found.ok_or_else(|| because(name, &value, Allowed::Share))
    }

    fn string(
        &mut self,
        name: &str,
        allowed: Allowed,
        fits: impl Fn(&str) -> bool,
    ) -> Result<String, Reason> {
        match self.take(name) {
            Value::String(text) if fits(&text) => Ok(text),
            value => Err(because(name, &value, allowed)),
        }
    }

    pub fn text(&mut self, name: &str, most: u32) -> Result<String, Reason> {
        self.string(name, Allowed::Text(most), |text| text.chars().count() <= most as usize)
    }

    pub fn name(&mut self, name: &str, most: u32) -> Result<String, Reason> {
        self.string(name, Allowed::Name(most), |text| {
            !text.trim().is_empty() && text.chars().count() <= most as usize
        })
    }

    fn word(&mut self, name: &str, most: u32) -> Result<String, Reason> {
        let plain = |text: &str| text.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'_');
        self.string(name, Allowed::Word(most), |text| {
            (1..=most as usize).contains(&text.len()) && plain(text)
        })
    }

    pub fn list(&mut self, name: &str) -> Result<Vec<Value>, Reason> {
        match self.take(name) {
            Value::Array(items) if items.len() <= MOST_ITEMS => Ok(items),
            Value::Array(items) => {
                let most = Allowed::Items(MOST_ITEMS as u64);
                Err(Reason::new(name, &items.len().to_string(), most))
            }
            value => Err(because(name, &value, Allowed::List)),
        }
    }

    /// Nothing is left over: what is not known would be lost.
    pub fn done(&self) -> Result<(), Reason> {
        match self.0.iter().next() {
            Some((name, value)) => Err(because(name, value, Allowed::NoSuchField)),
            None => Ok(()),
        }
    }
}
