//! The sling at the head: its parts by their angle.

use super::{Capacity, CheckRule, Cordage, Notes, Symbol};
use crate::angle::{degrees, sin};

/// The least angle of a sling's part from the level at which it is used: 30°, rad.
const LEAST: f64 = degrees(30.0);

/// The sling that holds the pulley to the head. What is `None` is not known.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(default))]
pub struct Sling {
    /// What it is made of.
    pub cordage: Cordage,
    /// How many parts of it carry together; not said is one.
    pub parts: Option<f64>,
    /// Angle of each part from the level across the pull, rad; not said is a right angle: parts side by side.
    pub angle: Option<f64>,
}

/// Tension in a part of a sling over its share of the pull: 1/sin of its angle (rad) from the level.
///
/// ```
/// assert!((outlean_rig::strength::leg_factor(30f64.to_radians()) - 2.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn leg_factor(angle: f64) -> f64 {
    1.0 / sin(angle)
}

impl Sling {
    /// What it may carry together, along its pull. `None` where that is not known, and for parts flatter than 30°
    /// from the level, at which slings are not used.
    #[must_use]
    pub fn capacity(&self, factor: Option<f64>) -> Option<Capacity> {
        self.capacity_noted(factor, &mut ())
    }

    pub(crate) fn capacity_noted(&self, factor: Option<f64>, notes: &mut impl Notes) -> Option<Capacity> {
        let one = self.cordage.capacity_noted(factor, notes)?;
        let (parts, angle) = (self.parts.unwrap_or(1.0), self.angle.unwrap_or(degrees(90.0)));
        notes.put(Symbol::Parts, parts);
        notes.put(Symbol::SlingAngle, angle);
        if angle < LEAST * (1.0 - 1e-12) {
            return None;
        }
        let times = parts / leg_factor(angle);
        notes.put(Symbol::LegFactor, leg_factor(angle));
        let strength = one.strength * times;
        Some(Capacity {
            strength,
            allowable: factor.map(|factor| strength / factor),
            failure: Some(strength),
            rule: CheckRule::Sling,
            ..one
        })
    }
}
