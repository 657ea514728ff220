//! Cordage: ropes and webbing by what they break at.

use super::{Capacity, CheckRule, Citation, Knot, LBF, Notes, Source, Symbol};

/// A class or size of rope whose least breaking strength is published.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum RopeClass {
    /// EN 1891 type A.
    En1891A,
    /// EN 1891 type B.
    En1891B,
    /// NFPA general use.
    NfpaGeneral,
    /// NFPA technical use.
    NfpaTechnical,
    /// Manila, 1/2 in.
    ManilaHalf,
    /// Manila, 5/8 in.
    ManilaFiveEighths,
    /// Manila, 3/4 in.
    ManilaThreeQuarters,
    /// Manila, 1 in.
    ManilaOne,
    /// Three-strand nylon, 1/2 in.
    NylonHalf,
    /// Three-strand nylon, 5/8 in.
    NylonFiveEighths,
    /// Three-strand nylon, 3/4 in.
    NylonThreeQuarters,
    /// Tubular webbing, 1 in.
    WebbingOne,
    /// Tubular webbing, 2 in.
    WebbingTwo,
}

impl RopeClass {
    /// All of them.
    pub const ALL: [Self; 13] = [
        Self::En1891A,
        Self::En1891B,
        Self::NfpaGeneral,
        Self::NfpaTechnical,
        Self::ManilaHalf,
        Self::ManilaFiveEighths,
        Self::ManilaThreeQuarters,
        Self::ManilaOne,
        Self::NylonHalf,
        Self::NylonFiveEighths,
        Self::NylonThreeQuarters,
        Self::WebbingOne,
        Self::WebbingTwo,
    ];

    /// Least breaking strength, N, new and straight, and where that comes from.
    #[must_use]
    pub const fn breaking(self) -> (f64, Citation) {
        let manila = Citation::read(Source::ManilaTable);
        let nylon = Citation::read(Source::NylonTable);
        let webbing = Citation::memory(Source::Webbing);
        match self {
            Self::En1891A => (22_000.0, Citation::read(Source::En1891)),
            Self::En1891B => (18_000.0, Citation::read(Source::En1891)),
            Self::NfpaGeneral => (40_000.0, Citation::second_hand(Source::Nfpa1983)),
            Self::NfpaTechnical => (20_000.0, Citation::memory(Source::Nfpa1983)),
            Self::ManilaHalf => (2_385.0 * LBF, manila),
            Self::ManilaFiveEighths => (3_960.0 * LBF, manila),
            Self::ManilaThreeQuarters => (4_860.0 * LBF, manila),
            Self::ManilaOne => (8_100.0 * LBF, manila),
            Self::NylonHalf => (5_750.0 * LBF, nylon),
            Self::NylonFiveEighths => (9_350.0 * LBF, nylon),
            Self::NylonThreeQuarters => (12_800.0 * LBF, nylon),
            Self::WebbingOne => (4_000.0 * LBF, webbing),
            Self::WebbingTwo => (7_000.0 * LBF, webbing),
        }
    }
}

/// A rope or webbing as it is rigged. What is `None` is not known.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(default))]
pub struct Cordage {
    /// Its class or size.
    pub class: Option<RopeClass>,
    /// Least breaking strength as its maker states it, N; goes before that of the class.
    pub breaking: Option<f64>,
    /// The weakest knot in it.
    pub knot: Option<Knot>,
    /// The share of its strength that the weakest knot leaves; goes before that of the knot. 1 for none.
    pub knot_efficiency: Option<f64>,
}

impl Cordage {
    /// The same rope, so many times as strong. As it is where no strength is known.
    pub(crate) fn times(mut self, factor: f64) -> Self {
        let breaking = self.breaking.or_else(|| self.class.map(|class| class.breaking().0));
        self.breaking = breaking.map(|breaking| breaking * factor);
        self
    }

    /// Least breaking strength × knot efficiency ÷ `factor`. `None` where the strength or the knot is not known; no
    /// allowable where no factor is asked for.
    ///
    /// ```
    /// use outlean_rig::strength::{Cordage, Knot};
    /// let rope = Cordage { breaking: Some(30_000.0), knot: Some(Knot::Bowline), ..Cordage::default() };
    /// let capacity = rope.capacity(Some(10.0)).unwrap();
    /// assert_eq!((capacity.strength, capacity.allowable), (18_000.0, Some(1_800.0)));
    /// ```
    #[must_use]
    pub fn capacity(&self, factor: Option<f64>) -> Option<Capacity> {
        self.capacity_noted(factor, &mut ())
    }

    pub(crate) fn capacity_noted(&self, factor: Option<f64>, notes: &mut impl Notes) -> Option<Capacity> {
        let stated = self.breaking.map(|breaking| (breaking, Citation::none(Source::Stated)));
        let (breaking, source) = stated.or_else(|| self.class.map(RopeClass::breaking))?;
        notes.put(Symbol::Breaking, breaking);
        let efficiency = self.knot_efficiency.or_else(|| self.knot.map(Knot::efficiency))?;
        notes.put(Symbol::KnotEfficiency, efficiency);
        Some(Capacity::breaking(breaking * efficiency, factor, CheckRule::Cordage, source, notes))
    }
}
