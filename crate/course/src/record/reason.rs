//! Why something in a record's file is not taken: the field, its value, what is allowed.

/// The most characters of a value that a reason repeats.
const MOST_SHOWN: usize = 60;

/// Why something is not taken.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
pub struct Reason {
    /// The field.
    pub field: String,
    /// Its value as JSON, at most 60 characters of it; empty where the field is missing.
    pub value: String,
    /// What is allowed.
    pub allowed: Allowed,
}

/// What a field allows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Allowed {
    /// JSON, not nested deeper than 127.
    Json,
    /// So many bytes of file at most.
    Bytes(u64),
    /// So many of a list at most.
    Items(u64),
    /// The name of the format.
    Format,
    /// A version up to this one.
    Version(u32),
    /// An object.
    Object,
    /// A list.
    List,
    /// A whole number of at most this.
    Whole(u64),
    /// A number from 0 to 1.
    Share,
    /// Yes or no.
    YesNo,
    /// Text of at most so many characters.
    Text(u32),
    /// The same, and not empty.
    Name(u32),
    /// Small letters and `_`, 1 to this many.
    Word(u32),
    /// No field of that name.
    NoSuchField,
    /// One attempt at a time, question and seed.
    Once,
}

impl Allowed {
    /// Its name, as words are found by.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Json => "json",
            Self::Bytes(_) => "bytes",
            Self::Items(_) => "items",
            Self::Format => "format",
            Self::Version(_) => "version",
            Self::Object => "object",
            Self::List => "list",
            Self::Whole(_) => "whole",
            Self::Share => "share",
            Self::YesNo => "yes_no",
            Self::Text(_) => "text",
            Self::Name(_) => "name",
            Self::Word(_) => "word",
            Self::NoSuchField => "no_such_field",
            Self::Once => "once",
        }
    }

    /// The most that it allows, where that is a number.
    #[must_use]
    pub const fn most(self) -> Option<u64> {
        match self {
            Self::Bytes(most) | Self::Items(most) | Self::Whole(most) => Some(most),
            Self::Version(most) | Self::Text(most) | Self::Name(most) | Self::Word(most) => Some(most as u64),
            _ => None,
        }
    }
}

impl Reason {
    /// Why `field`, which is `value`, is not taken.
    #[must_use]
    pub fn new(field: &str, value: &str, allowed: Allowed) -> Self {
        let short = |text: &str| text.chars().take(MOST_SHOWN).collect();
        Self { field: short(field), value: short(value), allowed }
    }

    /// A second attempt at the same time, question and seed.
    pub(super) fn twice(time: u64) -> Self {
        Self::new("time", &time.to_string(), Allowed::Once)
    }
}
