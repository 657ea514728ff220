//! Trigonometry with equal bits on every machine.

pub(crate) use libm::{asin, atan, atan2, cos, sin, sqrt, tan};

/// An angle given in degrees, in radians.
pub(crate) const fn degrees(value: f64) -> f64 {
    value * (core::f64::consts::PI / 180.0)
}
