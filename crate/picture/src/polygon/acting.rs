//! What acts on the head, in the order in which it is laid tail to head: what loads it, what answers.

use crate::drawing::projection::Projection;
use crate::force_scale::on_head;
use crate::{Kind, LabelKey};
use outlean_rig::{Force, Rig, Solution};

/// A force on the head as the side view shows it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Acting {
    /// The label that it has: `load`, `haul line` and `guy` with a number, `weight`, `legs`.
    pub key: LabelKey,
    /// What kind of force it is.
    pub kind: Kind,
    /// Its part forward, N.
    pub forward: f64,
    /// Its part upward, N.
    pub up: f64,
    /// Its whole size, N: more than what the side view shows of it where it acts out of that plane too. Of the legs the
    /// size of their sum in the plane.
    pub size: f64,
}

/// What acts on the head of a rig: the lines and the legs' weight, and of a frame that stands the guys and the legs.
/// What is nil is left out.
pub(super) fn acting(rig: &Rig, solution: &Solution) -> Vec<Acting> {
    let view = Projection::from_the_right(&solution.layout, 1.0, (0.0, 0.0));
    let mut all = Vec::new();
    let mut act = |key: LabelKey, kind: Kind, force: Force, whole: bool| {
        let (forward, up) = view.flat_force(force);
        let flat = libm::hypot(forward, up);
        if flat > 0.0 {
            let size = if whole { force.size() } else { flat };
            all.push(Acting { key, kind, forward, up, size });
        }
    };
    for (number, line) in (0_u8..).zip(solution.lines()) {
        act(("load", number), Kind::Load, line.load, true);
    }
    let weight = solution.lines_on_head() - solution.resultant.force;
    act(("weight", 0), Kind::Load, -weight, true);
    for (number, line) in (0_u8..).zip(solution.lines()) {
        act(("haul line", number), Kind::Pull, line.haul, true);
    }
    if let Some(forces) = solution.forces() {
        for ((number, guy), force) in (0_u8..).zip(&rig.guys).zip(&forces.guys) {
            let rope = guy.anchor - solution.layout.head;
            if let Some(way) = rope.try_normalize() {
                act(("guy", number), Kind::Pull, Force::along(way, force.tension), true);
            }
        }
        act(("legs", 0), Kind::Push, on_head(solution).unwrap_or(Force::ZERO), false);
    }
    all
}
