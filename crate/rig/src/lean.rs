//! The four ways people give lean.

use crate::angle::{asin, atan, tan};
use core::f64::consts::FRAC_PI_2;

/// Lean as someone measured it. All four mean an angle of the frame's plane from the vertical, forward
/// positive; [`Lean::from_vertical`] gives it, and the other functions show it in each way.
///
/// ```
/// use outlean_rig::Lean;
/// // "One in three": a third of the height out. About 18.4 degrees.
/// let lean = Lean::Slope(1.0 / 3.0).from_vertical(3.95).to_degrees();
/// assert!((lean - 18.435).abs() < 1e-3);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Lean {
    /// Angle from the vertical, rad.
    Vertical(f64),
    /// Angle from level ground, rad: 90° less the angle from the vertical.
    Ground(f64),
    /// Plumb line from the head to the foot line, m, forward positive.
    Reach(f64),
    /// Reach over height: 1/3 for "1 in 3".
    Slope(f64),
}

impl Lean {
    /// The angle from the vertical, in rad, for a frame of the given slant height (m). A reach beyond the
    /// slant height gives NaN, which every check refuses.
    #[must_use]
    pub fn from_vertical(self, slant_height: f64) -> f64 {
        match self {
            Self::Vertical(angle) => angle,
            Self::Ground(angle) => FRAC_PI_2 - angle,
            Self::Reach(reach) => asin(reach / slant_height),
            Self::Slope(slope) => atan(slope),
        }
    }

    /// The angle from level ground, rad, of a lean given from the vertical.
    #[must_use]
    pub fn to_ground(from_vertical: f64) -> f64 {
        FRAC_PI_2 - from_vertical
    }

    /// Reach over height of a lean given from the vertical.
    #[must_use]
    pub fn to_slope(from_vertical: f64) -> f64 {
        tan(from_vertical)
    }
}
