//! What is wrong with a rig that cannot be computed: which field, its value, what is allowed.

use crate::{LineName, Side, Stage, angle::degrees};
use core::fmt;

/// What kind of quantity a field holds, and so in which SI unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum Dimension {
    /// Metres.
    Length,
    /// Square metres.
    Area,
    /// Radians.
    Angle,
    /// Kilograms.
    Mass,
    /// Newtons.
    Force,
    /// Newtons per metre.
    ForcePerLength,
    /// Pascals.
    Pressure,
    /// Newton metres.
    Moment,
    /// A bare number.
    Ratio,
    /// A whole number of things.
    Count,
}

impl Dimension {
    /// All of them.
    pub const ALL: [Self; 10] = [
        Self::Length,
        Self::Area,
        Self::Angle,
        Self::Mass,
        Self::Force,
        Self::ForcePerLength,
        Self::Pressure,
        Self::Moment,
        Self::Ratio,
        Self::Count,
    ];
}

/// A number that a rig holds or implies. Numbered variants count guys from 0 in the order of [`crate::Rig::guys`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Field {
    /// Foot to tip.
    LegLength(Side),
    /// Lashing below the tip, along the leg.
    LashingBelowTip(Side),
    /// Weight of the leg per metre of its length.
    LegWeight(Side),
    /// Foot to lashing: leg length less the lashing's distance below the tip.
    WorkingLength(Side),
    /// A coordinate of a foot.
    FootPosition(Side),
    /// Distance between the feet.
    Spread,
    /// Angle of the frame's plane from the vertical.
    Lean,
    /// Mass on the load line.
    Mass,
    /// Factor on the load for motion.
    DynamicFactor,
    /// Load line out of the vertical at a stage, to the left positive.
    SideAngle(Stage),
    /// Load line out of the vertical at a stage, outward positive.
    OutwardAngle(Stage),
    /// Share of the load that the second line holds while both hold.
    SecondShare,
    /// Greatest tension in the second line when the main line is lost, over the weight of the load.
    PeakFactor,
    /// Edge ahead of the foot line.
    EdgeAhead,
    /// Edge above the foot line.
    EdgeLevel,
    /// From the pulley down to what must clear the edge.
    LitterDrop,
    /// Clear reach asked for.
    ClearReachWanted,
    /// Headroom asked for.
    HeadroomWanted,
    /// Efficiency of the pulley at the head.
    PulleyEfficiency(LineName),
    /// Efficiency of the redirect pulley.
    RedirectEfficiency(LineName),
    /// Parts of a tackle that carry the load.
    TackleParts(LineName),
    /// A coordinate of the point where the haul line goes.
    HaulPoint(LineName),
    /// Length of haul line between its two ends.
    HaulLength(LineName),
    /// Length of the sling between head and pulley.
    Sling(LineName),
    /// How many guys there are.
    GuyCount,
    /// A coordinate of a guy's anchor.
    GuyAnchor(u8),
    /// Length of a guy from head to anchor.
    GuyLength(u8),
    /// Tension that a guy was set to.
    Pretension(u8),
    /// What the rope of a guy may carry.
    RopeAllowable(u8),
    /// What the holdfast of a guy may carry.
    HoldfastAllowable(u8),
    /// Least lean ever allowed.
    UprightStop,
    /// Height of the hobble or ledger above the feet.
    ConnectionHeight,
    /// Friction coefficient between foot and ground.
    Friction,
    /// Area of a foot or its sole plate on the ground.
    BearingArea,
    /// How far a length may be off, either way.
    LengthScatter,
    /// How far an angle may be off, either way.
    AngleScatter,
    /// How far the load may be off, as a share of it.
    LoadScatter,
    /// How far the strength of the ground may be off, as a share of it.
    SoilScatter,
    /// Diameter of a round leg at its tip.
    TipDiameter(Side),
    /// Diameter of a round leg at its foot.
    ButtDiameter(Side),
    /// Breadth of a sawn leg.
    Breadth(Side),
    /// Depth of a sawn leg.
    Depth(Side),
    /// Gap between a leg and a string along it.
    Crook(Side),
    /// How far from its axis the head loads a leg.
    Eccentricity(Side),
    /// Stated compression value of the timber.
    TimberCompression,
    /// Stated bending value of the timber.
    TimberBending,
    /// Stated modulus of the timber for stability.
    TimberStiffness,
    /// Least breaking strength of a guy's rope.
    GuyBreaking(u8),
    /// Share of it that the guy's weakest knot leaves.
    GuyKnotEfficiency(u8),
    /// Steel pickets or pins of a guy's holdfast.
    Pickets(u8),
    /// Distance from picket to picket of a guy's holdfast.
    PicketSpacing(u8),
    /// What a guy's holdfast is taken to hold.
    HoldfastStrength(u8),
    /// Least breaking strength of a line.
    LineBreaking(LineName),
    /// Share of it that its weakest knot leaves.
    LineKnotEfficiency(LineName),
    /// Least breaking strength of the sling.
    SlingBreaking,
    /// Share of it that its weakest knot leaves.
    SlingKnotEfficiency,
    /// Parts of the sling that carry together.
    SlingParts,
    /// Angle of each part of the sling from the level.
    SlingAngle,
    /// Least breaking strength of the pulley at the head.
    PulleyBreaking,
    /// Least breaking strength of the connector at the head.
    ConnectorBreaking,
    /// Least breaking strength of the redirect pulley.
    RedirectBreaking,
    /// Steel pickets or pins of the haul line's holdfast.
    HaulPickets(LineName),
    /// Distance from picket to picket there.
    HaulPicketSpacing(LineName),
    /// Thickness of the rope of the head lashing.
    LashingRope,
    /// Wrapping turns of the head lashing.
    WrappingTurns,
    /// Frapping turns of the head lashing.
    FrappingTurns,
    /// Gap between the legs while they are lashed.
    Spacer,
    /// Length of each tail of the head lashing.
    LashingTail,
    /// Girth of a leg at the head lashing.
    LashingGirth,
    /// What the haul line's holdfast is taken to hold.
    HaulHoldfastStrength(LineName),
    /// What the haul line's holdfast may carry.
    HaulHoldfastAllowable(LineName),
    /// Factor asked for between breaking strength and load.
    StrengthFactor,
    /// Pressure that the ground under a foot may take.
    BearingAllowable,
    /// Axial stiffness EA of a leg.
    LegStiffness,
    /// Axial stiffness EA of the rope of a guy.
    RopeStiffness(u8),
    /// Share by which the rope of a guy gets longer under a tension.
    Elongation(u8),
    /// The tension at which that is so.
    ElongationAt(u8),
    /// Load at run-away over load that is asked for.
    StretchMargin,
    /// Length by which knots setting and the anchor giving loosen a guy.
    RopeGive(u8),
}

/// The closed range that a field may take, in its SI unit.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Allowed {
    /// Least allowed value.
    pub least: f64,
    /// Greatest allowed value.
    pub most: f64,
}

impl Field {
    /// What kind of quantity it is.
    #[must_use]
    pub const fn dimension(self) -> Dimension {
        match self {
            Self::LegLength(_)
            | Self::LashingBelowTip(_)
            | Self::WorkingLength(_)
            | Self::FootPosition(_)
            | Self::Spread
            | Self::HaulPoint(_)
            | Self::HaulLength(_)
            | Self::Sling(_)
            | Self::GuyAnchor(_)
            | Self::GuyLength(_)
            | Self::EdgeAhead
            | Self::EdgeLevel
            | Self::LitterDrop
            | Self::ClearReachWanted
            | Self::HeadroomWanted
            | Self::LengthScatter
            | Self::RopeGive(_)
            | Self::ConnectionHeight
            | Self::TipDiameter(_)
            | Self::ButtDiameter(_)
            | Self::Breadth(_)
            | Self::Depth(_)
            | Self::Crook(_)
            | Self::Eccentricity(_)
            | Self::PicketSpacing(_)
            | Self::LashingRope
            | Self::Spacer
            | Self::LashingTail
            | Self::LashingGirth
            | Self::HaulPicketSpacing(_) => Dimension::Length,
            Self::BearingArea => Dimension::Area,
            Self::Lean
            | Self::SideAngle(_)
            | Self::OutwardAngle(_)
            | Self::UprightStop
            | Self::AngleScatter
            | Self::SlingAngle => Dimension::Angle,
            Self::Mass => Dimension::Mass,
            Self::LegStiffness
            | Self::RopeStiffness(_)
            | Self::ElongationAt(_)
            | Self::Pretension(_)
            | Self::RopeAllowable(_)
            | Self::HoldfastAllowable(_)
            | Self::GuyBreaking(_)
            | Self::HoldfastStrength(_)
            | Self::LineBreaking(_)
            | Self::SlingBreaking
            | Self::PulleyBreaking
            | Self::ConnectorBreaking
            | Self::RedirectBreaking
            | Self::HaulHoldfastStrength(_)
            | Self::HaulHoldfastAllowable(_) => Dimension::Force,
            Self::TimberCompression
            | Self::TimberBending
            | Self::TimberStiffness
            | Self::BearingAllowable => Dimension::Pressure,
            Self::LegWeight(_) => Dimension::ForcePerLength,
            Self::DynamicFactor
            | Self::PulleyEfficiency(_)
            | Self::RedirectEfficiency(_)
            | Self::SecondShare
            | Self::PeakFactor
            | Self::LoadScatter
            | Self::Elongation(_)
            | Self::StretchMargin
            | Self::SoilScatter
            | Self::Friction
            | Self::GuyKnotEfficiency(_)
            | Self::LineKnotEfficiency(_)
            | Self::SlingKnotEfficiency
            | Self::StrengthFactor => Dimension::Ratio,
            Self::TackleParts(_)
            | Self::GuyCount
            | Self::SlingParts
            | Self::Pickets(_)
            | Self::WrappingTurns
            | Self::FrappingTurns
            | Self::HaulPickets(_) => Dimension::Count,
        }
    }

    /// The range it may take on its own, in its SI unit. These are bounds of sense (a leg of 40 m is not a
    /// pole), not of strength; what follows from other fields, such as feet too far apart for the legs, is
    /// checked where it arises.
    #[must_use]
    pub const fn allowed(self) -> Allowed {
        let (least, most) = match self {
            Self::LegLength(_) => (0.5, 40.0),
            Self::WorkingLength(_) => (0.3, 40.0),
            Self::LashingBelowTip(_) => (0.0, 5.0),
            Self::LegWeight(_) => (0.0, 5_000.0),
            Self::FootPosition(_) | Self::HaulPoint(_) | Self::GuyAnchor(_) => (-1_000.0, 1_000.0),
            Self::Spread => (0.05, 80.0),
            Self::Lean => (degrees(-89.0), degrees(89.0)),
            Self::Mass => (0.0, 20_000.0),
            Self::DynamicFactor => (1.0, 10.0),
            Self::SideAngle(_) | Self::OutwardAngle(_) => (degrees(-80.0), degrees(80.0)),
            Self::SecondShare => (0.0, 1.0),
            Self::PeakFactor => (1.0, 50.0),
            Self::EdgeAhead => (-20.0, 40.0),
            Self::EdgeLevel => (-20.0, 20.0),
            Self::LitterDrop | Self::HeadroomWanted => (0.0, 20.0),
            Self::ClearReachWanted => (-20.0, 20.0),
            Self::PulleyEfficiency(_) | Self::RedirectEfficiency(_) => (0.05, 1.0),
            Self::TackleParts(_) => (1.0, 12.0),
            Self::HaulLength(_) | Self::GuyLength(_) => (0.05, 3_000.0),
            Self::Sling(_) | Self::ConnectionHeight => (0.0, 5.0),
            Self::GuyCount => (0.0, crate::MAX_GUYS as f64),
            Self::Pretension(_) => (0.0, 1.0e6),
            Self::RopeAllowable(_) | Self::HoldfastAllowable(_) => (1.0, 1.0e7),
            Self::UprightStop => (degrees(-30.0), degrees(45.0)),
            Self::Friction => (0.0, 5.0),
            Self::BearingArea => (1.0e-4, 4.0),
            Self::LengthScatter => (0.0, 2.0),
            Self::AngleScatter => (0.0, degrees(15.0)),
            Self::LoadScatter | Self::SoilScatter => (0.0, 0.9),
            Self::TipDiameter(_) | Self::ButtDiameter(_) | Self::Breadth(_) | Self::Depth(_) => (0.01, 1.0),
            Self::Crook(_) | Self::Eccentricity(_) => (0.0, 1.0),
            Self::TimberCompression | Self::TimberBending => (1.0e5, 2.0e8),
            Self::TimberStiffness => (1.0e8, 1.0e11),
            Self::GuyBreaking(_)
            | Self::HoldfastStrength(_)
            | Self::LineBreaking(_)
            | Self::SlingBreaking
            | Self::PulleyBreaking
            | Self::ConnectorBreaking
            | Self::RedirectBreaking
            | Self::HaulHoldfastStrength(_)
            | Self::HaulHoldfastAllowable(_) => (1.0, 1.0e7),
            Self::GuyKnotEfficiency(_) | Self::LineKnotEfficiency(_) | Self::SlingKnotEfficiency => {
                (0.05, 1.0)
            }
            Self::SlingParts | Self::Pickets(_) | Self::HaulPickets(_) => (1.0, 12.0),
            Self::PicketSpacing(_) | Self::HaulPicketSpacing(_) => (0.1, 10.0),
            Self::LashingRope => (0.003, 0.06),
            Self::WrappingTurns | Self::FrappingTurns => (1.0, 40.0),
            Self::Spacer => (0.0, 0.5),
            Self::LashingTail => (0.0, 10.0),
            Self::LashingGirth => (0.05, 3.0),
            Self::SlingAngle => (degrees(1.0), degrees(90.0)),
            Self::StrengthFactor => (1.0, 50.0),
            Self::BearingAllowable => (1.0e3, 1.0e8),
            Self::LegStiffness => (1.0e5, 1.0e15),
            // No softer than the softest that a data sheet can say: 60 % at 10 N.
            Self::RopeStiffness(_) => (10.0, 1.0e15),
            Self::RopeGive(_) => (0.0, 2.0),
            Self::Elongation(_) => (1.0e-4, 0.6),
            Self::ElongationAt(_) => (10.0, 1.0e6),
            Self::StretchMargin => (1.0, 50.0),
        };
        Allowed { least, most }
    }

    /// `value` if it is allowed, else the fault that says so. NaN and infinities are never allowed.
    pub(crate) fn check(self, value: f64) -> Result<f64, Fault> {
        self.check_within(value, self.allowed())
    }

    /// As `check`, of what may not be known.
    pub(crate) fn check_if(self, value: Option<f64>) -> Result<(), Fault> {
        value.map_or(Ok(()), |value| self.check(value).map(drop))
    }

    /// As `check`, against a range that follows from other fields.
    pub(crate) fn check_within(self, value: f64, allowed: Allowed) -> Result<f64, Fault> {
        if value >= allowed.least && value <= allowed.most {
            Ok(value)
        } else {
            Err(Fault { field: self, value, allowed })
        }
    }
}

/// A rig that cannot be computed, and why: the field, the value it has and the range it may have.
///
/// ```
/// use outlean_rig::{Field, Rig, solve};
/// // Feet 9 m apart cannot be reached by two legs of 4 m.
/// let fault = solve(&Rig::new(4.0, 9.0, 0.3, 200.0)).unwrap_err();
/// assert_eq!(fault.field, Field::Spread);
/// assert!(fault.value == 9.0 && fault.allowed.most < 8.0);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Fault {
    /// Which number.
    pub field: Field,
    /// What it is, in its SI unit; may be NaN or infinite.
    pub value: f64,
    /// What it may be.
    pub allowed: Allowed,
}

impl fmt::Display for Fault {
    /// For developers; what people read is made from the parts, in their language and units.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { field, value, allowed } = self;
        write!(
            f,
            "{field:?} is {value}; allowed is {} to {} ({:?}, SI)",
            allowed.least,
            allowed.most,
            field.dimension()
        )
    }
}

impl core::error::Error for Fault {}
