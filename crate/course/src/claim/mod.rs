//! Claims: what a statement, a reading or a condition says of a rig, as data that the core holds against it.
//!
//! An author writes a short sentence ([`Claim::read`] has the forms); nobody ever types in whether it is so.

mod atoms;
mod ender;
mod holds;
mod operand;
mod read;

pub use atoms::Atom;
pub use ender::Ender;
pub use holds::{CLEAR, Sides, Truth, Unclear};
pub(crate) use holds::{Judged, fit_to_show};
pub use operand::Operand;
pub use read::{Misread, Why};

use outlean_rig::Station;

/// Something that is so on one rig and not on another.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Claim {
    /// One side against another, both of one dimension.
    Compare {
        /// What stands before the sign.
        left: Term,
        /// How it is to stand to the other side.
        is: Comparison,
        /// What stands after the sign.
        right: Term,
    },
    /// What becomes of a reading when a field grows by one step.
    Change {
        /// The reading.
        of: Operand,
        /// What becomes of it.
        way: Way,
        /// The key of the field that grows.
        with: String,
    },
    /// The lean lies in the working range; `false`: it lies outside.
    InRange(bool),
    /// The frame stands; `false`: it tips.
    Stands(bool),
    /// The first guy of a station is the one that works; `false`: another works, or none.
    Works(Station, bool),
    /// This ends the stretch of the working range that the rig's lean lies in, at its end farther out, or farther
    /// back.
    Governs(Ender, End),
}

/// A side of a comparison: so many times something.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Term {
    /// How many times.
    pub factor: f64,
    /// What.
    pub of: Operand,
}

/// How two sides are to stand to one another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Comparison {
    /// Greater.
    More,
    /// Greater or equal.
    AtLeast,
    /// Less.
    Less,
    /// Less or equal.
    AtMost,
    /// Equal, as nearly as numbers can be told apart when read.
    Equal,
}

/// What becomes of a reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// It grows.
    Rises,
    /// It becomes less.
    Falls,
    /// It stays what it was.
    Stays,
}

/// An end of a stretch of leans.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum End {
    /// The one farther out.
    Out,
    /// The one farther back.
    Back,
}
