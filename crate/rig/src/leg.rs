//! A leg: one pole of the frame.

use crate::strength::timber::Pole;
use crate::{Fault, Field, Side};

/// One pole, from its foot on the ground past the lashing to its tip.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Leg {
    /// Foot to tip, m.
    pub length: f64,
    /// Centre of the lashing below the tip, along the leg, m.
    pub lashing_below_tip: f64,
    /// Weight per metre of length, N/m; 0 for a leg whose weight is left out.
    pub weight_per_metre: f64,
    /// Its section, for what it may carry.
    #[cfg_attr(feature = "serde", serde(default))]
    pub pole: Pole,
}

impl Leg {
    /// A weightless leg of `working_length` metres from foot to lashing, with no tip beyond it.
    #[must_use]
    pub const fn weightless(working_length: f64) -> Self {
        Self::of(working_length, 0.0, 0.0)
    }

    /// A leg of that length, its lashing so far below its tip (m), of that weight per metre (N/m), of unknown section.
    #[must_use]
    pub const fn of(length: f64, lashing_below_tip: f64, weight_per_metre: f64) -> Self {
        let pole = Pole {
            butt_diameter: None,
            tip_diameter: None,
            breadth: None,
            depth: None,
            crook: None,
            eccentricity: None,
        };
        Self { length, lashing_below_tip, weight_per_metre, pole }
    }

    /// Foot to lashing, m.
    #[must_use]
    pub fn working_length(&self) -> f64 {
        self.length - self.lashing_below_tip
    }

    /// Weight of the whole leg, N.
    #[must_use]
    pub fn weight(&self) -> f64 {
        self.weight_per_metre * self.length
    }

    /// The share of its weight that the head carries, N. The leg's centroid is at half its *length*, its
    /// support at the *lashing*, so a long tip puts more than half of it on the head. The foot carries the
    /// rest ([`Leg::weight_at_foot`]).
    ///
    /// ```
    /// let leg = outlean_rig::Leg::of(5.0, 1.0, 40.0);
    /// assert_eq!(leg.weight_at_head(), 40.0 * 5.0 * 2.5 / 4.0);
    /// ```
    #[must_use]
    pub fn weight_at_head(&self) -> f64 {
        self.weight() * (self.length / 2.0) / self.working_length()
    }

    /// The share of its weight that goes straight into the foot, N; negative for a leg with more than half
    /// of its length beyond the lashing.
    #[must_use]
    pub fn weight_at_foot(&self) -> f64 {
        self.weight() - self.weight_at_head()
    }

    /// Bending moment midway between foot and lashing from the leg's own weight, N m, for a leg whose level
    /// run from foot to lashing is `level_run` metres: w⊥·ℓ²/8 of a beam on two supports, less half the
    /// moment of the tip beyond the lashing.
    #[must_use]
    pub fn midspan_moment(&self, level_run: f64) -> f64 {
        let (span, tip) = (self.working_length(), self.lashing_below_tip);
        let across = self.weight_per_metre * level_run / span;
        across * (span * span / 8.0 - tip * tip / 4.0)
    }

    /// The same leg of a pole thicker by so much everywhere, m, heavier by its section. As it is where its section is not
    /// known.
    pub(crate) fn thicken(&mut self, by: f64) {
        let Some(before) = self.pole.section() else { return };
        let pole = &mut self.pole;
        for side in [&mut pole.butt_diameter, &mut pole.tip_diameter, &mut pole.breadth, &mut pole.depth] {
            *side = side.map(|side| side + by);
        }
        let after = self.pole.section().unwrap_or(before);
        self.weight_per_metre *= after.area() / before.area();
    }

    pub(crate) fn check(&self, side: Side) -> Result<(), Fault> {
        Field::LegLength(side).check(self.length)?;
        Field::LashingBelowTip(side).check(self.lashing_below_tip)?;
        Field::LegWeight(side).check(self.weight_per_metre)?;
        Field::WorkingLength(side).check(self.working_length())?;
        self.pole.check(side)
    }
}
