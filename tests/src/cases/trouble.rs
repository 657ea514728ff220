//! What is wrong with a case.

use core::fmt;
use serde_json::Value;

/// A key of a case that cannot be used: its value and what was wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trouble {
    /// Where it stands, as `inputs.haul.mode`.
    pub key: String,
    /// What stands there.
    pub value: String,
    /// What may stand there.
    pub wanted: String,
}

impl Trouble {
    pub(crate) fn new(key: &str, value: &str, wanted: &str) -> Self {
        Self { key: key.into(), value: value.into(), wanted: wanted.into() }
    }

    pub(crate) fn at(key: &str, value: Option<&Value>, wanted: &str) -> Self {
        Self::new(key, &value.map_or_else(|| "missing".into(), Value::to_string), wanted)
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}` is {}; wanted {}", self.key, self.value, self.wanted)
    }
}
