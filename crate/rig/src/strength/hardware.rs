//! Connectors and pulleys by what they break at.

use super::{Capacity, CheckRule, Citation, Notes, Source, Symbol};

/// A class of hardware whose least breaking strength is published.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum HardwareClass {
    /// Connector for technical use, major axis.
    ConnectorTechnical,
    /// Connector for general use, major axis.
    ConnectorGeneral,
    /// Pulley for technical use.
    PulleyTechnical,
    /// Pulley for general use.
    PulleyGeneral,
}

impl HardwareClass {
    /// Least breaking strength, N, and where that comes from.
    #[must_use]
    pub const fn breaking(self) -> (f64, Citation) {
        match self {
            Self::ConnectorTechnical => (27_000.0, Citation::second_hand(Source::Nfpa1983)),
            Self::ConnectorGeneral => (40_000.0, Citation::second_hand(Source::Nfpa1983)),
            Self::PulleyTechnical => (22_000.0, Citation::memory(Source::Nfpa1983)),
            Self::PulleyGeneral => (36_000.0, Citation::memory(Source::Nfpa1983)),
        }
    }
}

/// A connector or a pulley. What is `None` is not known.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(default))]
pub struct Hardware {
    /// Its class.
    pub class: Option<HardwareClass>,
    /// Least breaking strength as its maker states it, N; goes before that of the class.
    pub breaking: Option<f64>,
}

impl Hardware {
    /// Whether anything is said of it.
    #[must_use]
    pub const fn is_known(&self) -> bool {
        self.class.is_some() || self.breaking.is_some()
    }

    /// Rated strength ÷ `factor`. `None` where no strength is known; no allowable where no factor is asked for.
    #[must_use]
    pub fn capacity(&self, factor: Option<f64>) -> Option<Capacity> {
        self.capacity_noted(factor, &mut ())
    }

    pub(crate) fn capacity_noted(&self, factor: Option<f64>, notes: &mut impl Notes) -> Option<Capacity> {
        let stated = self.breaking.map(|breaking| (breaking, Citation::none(Source::Stated)));
        let (strength, source) = stated.or_else(|| self.class.map(HardwareClass::breaking))?;
        notes.put(Symbol::Breaking, strength);
        Some(Capacity::breaking(strength, factor, CheckRule::Hardware, source, notes))
    }
}
