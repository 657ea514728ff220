//! Timber legs: section, grade, and the column rules of two codes.
//!
//! A leg is a column pinned at its foot and its lashing (K = 1) that bends under its own weight, under a head load off
//! its axis, and by its crook. What the two codes do not say, and what is not counted: how far the lashing holds the
//! head of a leg against turning; twist; notches. The compression is that at the head, which holds the share of the
//! leg's weight that the head carries.

pub mod eurocode;
mod grade;
mod leg;
pub mod nds;
mod pole;

pub use grade::{Code, Grade, GradeValues};
pub use pole::{Pole, Section};

pub(crate) use leg::capacity;

/// How wet the timber is in use.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum Moisture {
    /// Wet or fresh: NDS wet service, EN 1995 service class 3.
    #[default]
    Wet,
    /// Dry, and kept dry: EN 1995 service class 1 or 2.
    Dry,
}

/// How long the load lasts over the life of the timber. The ten-minute value of the NDS (1.6) is for wind and
/// earthquake, and is not offered: a load of people may hang for hours.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum Duration {
    /// For good.
    Permanent,
    /// Ten years in all: NDS 1.0, EN 1995 long.
    #[default]
    Long,
    /// Two months in all: EN 1995 medium.
    Medium,
    /// Seven days in all: EN 1995 short.
    Short,
}

/// What both legs are of. What is `None` is not known.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(default))]
pub struct Timber {
    /// Species and grade, or class.
    pub grade: Option<Grade>,
    /// How wet.
    pub moisture: Moisture,
    /// How long the load lasts.
    pub duration: Duration,
    /// Stated compression value along the grain, Pa, for a grade that leaves it to be stated.
    pub compression: Option<f64>,
    /// Stated bending value, Pa.
    pub bending: Option<f64>,
    /// Stated modulus for stability (NDS `E_min`, EN `E_0.05`), Pa.
    pub stiffness: Option<f64>,
}
