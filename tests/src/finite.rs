//! Whether everything in a result is a finite number.

use serde::Serialize;
use serde_json::Value;

/// What a reading may lack, as JSON has it: null.
pub const MAY_LACK: [&str; 9] = [
    ".second",
    ".redirect",
    ".meets_ground",
    ".ahead_of_feet",
    ".pressure",
    ".friction_alone",
    ".friction_evened",
    ".friction_needed",
    ".working_guy",
];

/// The paths of what is null in the JSON of `result` though it should be a number: a NaN or an infinity.
///
/// JSON has neither, so that they turn into null; so does an absent value. Paths ending in one of `may_be_null`
/// may be null.
///
#[must_use]
pub fn nulls(result: &impl Serialize, may_be_null: &[&str]) -> Vec<String> {
    let value = serde_json::to_value(result).unwrap_or(Value::Null);
    let mut found = Vec::new();
    walk(&value, String::new(), &mut found);
    found.retain(|path| !may_be_null.iter().any(|end| path.ends_with(end)));
    found
}

fn walk(value: &Value, path: String, found: &mut Vec<String>) {
    match value {
        Value::Null => found.push(path),
        Value::Array(list) => {
            for (i, item) in list.iter().enumerate() {
                walk(item, format!("{path}[{i}]"), found);
            }
        }
        Value::Object(map) => {
            for (key, item) in map {
                walk(item, format!("{path}.{key}"), found);
            }
        }
        Value::Bool(_) | Value::Number(_) | Value::String(_) => {}
    }
}
