//! What is wrong in a file that someone wrote, and where.

use crate::quantity::QuantityError;
use crate::unit::Unit;
use core::ops::Range;
use outlean_rig::{Allowed, Dimension, Fault};

/// One thing wrong in a file: data, not sentences. [`Problem::said`] puts it in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// Whether the file can be used all the same.
    pub severity: Severity,
    /// Where it stands, in bytes of the text.
    pub span: Range<usize>,
    /// What it is.
    pub what: What,
}

/// How bad a problem is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// The file cannot be used.
    Error,
    /// It can, but its author may not mean what it says.
    Warning,
}

/// What may stand at a key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// A number with a unit, in quotes.
    Quantity(Dimension),
    /// A lean in one of its four forms, in quotes.
    Lean,
    /// One of some words, in quotes.
    Word,
    /// true or false.
    YesNo,
    /// Any text, in quotes.
    Text,
    /// A table.
    Table,
    /// A list of tables.
    Tables,
}

/// What is wrong. Keys are dotted; those of a guy begin with `guy.N.`, N from 0.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum What {
    /// Not TOML.
    Syntax {
        /// What the TOML parser says.
        message: String,
    },
    /// More text than a rig file may be: nothing of it is read.
    TooLong {
        /// How many bytes it is.
        bytes: usize,
        /// How many it may be.
        most: usize,
    },
    /// Tables and lists that stand deeper in one another than may be.
    TooDeep {
        /// How deep they may.
        most: usize,
    },
    /// No field has that name.
    UnknownKey {
        /// The key.
        key: String,
        /// The name spelled most like it that may stand there.
        nearest: Option<String>,
        /// Every name that may stand there.
        others: Vec<String>,
    },
    /// Something of another kind stands at a key.
    WrongType {
        /// The key.
        key: String,
        /// What kind of TOML value stands there.
        found: &'static str,
        /// What should.
        wanted: Wanted,
    },
    /// Text that is not the quantity wanted.
    BadQuantity {
        /// The key.
        key: String,
        /// Why not.
        error: QuantityError,
        /// What is wanted.
        wanted: Dimension,
    },
    /// Text that is no lean.
    BadLean {
        /// Why not.
        error: QuantityError,
    },
    /// A reach longer than the frame.
    ReachTooLong {
        /// As written.
        written: String,
        /// The longest reach of that frame, m.
        most: f64,
        /// The unit written.
        unit: Option<&'static Unit>,
    },
    /// A quantity beyond what is allowed.
    OutOfRange {
        /// The key.
        key: String,
        /// As written.
        written: String,
        /// What is allowed, in the SI unit of `dimension`.
        allowed: Allowed,
        /// What the field measures.
        dimension: Dimension,
        /// The unit written.
        unit: Option<&'static Unit>,
    },
    /// A word that is none of the options.
    NoSuchOption {
        /// The key.
        key: String,
        /// The word.
        word: String,
        /// The option spelled most like it.
        nearest: Option<&'static str>,
        /// Every option.
        options: &'static [&'static str],
    },
    /// A field that every rig needs is not there.
    Missing {
        /// The key.
        key: String,
    },
    /// A field that this path of its line needs is not there.
    MissingFor {
        /// The key.
        key: String,
        /// The path.
        path: &'static str,
    },
    /// A field that this path of its line does not use.
    Unused {
        /// The key.
        key: String,
        /// The path.
        path: &'static str,
    },
    /// Two fields that say the same thing twice.
    Both {
        /// One.
        first: String,
        /// The other.
        second: String,
    },
    /// More guys than a rig may have.
    TooManyGuys {
        /// How many may be.
        most: usize,
        /// How many are.
        count: usize,
    },
    /// Numbers allowed on their own, impossible together.
    Implied {
        /// What is impossible.
        fault: Fault,
        /// The unit in which the author wrote the field marked.
        unit: Option<&'static Unit>,
    },
    /// A field that is of no use without another.
    Needs {
        /// The key.
        key: String,
        /// The key that is missing.
        needs: String,
    },
    /// A field left out that makes the forces come out smaller than they are.
    LeftOut {
        /// The key.
        key: String,
    },
}

impl What {
    /// The key that it is about, dotted; `None` for what is about the file, or about several keys.
    #[must_use]
    pub fn key(&self) -> Option<String> {
        match self {
            Self::UnknownKey { key, .. }
            | Self::WrongType { key, .. }
            | Self::BadQuantity { key, .. }
            | Self::OutOfRange { key, .. }
            | Self::NoSuchOption { key, .. }
            | Self::Missing { key }
            | Self::MissingFor { key, .. }
            | Self::Unused { key, .. }
            | Self::Needs { key, .. }
            | Self::LeftOut { key } => Some(key.clone()),
            Self::BadLean { .. } | Self::ReachTooLong { .. } => Some("lean".to_owned()),
            Self::Both { second, .. } => Some(second.clone()),
            Self::Implied { fault, .. } => crate::key_of(fault.field),
            Self::Syntax { .. } | Self::TooLong { .. } | Self::TooDeep { .. } | Self::TooManyGuys { .. } => {
                None
            }
        }
    }
}
