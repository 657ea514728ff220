//! The rig as people write it: quantities with units, the field table, files in which every error is
//! reported at once.
#![deny(missing_docs)]

mod choices;
mod cite;
mod decimal;
mod fields;
#[cfg(feature = "file")]
mod file;
mod fixed;
mod flat;
mod gear_choices;
mod job;
mod lean;
mod nearest;
mod number;
mod place;
mod problem;
mod quantity;
mod said;
mod unit;
mod units;
mod words;

pub use choices::{ChoiceError, ChoiceRef, ChoiceSpec, choice, choices};
pub use cite::{cited, key_of_variant};
pub use fields::{FieldRef, FieldSpec, SetError, Whose, field, fields, first_guy, key_of};
#[cfg(feature = "file")]
pub use file::{EditError, MOST_BYTES, RigFile, edit, guys_in, read, with_guy, without_guy, written};
pub use fixed::fixed;
pub use flat::{FlatError, Value, entries_of, rig_of};
pub use job::{JOB, JOB_TEXTS, Job, JobField, LEAN_AGAIN};
pub use lean::parse_lean;
pub use nearest::nearest;
pub use problem::{Problem, Severity, Wanted, What};
pub use quantity::{Answer, QuantityError, Reading, parse, parse_answer};
pub use said::{Said, dimension_key};
pub use unit::{UNITS, Unit};
pub use units::{DEG, FT, INCH, LB, LBF, Shown, Units, are_fine, measured, measured_so, percent, show};
pub use words::Words;
