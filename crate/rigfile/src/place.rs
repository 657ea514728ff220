//! Where a field stands in a rig, and the rows of what the rig is made of.

use crate::fields::FieldSpec;
use outlean_rig::{Field, Leg, LineName, Rig, Side};

/// Where a field stands.
#[derive(Debug)]
pub(crate) enum Place {
    /// With ways of its own to be read and set.
    Own {
        /// Its value.
        get: fn(&Rig, u8) -> Option<f64>,
        /// Sets it.
        set: fn(&mut Rig, u8, f64) -> Option<()>,
    },
    /// A value that may not be known; of a guy, by its number.
    Slot(fn(&mut Rig, u8) -> Option<&mut Option<f64>>),
    /// Such a value of both legs.
    Legs(fn(&mut Leg) -> &mut Option<f64>),
    /// Such a value of one leg.
    Leg(Side, fn(&mut Leg) -> &mut Option<f64>),
}

impl Place {
    /// What stands there; `None` where nothing is known and for both legs that differ.
    pub(crate) fn get(&self, rig: &Rig, number: u8) -> Option<f64> {
        match self {
            Self::Own { get, .. } => get(rig, number),
            // One way to the place serves for reading too, on a copy: a page carries half as much.
            Self::Slot(slot) => *slot(&mut rig.clone(), number)?,
            Self::Legs(slot) => {
                let mut legs = rig.legs;
                let (left, right) = (*slot(&mut legs.left), *slot(&mut legs.right));
                left.filter(|left| right.is_some_and(|right| right.to_bits() == left.to_bits()))
            }
            Self::Leg(side, slot) => {
                let mut leg = *rig.legs.on(*side);
                *slot(&mut leg)
            }
        }
    }

    /// Sets it; `None` where there is nothing to set.
    pub(crate) fn set(&self, rig: &mut Rig, number: u8, value: f64) -> Option<()> {
        match self {
            Self::Own { set, .. } => return set(rig, number, value),
            Self::Slot(slot) => *slot(rig, number)? = Some(value),
            Self::Legs(slot) => {
                *slot(&mut rig.legs.left) = Some(value);
                *slot(&mut rig.legs.right) = Some(value);
            }
            Self::Leg(Side::Left, slot) => *slot(&mut rig.legs.left) = Some(value),
            Self::Leg(Side::Right, slot) => *slot(&mut rig.legs.right) = Some(value),
        }
        Some(())
    }
}

macro_rules! both_legs {
    ($key:literal, $core:ident, $place:ident) => {
        FieldSpec {
            key: $key,
            core: |_| Field::$core(Side::Left),
            place: Place::Legs(|leg| &mut leg.pole.$place),
        }
    };
}

macro_rules! one_leg {
    ($key:literal, $side:ident, $core:ident, $place:ident) => {
        FieldSpec {
            key: $key,
            core: |_| Field::$core(Side::$side),
            place: Place::Leg(Side::$side, |leg| &mut leg.pole.$place),
        }
    };
}

macro_rules! gear {
    ($key:literal, $core:expr, $($place:tt)+) => {
        FieldSpec {
            key: $key,
            core: |_| $core,
            place: Place::Slot(|rig, _| Some(&mut rig.$($place)+)),
        }
    };
}

macro_rules! of_guy {
    ($key:literal, $core:ident, $($place:tt)+) => {
        FieldSpec {
            key: $key,
            core: Field::$core,
            place: Place::Slot(|rig, number| Some(&mut rig.guys.get_mut(usize::from(number))?.$($place)+)),
        }
    };
}

/// What the rig is made of: every number of it, none of which need be known.
pub(crate) const GEAR: &[FieldSpec] = &[
    both_legs!("legs.butt_diameter", ButtDiameter, butt_diameter),
    both_legs!("legs.tip_diameter", TipDiameter, tip_diameter),
    both_legs!("legs.breadth", Breadth, breadth),
    both_legs!("legs.depth", Depth, depth),
    both_legs!("legs.crook", Crook, crook),
    both_legs!("legs.eccentricity", Eccentricity, eccentricity),
    one_leg!("legs.left.butt_diameter", Left, ButtDiameter, butt_diameter),
    one_leg!("legs.left.tip_diameter", Left, TipDiameter, tip_diameter),
    one_leg!("legs.left.breadth", Left, Breadth, breadth),
    one_leg!("legs.left.depth", Left, Depth, depth),
    one_leg!("legs.left.crook", Left, Crook, crook),
    one_leg!("legs.left.eccentricity", Left, Eccentricity, eccentricity),
    one_leg!("legs.right.butt_diameter", Right, ButtDiameter, butt_diameter),
    one_leg!("legs.right.tip_diameter", Right, TipDiameter, tip_diameter),
    one_leg!("legs.right.breadth", Right, Breadth, breadth),
    one_leg!("legs.right.depth", Right, Depth, depth),
    one_leg!("legs.right.crook", Right, Crook, crook),
    one_leg!("legs.right.eccentricity", Right, Eccentricity, eccentricity),
    gear!("timber.compression", Field::TimberCompression, gear.timber.compression),
    gear!("timber.bending", Field::TimberBending, gear.timber.bending),
    gear!("timber.stiffness", Field::TimberStiffness, gear.timber.stiffness),
    gear!("feet.bearing_allowable", Field::BearingAllowable, feet.bearing_allowable),
    gear!("line.breaking", Field::LineBreaking(LineName::Main), gear.line.breaking),
    gear!("line.knot_efficiency", Field::LineKnotEfficiency(LineName::Main), gear.line.knot_efficiency),
    gear!("second.breaking", Field::LineBreaking(LineName::Second), gear.second.breaking),
    gear!("second.knot_efficiency", Field::LineKnotEfficiency(LineName::Second), gear.second.knot_efficiency),
    gear!("line.pickets", Field::HaulPickets, gear.haul.pickets),
    gear!("line.picket_spacing", Field::HaulPicketSpacing, gear.haul.spacing),
    gear!("line.holdfast_strength", Field::HaulHoldfastStrength, gear.haul.strength),
    gear!("line.holdfast_allowable", Field::HaulHoldfastAllowable, gear.haul_allowable),
    gear!("sling.breaking", Field::SlingBreaking, gear.sling.cordage.breaking),
    gear!("sling.knot_efficiency", Field::SlingKnotEfficiency, gear.sling.cordage.knot_efficiency),
    gear!("sling.parts", Field::SlingParts, gear.sling.parts),
    gear!("sling.angle", Field::SlingAngle, gear.sling.angle),
    gear!("pulley.breaking", Field::PulleyBreaking, gear.pulley.breaking),
    gear!("connector.breaking", Field::ConnectorBreaking, gear.connector.breaking),
    gear!("redirect.breaking", Field::RedirectBreaking, gear.redirect.breaking),
    gear!("lashing.rope", Field::LashingRope, gear.lashing.rope),
    gear!("lashing.turns", Field::WrappingTurns, gear.lashing.turns),
    gear!("lashing.frapping", Field::FrappingTurns, gear.lashing.frapping),
    gear!("lashing.spacer", Field::Spacer, gear.lashing.spacer),
    gear!("lashing.tail", Field::LashingTail, gear.lashing.tail),
    gear!("lashing.girth", Field::LashingGirth, gear.lashing.girth),
    gear!("limits.strength_factor", Field::StrengthFactor, gear.factor),
    of_guy!("guy.N.breaking", GuyBreaking, cordage.breaking),
    of_guy!("guy.N.knot_efficiency", GuyKnotEfficiency, cordage.knot_efficiency),
    of_guy!("guy.N.pickets", Pickets, holdfast.pickets),
    of_guy!("guy.N.picket_spacing", PicketSpacing, holdfast.spacing),
    of_guy!("guy.N.holdfast_strength", HoldfastStrength, holdfast.strength),
];
