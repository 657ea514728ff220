//! Guys: ropes from the head to holdfasts.

use crate::strength::{Cordage, Holdfast};
use crate::{DataSheet, Fault, Field, Layout, Point};

/// How many guys a rig may have.
pub const MAX_GUYS: usize = 6;

/// A rope from the head to a holdfast.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Guy {
    /// Where its holdfast takes it.
    pub anchor: Point,
    /// Whether it is rigged; a guy that is not keeps its place in the list and carries nothing.
    pub rigged: bool,
    /// Tension that it was set to, N, and holds while another guy pulls against it; 0 for a guy that hangs slack
    /// until it works.
    pub pretension: f64,
    /// What its rope may carry, N, as the person who rigs it says; `None` is not known.
    pub rope_allowable: Option<f64>,
    /// What its holdfast may carry, N, as the person who builds it says; `None` is not known.
    pub holdfast_allowable: Option<f64>,
    /// What its rope is, for what it may carry.
    #[cfg_attr(feature = "serde", serde(default))]
    pub cordage: Cordage,
    /// How its rope stretches.
    #[cfg_attr(feature = "serde", serde(default))]
    pub sheet: DataSheet,
    /// What its holdfast is, for what it may carry.
    #[cfg_attr(feature = "serde", serde(default))]
    pub holdfast: Holdfast,
}

impl Guy {
    /// A rigged guy to `anchor`, slack until it works, of unknown strength.
    #[must_use]
    pub const fn to(anchor: Point) -> Self {
        Self {
            anchor,
            rigged: true,
            pretension: 0.0,
            rope_allowable: None,
            holdfast_allowable: None,
            sheet: DataSheet { elongation: None, at: None, give: None },
            cordage: Cordage { class: None, breaking: None, knot: None, knot_efficiency: None },
            holdfast: Holdfast { kind: None, soil: None, pickets: None, spacing: None, strength: None },
        }
    }

    pub(crate) fn check(&self, number: u8) -> Result<(), Fault> {
        for coordinate in self.anchor.coordinates() {
            Field::GuyAnchor(number).check(coordinate)?;
        }
        Field::Pretension(number).check(self.pretension)?;
        Field::RopeAllowable(number).check_if(self.rope_allowable)?;
        Field::HoldfastAllowable(number).check_if(self.holdfast_allowable)?;
        self.sheet.check(number)?;
        Field::GuyBreaking(number).check_if(self.cordage.breaking)?;
        Field::GuyKnotEfficiency(number).check_if(self.cordage.knot_efficiency)?;
        Field::Pickets(number).check_if(self.holdfast.pickets)?;
        Field::PicketSpacing(number).check_if(self.holdfast.spacing)?;
        Field::HoldfastStrength(number).check_if(self.holdfast.strength)
    }
}

/// Where a guy stands, seen from the frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum Station {
    /// Behind.
    Aft,
    /// Ahead.
    Fore,
    /// To a side: more than twice as far along the foot line as square to it.
    Side,
}

impl Station {
    /// The station of a guy anchored at `anchor`.
    #[must_use]
    pub fn of(anchor: Point, layout: &Layout) -> Self {
        let from_middle = anchor - layout.mid_base;
        let ahead = from_middle.dot(layout.forward);
        if ahead.abs() < 0.5 * from_middle.dot(layout.foot_line).abs() {
            Self::Side
        } else if ahead < 0.0 {
            Self::Aft
        } else {
            Self::Fore
        }
    }
}

/// What a guy does at the moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
pub enum Role {
    /// It holds the frame: its tension follows from balance.
    Working,
    /// It holds the pretension that it was given.
    Pretensioned,
    /// It hangs slack.
    Slack,
    /// It is not rigged.
    NotRigged,
}

/// What a guy carries.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct GuyForce {
    /// Tension, N, never negative.
    pub tension: f64,
    /// What it does.
    pub role: Role,
}
