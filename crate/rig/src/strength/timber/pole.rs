//! The section of a leg.

use crate::angle::sqrt;
use crate::{Fault, Field, Side};
use core::f64::consts::PI;

/// What is known of a pole beside its length and weight. What is `None` is not known.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(default))]
pub struct Pole {
    /// Diameter at the foot of a round pole, m.
    pub butt_diameter: Option<f64>,
    /// Diameter at its tip, m. One diameter alone is that of the whole pole.
    pub tip_diameter: Option<f64>,
    /// Breadth of a sawn leg, m; a leg with a diameter is round. One side alone is a square.
    pub breadth: Option<f64>,
    /// Its depth, m.
    pub depth: Option<f64>,
    /// Greatest gap between the pole and a string along it, m; not said is straight.
    pub crook: Option<f64>,
    /// How far from its axis the head loads it, m; not said is half of its thickness, as where the lashing bears on
    /// its side.
    pub eccentricity: Option<f64>,
}

/// The section by which a pole is assessed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Section {
    /// Round, of this diameter, m.
    Round(f64),
    /// Sawn, of these sides, m, the lesser first.
    Sawn(f64, f64),
}

impl Pole {
    /// The section: of a round pole that a third up from its tip, where the codes take a tapered column; of a sawn leg
    /// its sides. `None` where neither is known.
    ///
    /// ```
    /// use outlean_rig::strength::timber::{Pole, Section};
    /// let pole = Pole { tip_diameter: Some(0.125), butt_diameter: Some(0.3125), ..Pole::default() };
    /// assert_eq!(pole.section(), Some(Section::Round(0.1875)));
    /// assert_eq!(Pole::default().section(), None);
    /// ```
    #[must_use]
    pub fn section(&self) -> Option<Section> {
        if let Some(tip) = self.tip_diameter.or(self.butt_diameter) {
            let butt = self.butt_diameter.unwrap_or(tip);
            return Some(Section::Round(tip + (butt - tip) / 3.0));
        }
        let breadth = self.breadth.or(self.depth)?;
        let depth = self.depth.unwrap_or(breadth);
        Some(Section::Sawn(breadth.min(depth), breadth.max(depth)))
    }

    /// The thinnest place, m.
    #[must_use]
    pub fn least_thickness(&self) -> Option<f64> {
        let round = self.tip_diameter.into_iter().chain(self.butt_diameter).reduce(f64::min);
        round.or_else(|| self.breadth.into_iter().chain(self.depth).reduce(f64::min))
    }

    pub(crate) fn check(&self, side: Side) -> Result<(), Fault> {
        Field::ButtDiameter(side).check_if(self.butt_diameter)?;
        Field::TipDiameter(side).check_if(self.tip_diameter)?;
        Field::Breadth(side).check_if(self.breadth)?;
        Field::Depth(side).check_if(self.depth)?;
        Field::Crook(side).check_if(self.crook)?;
        Field::Eccentricity(side).check_if(self.eccentricity)
    }
}

impl Section {
    /// Area, m².
    #[must_use]
    pub fn area(self) -> f64 {
        match self {
            Self::Round(d) => PI * d * d / 4.0,
            Self::Sawn(b, d) => b * d,
        }
    }

    /// The side by which buckling is judged, m: the lesser; of a round section that of the square of the same area
    /// (NDS 3.7.3).
    #[must_use]
    pub fn side(self) -> f64 {
        match self {
            Self::Round(d) => d * sqrt(PI) / 2.0,
            Self::Sawn(b, _) => b,
        }
    }

    /// Section modulus about the weaker axis over the area, m: bending stress is axial stress × eccentricity over this.
    /// An eighth of a diameter, a sixth of a side.
    #[must_use]
    pub fn core(self) -> f64 {
        match self {
            Self::Round(d) => d / 8.0,
            Self::Sawn(b, _) => b / 6.0,
        }
    }

    /// Least radius of gyration, m.
    #[must_use]
    pub fn gyration(self) -> f64 {
        match self {
            Self::Round(d) => d / 4.0,
            Self::Sawn(b, _) => b / sqrt(12.0),
        }
    }

    /// Thickness, m: the diameter or the lesser side.
    #[must_use]
    pub const fn thickness(self) -> f64 {
        match self {
            Self::Round(d) | Self::Sawn(d, _) => d,
        }
    }
}
