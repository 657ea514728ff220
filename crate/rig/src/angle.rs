//! Trigonometry with equal bits on every machine.

pub(crate) use libm::{asin, atan, atan2, cos, sin, sqrt, tan};

/// An angle given in degrees, in radians.
pub(crate) const fn degrees(value: f64) -> f64 {
    value * (core::f64::consts::PI / 180.0)
}

/// √(x² + y²) of numbers whose squares neither overflow nor vanish, as all checked lengths and forces are: several times
/// as fast as the library's own, which looks after those as well.
pub(crate) fn hypot(x: f64, y: f64) -> f64 {
    sqrt(x * x + y * y)
}
