//! Balance lean: where the frame's plane lies on the resultant and the working guy changes sides.

use crate::angle::{asin, atan2, cos, sin, sqrt};
use crate::{Fault, Quantity, Rig, leans_where};
use arrayvec::ArrayVec;

/// The balance lean (rad) of a weightless frame whose haul line leaves the head at `slope` rad below the
/// horizontal, with `factor` times the load's tension: tan λ = k·cos γ/(1 + k·sin γ).
///
/// Source: moments about the foot line; statics of the resultant of two forces at the head.
///
/// ```
/// // A haul line at 20 degrees and a head pulley of efficiency 0.85: the balance lean moves as the line
/// // goes from lowering over holding to raising.
/// let lean = |k: f64| outlean_rig::balance_lean_to_slope(k, 20f64.to_radians()).to_degrees();
/// assert!((lean(0.85) - 31.8).abs() < 0.1);
/// assert!((lean(1.0) - 35.0).abs() < 0.1);
/// assert!((lean(1.0 / 0.85) - 38.3).abs() < 0.1);
/// ```
#[must_use]
pub fn balance_lean_to_slope(factor: f64, slope: f64) -> f64 {
    atan2(factor * cos(slope), 1.0 + factor * sin(slope))
}

/// The balance lean (rad) of a weightless frame of slant height `slant_height` (m) on level ground whose haul
/// line runs straight back to the ground `back` metres behind the foot line, without friction at the head:
/// sin λ = (√(a² + 8p²) − a)/(4p). Always below 45°.
///
/// ```
/// let lean = outlean_rig::balance_lean_to_ground(3.944, 8.0);
/// assert!((lean.to_degrees() - 36.48).abs() < 0.01);
/// ```
#[must_use]
pub fn balance_lean_to_ground(slant_height: f64, back: f64) -> f64 {
    let (a, p) = (slant_height, back);
    asin((sqrt(a * a + 8.0 * p * p) - a) / (4.0 * p))
}

/// The balance leans (rad) of a rig as it is, weight of the legs, sling and all, in its present operation:
/// where the loads have no moment about the foot line. Usually one; none where they always pull one way.
///
/// # Errors
///
/// As [`crate::solve`].
pub fn balance_leans(rig: &Rig) -> Result<ArrayVec<f64, 8>, Fault> {
    leans_where(rig, Quantity::TippingMoment, 0.0)
}
