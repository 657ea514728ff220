//! Spring: a guy as a force on the head, which it pulls and never pushes.

use super::Rope;
use crate::Vector;

/// A guy between the head and its anchor.
#[derive(Clone, Copy)]
pub(super) struct Spring {
    /// From the head in its reference place to the anchor, m.
    way: Vector,
    /// Length of that, and unstretched, m.
    length: f64,
    unstretched: f64,
    /// `length − unstretched`, kept apart for the sake of its digits.
    stretched_by: f64,
    stiffness: f64,
}

/// What a guy does to a displaced head.
#[derive(Clone, Copy)]
pub(super) struct Pull {
    /// Tension, N, were the rope to push too: negative where it hangs slack.
    pub signed: f64,
    /// Unit vector from the head to the anchor.
    pub way: Vector,
    /// Distance from the head to the anchor, m.
    pub length: f64,
}

impl Pull {
    pub(super) const fn tension(&self) -> f64 {
        self.signed.max(0.0)
    }
}

impl Spring {
    /// A rope that carries `tension` (N) along `way`, before it gives by `give` (m).
    pub(super) fn set(way: Vector, length: f64, rope: Rope, tension: f64, give: f64) -> Self {
        let strain = tension / rope.stiffness;
        let stretched_by = length * strain / (1.0 + strain) - give;
        Self { way, length, unstretched: length - stretched_by, stretched_by, stiffness: rope.stiffness }
    }

    /// What it does with the head displaced by `u` from its reference place. Its extension is
    /// (2d·u + u·u)/(L + L′), not a difference of lengths, so that the rigid answer is the limit of stiff ropes.
    pub(super) fn pull(&self, u: Vector) -> Pull {
        let now = self.way - u;
        let length = now.length();
        let longer = (u.length_squared() - 2.0 * self.way.dot(u)) / (length + self.length);
        Pull { signed: self.elastic() * (longer + self.stretched_by), way: now / length, length }
    }

    /// Tension for a metre longer, N/m.
    pub(super) fn elastic(&self) -> f64 {
        self.stiffness / self.unstretched
    }

    /// The part of that which grows as the rope's stiffness does at the same tension and length (m), N/m.
    pub(super) fn by_rope(&self, length: f64) -> f64 {
        self.stiffness / length
    }

    /// Tension in its reference place were it to push too, N.
    pub(super) fn at_rest(&self) -> f64 {
        self.elastic() * self.stretched_by
    }
}
