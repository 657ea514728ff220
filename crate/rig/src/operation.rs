//! Operation: how the lines move.

/// How the lines move. A pulley turns with friction, so the haul side carries more while raising and less
/// while lowering; holding may be anywhere between.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum Operation {
    /// The load goes down: haul tension is the load's tension × efficiency.
    Lowering,
    /// The load stands still; computed without friction.
    #[default]
    Holding,
    /// The load goes up: haul tension is the load's tension ÷ efficiency.
    Raising,
}

impl Operation {
    /// All three.
    pub const ALL: [Self; 3] = [Self::Lowering, Self::Holding, Self::Raising];

    /// Haul tension over load tension at one pulley of the given efficiency.
    #[must_use]
    pub fn factor(self, efficiency: f64) -> f64 {
        match self {
            Self::Lowering => efficiency,
            Self::Holding => 1.0,
            Self::Raising => 1.0 / efficiency,
        }
    }
}
