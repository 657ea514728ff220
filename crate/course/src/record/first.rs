//! The first version of an attempt, brought up to the present one.
//!
//! It had `right`, yes or no, for a mark, and neither the lesson's version, nor the time taken, nor hints, nor the
//! objective: those are not known of it, and stay so.

use super::read::{Fields, because};
use super::{Allowed, Reason};
use serde_json::{Value, json};

/// An attempt of the first version as one of the present one. Only what differs is looked at here.
pub(super) fn migrated(value: Value) -> Result<Value, Reason> {
    let Value::Object(mut object) = value else { return Err(because("attempt", &value, Allowed::Object)) };
    for newer in ["mark", "lesson_version", "seconds", "hints", "objective"] {
        if let Some(value) = object.get(newer) {
            return Err(because(newer, value, Allowed::NoSuchField));
        }
    }
    let right = Fields(&mut object).take("right");
    let mark = match right {
        Value::Bool(true) => json!({ "share": 1, "verdict": "right" }),
        Value::Bool(false) => json!({ "share": 0, "verdict": "other" }),
        _ => return Err(because("right", &right, Allowed::YesNo)),
    };
    object.insert("mark".into(), mark);
    for unknown in ["lesson_version", "objective"] {
        object.insert(unknown.into(), "".into());
    }
    Ok(object.into())
}
