//! Holdfasts: pickets, pins, and what else a rope is tied to on the ground.

use super::{Basis, Capacity, CheckRule, Citation, LBF, Notes, Source, Symbol};

/// Newtons in a kilogram-force.
const KGF: f64 = crate::G;

/// What kind of holdfast.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum HoldfastKind {
    /// One wooden picket: at least 3 in thick and 5 ft long, driven 3 to 4 ft, 15° back.
    Picket,
    /// A picket lashed to another behind it.
    Pickets11,
    /// Three pickets in a row.
    Pickets111,
    /// Two in front, one behind.
    Pickets21,
    /// Three, two, one.
    Pickets321,
    /// Steel pickets 25 mm thick and 1.5 m long, driven two thirds at 45°, at least 1 m apart.
    SteelPickets,
    /// Steel pins 1 in thick and 48 in long, driven 36 in.
    Pins1Inch,
    /// Steel pins 3 in thick and 48 in long.
    Pins3Inch,
    /// A tree, a boulder.
    Natural,
    /// A buried log or beam.
    Deadman,
}

impl HoldfastKind {
    /// All of them.
    pub const ALL: [Self; 10] = [
        Self::Picket,
        Self::Pickets11,
        Self::Pickets111,
        Self::Pickets21,
        Self::Pickets321,
        Self::SteelPickets,
        Self::Pins1Inch,
        Self::Pins3Inch,
        Self::Natural,
        Self::Deadman,
    ];

    /// Least distance from picket to picket, m, and where that comes from; `None` where there is no such rule.
    #[must_use]
    pub const fn spacing(self) -> Option<(f64, Citation)> {
        match self {
            Self::Pickets11 | Self::Pickets111 | Self::Pickets21 | Self::Pickets321 => {
                Some((0.9144, Citation::read(Source::Navedtra14251)))
            }
            Self::SteelPickets => Some((1.0, Citation::read(Source::DisasterRescue))),
            _ => None,
        }
    }
}

/// The ground that a holdfast is driven into.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Soil {
    /// Undisturbed loam.
    Loam,
    /// Clay and gravel, wet.
    WetClayGravel,
    /// River clay and sand, wet.
    WetClaySand,
    /// Poor clay.
    ClayPoor,
    /// Average clay.
    ClayAverage,
    /// Good clay.
    ClayGood,
    /// Loose sand.
    SandLoose,
    /// Medium sand.
    SandMedium,
    /// Dense sand.
    SandDense,
}

impl Soil {
    /// All of them.
    pub const ALL: [Self; 9] = [
        Self::Loam,
        Self::WetClayGravel,
        Self::WetClaySand,
        Self::ClayPoor,
        Self::ClayAverage,
        Self::ClayGood,
        Self::SandLoose,
        Self::SandMedium,
        Self::SandDense,
    ];

    /// What wet ground leaves of the holding of wooden pickets in loam; `None` for ground of which none is published.
    #[must_use]
    pub const fn picket_factor(self) -> Option<f64> {
        match self {
            Self::Loam => Some(1.0),
            Self::WetClayGravel => Some(0.9),
            Self::WetClaySand => Some(0.5),
            _ => None,
        }
    }
}

/// A holdfast. What is `None` is not known.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(default))]
pub struct Holdfast {
    /// What kind.
    pub kind: Option<HoldfastKind>,
    /// What it is driven into.
    pub soil: Option<Soil>,
    /// How many steel pickets or pins; not said is one.
    pub pickets: Option<f64>,
    /// Least distance from picket to picket, m.
    pub spacing: Option<f64>,
    /// What it is taken to hold, N, as the person who builds it says: of a natural anchor, a deadman, any other.
    pub strength: Option<f64>,
}

/// Published holdings of a 1-1-1, N, from the least: what brackets the 2,000 lbf that is commonly taught. Three 1 in
/// pins in sand and clay added up; wooden pickets in loam, wet and dry; steel pickets.
pub const BRACKET_1_1_1: [(f64, Citation); 8] = [
    (150.0 * LBF, Citation::second_hand(Source::UsaceFog)),
    (189.0 * LBF, Citation::second_hand(Source::UsaceFog)),
    (900.0 * LBF, Citation::memory(Source::Fm5125)),
    (1_500.0 * LBF, Citation::second_hand(Source::UsaceFog)),
    (1_620.0 * LBF, Citation::memory(Source::Fm5125)),
    (1_800.0 * LBF, Citation::read(Source::Navedtra14251)),
    (1_050.0 * KGF, Citation::read(Source::DisasterRescue)),
    (3_000.0 * LBF, Citation::second_hand(Source::UsaceFog)),
];

/// The most that a system of steel pickets is said to hold, N: 2 t.
const MOST_STEEL: f64 = 2_000.0 * KGF;

impl Holdfast {
    /// Whether anything is said of it.
    #[must_use]
    pub fn is_known(&self) -> bool {
        *self != Self::default()
    }

    /// A holdfast that holds so many times as much. As it is where that is not known.
    pub(crate) fn times(mut self, factor: f64) -> Self {
        self.strength = self.capacity().map(|capacity| capacity.strength * factor).or(self.strength);
        self
    }

    /// What it may hold against a pull near the level. `None` where that is not known: no kind, no ground, or ground
    /// of which nothing is published for that kind.
    ///
    /// * Wooden pickets: the published holding in loam × the factor of wet ground; what it stands on is not said, so
    ///   it is assumed, not assessed: a test load on site settles it.
    /// * Steel pickets: a working load each, added up, at most 2 t together.
    /// * Pins: published design loads, about half of what they hold, added up.
    /// * Anything else: what was said, assumed.
    ///
    /// A strength that was said goes before the tables.
    #[must_use]
    pub fn capacity(&self) -> Option<Capacity> {
        self.capacity_noted(&mut ())
    }

    pub(crate) fn capacity_noted(&self, notes: &mut impl Notes) -> Option<Capacity> {
        if let Some(strength) = self.strength {
            notes.put(Symbol::Holding, strength);
            return Some(Capacity { rule: CheckRule::StatedHoldfast, ..Capacity::stated(strength) });
        }
        match self.kind? {
            HoldfastKind::Natural | HoldfastKind::Deadman => None,
            HoldfastKind::SteelPickets => {
                let each = 350.0 * KGF;
                let strength = self.counted(each, notes).min(MOST_STEEL);
                let source = Citation::read(Source::DisasterRescue);
                Some(design(strength, None, CheckRule::Pins, source))
            }
            kind @ (HoldfastKind::Pins1Inch | HoldfastKind::Pins3Inch) => {
                let each = pin(kind, self.soil?)? * LBF;
                let strength = self.counted(each, notes);
                // "About 50 % of capacity."
                let source = Citation::second_hand(Source::UsaceFog);
                Some(design(strength, Some(2.0 * strength), CheckRule::Pins, source))
            }
            kind => self.pickets(kind, notes),
        }
    }

    fn counted(&self, each: f64, notes: &mut impl Notes) -> f64 {
        let count = self.pickets.unwrap_or(1.0);
        notes.put(Symbol::Holding, each);
        notes.put(Symbol::Parts, count);
        each * count
    }

    fn pickets(&self, kind: HoldfastKind, notes: &mut impl Notes) -> Option<Capacity> {
        let (pounds, source) = match kind {
            HoldfastKind::Picket => (700.0, Citation::read(Source::Navedtra14251)),
            HoldfastKind::Pickets11 => (1_400.0, Citation::memory(Source::Fm5125)),
            HoldfastKind::Pickets111 => (1_800.0, Citation::read(Source::Navedtra14251)),
            HoldfastKind::Pickets21 => (2_000.0, Citation::memory(Source::Fm5125)),
            _ => (4_000.0, Citation::read(Source::Navedtra14251)),
        };
        let in_loam = pounds * LBF;
        notes.put(Symbol::Holding, in_loam);
        if let (HoldfastKind::Pickets111, [(least, _), .., (most, _)]) = (kind, BRACKET_1_1_1) {
            notes.put(Symbol::BracketLeast, least);
            notes.put(Symbol::BracketMost, most);
        }
        let factor = self.soil?.picket_factor()?;
        notes.put(Symbol::WetFactor, factor);
        let source = if factor < 1.0 { Citation::memory(Source::Fm5125) } else { source };
        let strength = in_loam * factor;
        Some(Capacity { rule: CheckRule::Pickets, source, ..Capacity::stated(strength) })
    }
}

const fn design(strength: f64, failure: Option<f64>, rule: CheckRule, source: Citation) -> Capacity {
    let basis = Basis::Design;
    Capacity { strength, allowable: Some(strength), failure, basis, assumed: false, rule, source }
}

/// Design load of one pin, lbf.
const fn pin(kind: HoldfastKind, ground: Soil) -> Option<f64> {
    let (thin, thick) = match ground {
        Soil::ClayPoor => (500.0, 1_000.0),
        Soil::ClayAverage => (750.0, 1_500.0),
        Soil::ClayGood => (1_000.0, 2_000.0),
        Soil::SandLoose => (50.0, 150.0),
        Soil::SandMedium => (55.0, 180.0),
        Soil::SandDense => (63.0, 190.0),
        _ => return None,
    };
    Some(if matches!(kind, HoldfastKind::Pins3Inch) { thick } else { thin })
}
