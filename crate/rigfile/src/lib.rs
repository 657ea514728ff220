//! The rig as people write it: quantities with units, the field table, files in which every error is
//! reported at once.
#![deny(missing_docs)]

mod choices;
mod fields;
mod ground;
mod nearest;
mod number;
mod quantity;
mod unit;
mod units;

pub use choices::{CHOICES, ChoiceError, ChoiceRef, ChoiceSpec, choice};
pub use fields::{FIELDS, FieldRef, FieldSpec, SetError, Whose, field, first_guy, key_of};
pub use nearest::nearest;
pub use quantity::{Answer, QuantityError, Reading, parse, parse_answer};
pub use unit::{UNITS, Unit};
pub use units::{DEG, FT, INCH, LB, LBF, Shown, Units, percent, show};
