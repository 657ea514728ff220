//! What a claim speaks of: a reading of the solved rig, a field, or a number.

use super::Unclear;
use crate::{asked, asking};
use outlean_rig::{Dimension, Quantity, Rig, Solution, Station};
use outlean_rigfile::{field, fields, first_guy, nearest};

/// What stands on a side of a claim.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Operand {
    /// A reading of the solved rig.
    Quantity(Quantity),
    /// Tension of the first guy of a station, N.
    Tension(Station),
    /// What hangs on the load line, with motion, N.
    LoadWeight,
    /// A field, by its key in the field table.
    Field(String),
    /// A number in the SI unit of its dimension.
    Number(f64, Dimension),
}

impl Operand {
    /// Words of what can be claimed and not asked, and what they mean.
    const MORE: [(&'static str, Self); 5] = [
        ("tension of the aft guy", Self::Tension(Station::Aft)),
        ("tension of the fore guy", Self::Tension(Station::Fore)),
        ("weight of the load", Self::LoadWeight),
        ("reach of the pulley", Self::Quantity(Quantity::PulleyReach)),
        ("moment about the foot line", Self::Quantity(Quantity::TippingMoment)),
    ];

    /// The reading that the words name, or the field of that key; `None` for any others.
    #[must_use]
    pub fn named(words: &str) -> Option<Self> {
        if let Some(quantity) = asked(words) {
            return Some(Self::Quantity(quantity));
        }
        let more = || Self::MORE.iter().find(|(each, _)| *each == words).map(|(_, operand)| operand.clone());
        more().or_else(|| field(words).map(|_| Self::Field(words.to_owned())))
    }

    /// All words of readings.
    pub fn words() -> impl Iterator<Item = &'static str> {
        crate::ASKED.iter().map(|(words, _)| *words).chain(Self::MORE.iter().map(|(words, _)| *words))
    }

    /// The reading, field or one of `also` that is spelled most like `name`; keys of a guy are named as the aft guy's.
    pub(crate) fn nearest(name: &str, also: impl Iterator<Item = &'static str>) -> Option<String> {
        let keys = fields().map(|spec| spec.key).chain(also).map(|key| key.replace("guy.N", "aft"));
        let all: Vec<String> = Self::words().map(str::to_owned).chain(keys).collect();
        nearest(name, all.iter().map(String::as_str)).map(str::to_owned)
    }

    /// The words that name it; a field's key; `None` for a number, and for a quantity that has no words.
    #[must_use]
    pub fn name(&self) -> Option<&str> {
        match self {
            Self::Field(key) => Some(key),
            Self::Number(..) => None,
            Self::Quantity(quantity) if asking(*quantity).is_some() => asking(*quantity),
            other => Self::MORE.iter().find(|(_, each)| each == other).map(|(words, _)| *words),
        }
    }

    /// What kind of number it is; `None` for a field that there is none of.
    #[must_use]
    pub fn dimension(&self) -> Option<Dimension> {
        Some(match self {
            Self::Quantity(
                Quantity::LegCompression(_)
                | Quantity::GuyTension(_)
                | Quantity::HaulTension
                | Quantity::OnHead,
            )
            | Self::Tension(_)
            | Self::LoadWeight => Dimension::Force,
            Self::Quantity(Quantity::Reach | Quantity::PulleyReach | Quantity::HeadHeight) => {
                Dimension::Length
            }
            Self::Quantity(_) => Dimension::Moment,
            Self::Field(key) => field(key)?.dimension(),
            Self::Number(_, dimension) => *dimension,
        })
    }

    /// Whether the rig must be solved for it.
    #[must_use]
    pub const fn is_reading(&self) -> bool {
        matches!(self, Self::Quantity(_) | Self::Tension(_) | Self::LoadWeight)
    }

    /// Its value, SI. `solution` is that of `rig`, and is there wherever [`Self::is_reading`].
    ///
    /// # Errors
    ///
    /// Why it has none: the frame tips, there is no such guy, the field is not there.
    pub(crate) fn value(&self, rig: &Rig, solution: Option<&Solution>) -> Result<f64, Unclear> {
        let of = |quantity: Quantity| -> Result<f64, Unclear> {
            let solution = solution.ok_or(Unclear::NotSolved)?;
            match (quantity.of(solution), solution.tips()) {
                (Some(value), _) => Ok(value),
                (None, Some(tip)) => Err(Unclear::Tips(tip)),
                (None, None) => Err(Unclear::NoSuchGuy),
            }
        };
        match self {
            Self::Quantity(quantity) => of(*quantity),
            Self::Tension(station) => {
                let number = first_guy(rig, *station).ok_or(Unclear::NoSuchGuy)?;
                of(Quantity::GuyTension(number))
            }
            Self::LoadWeight => Ok(solution.ok_or(Unclear::NotSolved)?.line.load.size()),
            Self::Field(key) => {
                field(key).and_then(|field| field.get(rig)).ok_or_else(|| Unclear::Absent(key.clone()))
            }
            Self::Number(value, _) => Ok(*value),
        }
    }
}
