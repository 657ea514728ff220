//! The lashing of the head, as it is laid. No slip strength is published: it is confirmed on site.

use super::timber::Section;
use super::{Citation, Source};
use crate::{Fault, Field, Leg};
use core::f64::consts::PI;

/// How the head is lashed. What is `None` is not said, and is then as it is commonly done.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(default))]
pub struct Lashing {
    /// Thickness of its rope, m; not said, no length of rope can be worked out.
    pub rope: Option<f64>,
    /// Wrapping turns round both legs; six are common practice, manuals ask for 6 to 14 ([`LASHINGS_ASKED`]).
    pub turns: Option<f64>,
    /// Frapping turns between the legs; two are common practice.
    pub frapping: Option<f64>,
    /// Gap between the legs while they are lashed, m; 45 mm (1¾ in) is common practice.
    pub spacer: Option<f64>,
    /// Length of each of its two tails, m; half a metre is our choice.
    pub tail: Option<f64>,
    /// Girth of a leg at the lashing, m; not said it follows from the section of the leg.
    pub girth: Option<f64>,
}

/// A lashing as it is laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Laid {
    /// Wrapping turns round both legs.
    pub turns: f64,
    /// Frapping turns between the legs.
    pub frapping: f64,
    /// Gap between the legs, m.
    pub spacer: f64,
    /// Each of its two tails, m.
    pub tail: f64,
}

/// What a manual asks of the lashing of such a head. Least and most, alike where one number is given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LashingAsked {
    /// Wrapping turns.
    pub turns: (u8, u8),
    /// Frapping turns; `None` where it names none.
    pub frapping: Option<(u8, u8)>,
    /// How far apart it holds the legs; `None` where it says nothing of that.
    pub gap: Option<Gap>,
    /// Which manual.
    pub source: Citation,
}

/// Distance between the legs while they are lashed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Gap {
    /// So wide, m.
    Wide(f64),
    /// This share of a leg's thickness.
    OfThickness(f64),
}

/// What manuals ask of a lashing, from the fewest turns: to lay beside one on site, no strength follows from it.
pub const LASHINGS_ASKED: [LashingAsked; 4] = [
    LashingAsked {
        turns: (6, 6),
        frapping: Some((2, 2)),
        gap: Some(Gap::Wide(0.050_8)),
        source: Citation::second_hand(Source::WarOffice),
    },
    LashingAsked {
        turns: (6, 8),
        frapping: Some((4, 6)),
        gap: None,
        source: Citation::second_hand(Source::Fm39761),
    },
    LashingAsked {
        turns: (8, 9),
        frapping: None,
        gap: Some(Gap::OfThickness(1.0 / 3.0)),
        source: Citation::read(Source::Navedtra14043),
    },
    LashingAsked {
        turns: (14, 14),
        frapping: Some((2, 2)),
        gap: None,
        source: Citation::memory(Source::Fm5125),
    },
];

/// The rope that a lashing takes, m along its middle.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct LashingRope {
    /// The wrapping turns.
    pub wrapping: f64,
    /// The frapping turns.
    pub frapping: f64,
    /// The clove hitches at its beginning and end.
    pub hitches: f64,
    /// The two tails.
    pub tails: f64,
}

impl LashingRope {
    /// All of it, m.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.wrapping + self.frapping + self.hitches + self.tails
    }
}

impl Lashing {
    /// As it is laid: what is said, and what is commonly done where nothing is.
    #[must_use]
    pub fn as_laid(&self) -> Laid {
        Laid {
            turns: self.turns.unwrap_or(6.0),
            frapping: self.frapping.unwrap_or(2.0),
            spacer: self.spacer.unwrap_or(0.045),
            tail: self.tail.unwrap_or(0.5),
        }
    }

    /// Girth of `leg` at the lashing, m: as measured, else of its section there, of a tapered pole between its ends.
    #[must_use]
    pub fn girth_of(&self, leg: &Leg) -> Option<f64> {
        let pole = leg.pole;
        let of_section = || match pole.section()? {
            Section::Sawn(breadth, depth) => Some(2.0 * (breadth + depth)),
            Section::Round(_) => {
                let tip = pole.tip_diameter.or(pole.butt_diameter)?;
                let butt = pole.butt_diameter.unwrap_or(tip);
                Some(PI * (tip + (butt - tip) * leg.lashing_below_tip / leg.length))
            }
        };
        self.girth.or_else(of_section)
    }

    /// One turn of rope round a leg of `girth` m, m.
    fn round_one(girth: f64, rope: f64) -> f64 {
        girth + PI * rope
    }

    /// From middle to middle of two legs of `girth` m where they are lashed, m.
    pub(crate) fn apart(&self, girth: f64) -> f64 {
        girth / PI + self.as_laid().spacer
    }

    /// Rope for two clove hitches on legs of `girth` m, m; `None` where its thickness is not said.
    pub(crate) fn hitches(&self, girth: f64) -> Option<f64> {
        Some(4.0 * Self::round_one(girth, self.rope?))
    }

    /// Rope for both tails, m.
    pub(crate) fn tails(&self) -> f64 {
        2.0 * self.as_laid().tail
    }

    /// The rope that the lashing takes on legs of `girth` m; `None` where the thickness of its rope is not said.
    ///
    /// A turn round two alike sections side by side is as long as the girth of one and twice from middle to middle;
    /// a frapping turn is taken to go round the whole band of turns, at most; a clove hitch is two turns round one
    /// leg. A leg that is not round is taken as the round one of its girth. Geometry, our choice; what manuals
    /// give for poles of 3 in is held against it in the tests.
    ///
    /// ```
    /// use outlean_rig::strength::Lashing;
    /// let lashing = Lashing { rope: Some(0.01), turns: Some(8.0), ..Lashing::default() };
    /// let rope = lashing.rope_on(0.4).unwrap();
    /// assert!((rope.wrapping - 8.0 * (0.4 + 2.0 * (0.4 / std::f64::consts::PI + 0.045) + 0.01 * std::f64::consts::PI)).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn rope_on(&self, girth: f64) -> Option<LashingRope> {
        let rope = self.rope?;
        let Laid { turns, frapping, .. } = self.as_laid();
        let thick = girth / PI;
        let band = 2.0 * (turns * rope + thick + 2.0 * rope) + PI * rope;
        Some(LashingRope {
            wrapping: turns * (Self::round_one(girth, rope) + 2.0 * self.apart(girth)),
            frapping: frapping * band,
            hitches: self.hitches(girth)?,
            tails: self.tails(),
        })
    }

    pub(crate) fn check(&self) -> Result<(), Fault> {
        Field::LashingRope.check_if(self.rope)?;
        Field::WrappingTurns.check_if(self.turns)?;
        Field::FrappingTurns.check_if(self.frapping)?;
        Field::Spacer.check_if(self.spacer)?;
        Field::LashingTail.check_if(self.tail)?;
        Field::LashingGirth.check_if(self.girth)
    }
}

#[cfg(test)]
mod tests {
    use super::super::timber::Pole;
    use super::*;

    fn near(found: Option<f64>, wanted: f64) {
        assert!(found.is_some_and(|found| (found - wanted).abs() < 1e-12), "{found:?}, not {wanted}");
    }

    /// As measured; of a tapered pole 80 cm below the tip of 5 m; of a sawn one all four sides.
    #[test]
    fn girth_at_the_lashing() {
        let of = |pole| Leg { pole, ..Leg::of(5.0, 0.8, 0.0) };
        let (butt, tip) = (Some(0.15), Some(0.10));
        let lashing = Lashing::default();
        near(
            lashing.girth_of(&of(Pole { butt_diameter: butt, tip_diameter: tip, ..Pole::default() })),
            PI * 0.108,
        );
        near(lashing.girth_of(&of(Pole { butt_diameter: butt, ..Pole::default() })), PI * 0.15);
        near(lashing.girth_of(&of(Pole { tip_diameter: tip, ..Pole::default() })), PI * 0.10);
        let sawn = of(Pole { breadth: Some(0.09), depth: Some(0.14), ..Pole::default() });
        near(lashing.girth_of(&sawn), 0.46);
        near(Lashing { girth: Some(0.4), ..lashing }.girth_of(&sawn), 0.4);
        assert_eq!(lashing.girth_of(&of(Pole::default())), None);
    }

    /// On poles 10 cm thick, 5 cm apart, with a rope of 1 cm: 8 turns make a band of 8 cm, round which, and round what lies
    /// between its two layers, a frapping turn goes.
    #[test]
    fn every_part_of_the_rope() {
        let lashing = Lashing {
            rope: Some(0.01),
            turns: Some(8.0),
            frapping: Some(3.0),
            spacer: Some(0.05),
            tail: Some(0.7),
            girth: None,
        };
        let rope = lashing.rope_on(0.1 * PI);
        near(rope.map(|rope| rope.wrapping), 8.0 * (0.11 * PI + 0.30));
        near(rope.map(|rope| rope.frapping), 3.0 * (0.40 + 0.01 * PI));
        near(rope.map(|rope| rope.hitches), 4.0 * 0.11 * PI);
        near(rope.map(|rope| rope.tails), 1.4);
        near(rope.map(|rope| rope.total()), 2.4 + 1.2 + 1.4 + (0.88 + 0.03 + 0.44) * PI);
    }
}
