//! The resultant: what the head feels.

use crate::{Force, Layout, Point, Vector};

/// The sum of all forces on the head but those of the frame itself and its guys: the lines and the legs'
/// own weight. The frame wants its plane on it; there the guys only steady it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Resultant {
    /// The sum, N, acting at the head.
    pub force: Force,
    /// Its moment about the foot line, N m; positive tips forward.
    pub tipping_moment: f64,
    /// Where its line of action meets the level of the feet; `None` where it does not point down at it.
    pub meets_ground: Option<Point>,
    /// How far ahead of the foot line that is, m; negative behind.
    pub ahead_of_feet: Option<f64>,
}

impl Resultant {
    pub(crate) fn of(force: Force, layout: &Layout) -> Self {
        let tipping_moment = force.moment_about(layout.mid_base, layout.foot_line, layout.head);
        let drop = layout.head.z() - layout.mid_base.z();
        let meets_ground = (force.z() < 0.0 && drop > 0.0)
            .then(|| layout.head + Vector::from_array(force.components()) * (drop / -force.z()))
            .filter(|point| point.coordinates().iter().all(|c| c.abs() < 1e6));
        let ahead_of_feet = meets_ground.map(|point| -layout.setback(point));
        Self { force, tipping_moment, meets_ground, ahead_of_feet }
    }
}
