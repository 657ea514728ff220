//! The rig as people write it: quantities with units, the field table, files in which every error is
//! reported at once.
#![deny(missing_docs)]

mod units;

pub use units::{DEG, FT, INCH, LB, LBF, Shown, Units, percent, show};
