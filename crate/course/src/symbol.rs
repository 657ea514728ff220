//! The letters of worked solutions.

/// A letter that stands for a number of the rig. Its meaning in words is `symbol.` and its name in the strings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Symbol {
    /// Foot to tip, m.
    LegLength,
    /// Lashing below the tip, m.
    BelowTip,
    /// Foot to lashing, m.
    WorkingLength,
    /// Distance between the feet, m.
    Spread,
    /// Angle of the frame's plane from the vertical, rad.
    Lean,
    /// Foot line to head in the frame's plane, m.
    SlantHeight,
    /// Plumb line from the head to the foot line, m.
    Reach,
    /// Height of the head, m.
    HeadHeight,
    /// Mass on the load line, kg.
    Mass,
    /// Factor on the load for motion.
    DynamicFactor,
    /// Weight of a kilogram, N/kg.
    Gravity,
    /// Tension of the load line, N.
    Load,
    /// Weight of a leg per metre, N/m.
    WeightPerMetre,
    /// What the head carries of both legs' weight, N.
    LegWeight,
    /// All that presses the head straight down, N.
    Down,
    /// All that pulls the head level and backward, N.
    Back,
    /// Moment of the loads about the foot line, N m.
    Moment,
    /// Setback of the working guy's anchor, m.
    Setback,
    /// Length of the working guy, m.
    GuyLength,
    /// Arm of the working guy about the foot line, m.
    GuyArm,
    /// Tension of the working guy, N.
    Guy,
    /// What presses down along the frame's plane, N.
    Press,
    /// What pulls the head along the foot line, toward the asked leg, N.
    Sideways,
    /// Compression of the asked leg from the load and its guy, N.
    Share,
    /// Compression of the asked leg, N.
    Leg,
    /// Efficiency of the pulley at the head.
    Efficiency,
    /// Tension of the haul line as it leaves the head, N.
    Haul,
    /// Slope of the haul line below the horizontal, rad.
    HaulSlope,
    /// What the lines put on the head, N.
    OnHead,
}

impl Symbol {
    /// The letter and, where it has one, the letter set below it.
    #[must_use]
    pub const fn letters(self) -> (&'static str, Option<&'static str>) {
        match self {
            Self::LegLength => ("L", None),
            Self::BelowTip => ("t", None),
            Self::WorkingLength => ("ℓ", None),
            Self::Spread => ("s", None),
            Self::Lean => ("λ", None),
            Self::SlantHeight => ("a", None),
            Self::Reach => ("r", None),
            Self::HeadHeight => ("h", None),
            Self::Mass => ("m", None),
            Self::DynamicFactor => ("k", None),
            Self::Gravity => ("g", None),
            Self::Load => ("W", None),
            Self::WeightPerMetre => ("w", None),
            Self::LegWeight => ("G", None),
            Self::Down => ("D", None),
            Self::Back => ("B", None),
            Self::Moment => ("M", None),
            Self::Setback => ("p", None),
            Self::GuyLength => ("L", Some("A")),
            Self::GuyArm => ("c", None),
            Self::Guy => ("A", None),
            Self::Press => ("P", None),
            Self::Sideways => ("Y", None),
            Self::Share => ("N", Some("W")),
            Self::Leg => ("N", None),
            Self::Efficiency => ("η", None),
            Self::Haul => ("T", None),
            Self::HaulSlope => ("γ", None),
            Self::OnHead => ("R", None),
        }
    }
}
