//! A question before its numbers are drawn.

use crate::{SlipKind, Vary};
use outlean_rig::{Allowed, Quantity, Rig};

/// An estimate: the learner predicts a number before the figure shows it. Written by a lesson's author, read
/// by the page as JSON, everything in SI. No answer stands in it: the core computes that.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct EstimateTemplate {
    /// Its name, unlike any other of the course; part of what the seed draws from.
    pub id: String,
    /// The rig it works on.
    pub rig: Rig,
    /// What varies, in the order in which it is drawn.
    pub vary: Vec<Vary>,
    /// What is asked.
    pub ask: Quantity,
    /// How near an answer must be.
    pub tolerance: Tolerance,
    /// The slips that are recognised; each is in every question drawn.
    pub slips: Vec<SlipKind>,
    /// The range that the answer must lie in, SI.
    pub answer: Allowed,
}

/// How near an answer must be to be right: within the greater of the two.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Tolerance {
    /// As a share of the answer.
    pub relative: f64,
    /// In the answer's SI unit.
    #[serde(default)]
    pub absolute: f64,
}

impl Tolerance {
    /// How far from `answer` is still right, in its SI unit.
    #[must_use]
    pub fn around(self, answer: f64) -> f64 {
        (self.relative * answer.abs()).max(self.absolute)
    }
}
