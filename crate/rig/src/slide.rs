//! Slide: a foot that friction holds, against how hard the ground must hold it.

use crate::strength::{CheckRule, Notes, Symbol, Worked};
use crate::{Rig, Side, Solution, Vector};

/// One foot on its friction. What led there, [`slide_worked`] puts down.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Slide {
    /// Which foot.
    pub side: Side,
    /// Friction coefficient that it needs with the connection that is there; infinite where nothing presses it down.
    pub needed: f64,
    /// Friction coefficient as stated.
    pub friction: f64,
    /// Needed over stated; above 1 it slides.
    pub ratio: f64,
    /// By which rule it was assessed.
    pub rule: CheckRule,
}

/// A foot of a solved rig against sliding. `None` where the feet are pinned, where the friction is not stated, and where
/// the frame tips.
#[must_use]
pub fn slide(rig: &Rig, solution: &Solution, side: Side) -> Option<Slide> {
    let friction = rig.feet.friction.filter(|_| !rig.feet.pinned)?;
    let forces = solution.forces()?;
    let needed = forces.footing.feet.on(side).friction_needed.unwrap_or(f64::INFINITY);
    // None needed is none used, of no friction too.
    let ratio = if needed > 0.0 { needed / friction } else { 0.0 };
    Some(Slide { side, needed, friction, ratio, rule: CheckRule::Friction })
}

/// The inputs and intermediate values of the friction that a foot needs, in the order in which they are worked out, then
/// that which is stated. Empty where the frame tips; without the friction needed where nothing presses the foot down.
#[must_use]
pub fn slide_worked(rig: &Rig, solution: &Solution, side: Side) -> Worked {
    let mut notes = Worked::new();
    let Some(forces) = solution.forces() else { return notes };
    let (footing, layout) = (&forces.footing, &solution.layout);
    let ground = footing.ground(side, layout);
    let left = ground.component(Vector::Z.cross(layout.forward));
    notes.put(Symbol::Kick, -ground.component(layout.forward));
    notes.put(Symbol::Outward, if matches!(side, Side::Left) { -left } else { left });
    notes.put(Symbol::Bearing, ground.z());
    if let Some(needed) = footing.feet.on(side).friction_needed {
        notes.put(Symbol::FrictionNeeded, needed);
    }
    if let Some(friction) = rig.feet.friction {
        notes.put(Symbol::Friction, friction);
    }
    notes
}
