//! Any text as the rig in an address: a rig, or the key that is wrong. What is read comes back by its keys.

use crate::rig_file::comes_back;
use outlean_rig::Rig;
use outlean_rigfile::{FlatError, SetError, Value, choice, field, rig_of};

pub fn held(text: &str) {
    let entries = entries(text);
    match rig_of(&entries) {
        Ok(rig) => comes_back(&rig),
        Err(why) => {
            let (FlatError::Key(key) | FlatError::Field(key, _) | FlatError::Word(key)) = why;
            assert!(entries.iter().any(|(given, _)| *given == key), "{key} is not among what was given");
            match why {
                FlatError::Field(_, SetError::Fault(fault)) => {
                    let allowed = fault.allowed.least <= fault.value && fault.value <= fault.allowed.most;
                    assert!(!allowed, "a fault that is none: {fault}");
                }
                FlatError::Field(..) => assert!(field(key).is_some()),
                FlatError::Word(_) => assert!(choice(key).is_some()),
                FlatError::Key(_) => {}
            }
        }
    }
}

/// The rig of an address that makes one.
pub fn rig(text: &str) -> Option<Rig> {
    rig_of(&entries(text)).ok()
}

/// As `www/link.js` reads them: `key=value&…`, numbers as such.
fn entries(text: &str) -> Vec<(&str, Value<'_>)> {
    let pairs = text.split('&').map(|pair| pair.split_once('=').unwrap_or((pair, "")));
    pairs.map(|(key, value)| (key, value.parse().map_or(Value::Word(value), Value::Number))).collect()
}
