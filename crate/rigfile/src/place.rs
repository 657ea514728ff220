//! Where a field stands in a rig, and the rows of what the rig is made of.

use crate::fields::FieldSpec;
use outlean_rig::strength::{Cordage, Gear, Holdfast};
use outlean_rig::{Field, LineName, Rig, Side};

/// What the core calls a field.
#[derive(Debug)]
pub(crate) enum Core {
    /// This.
    Is(Field),
    /// This, of a guy by its number.
    Of(fn(u8) -> Field),
}

impl Core {
    pub(crate) fn of(&self, number: u8) -> Field {
        match self {
            Self::Is(field) => *field,
            Self::Of(field) => field(number),
        }
    }
}

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
    /// A value that may not be known: where [`slot`] says.
    Slot,
    /// Such a value of both legs, said to be the left one's.
    BothLegs,
}

impl FieldSpec {
    /// What stands there; `None` where nothing is known and for both legs that differ.
    pub(crate) fn get(&self, rig: &Rig, number: u8) -> Option<f64> {
        let field = self.core.of(number);
        // One way to the place serves for reading too, on a copy: a page carries half as much.
        let at = |field| slot(&mut rig.clone(), field).copied().flatten();
        match &self.place {
            Place::Own { get, .. } => get(rig, number),
            Place::Slot => at(field),
            Place::BothLegs => at(field)
                .filter(|left| at(right(field)).is_some_and(|right| right.to_bits() == left.to_bits())),
        }
    }

    /// Sets it; `None` where there is nothing to set.
    pub(crate) fn put(&self, rig: &mut Rig, number: u8, value: f64) -> Option<()> {
        let field = self.core.of(number);
        match &self.place {
            Place::Own { set, .. } => return set(rig, number, value),
            Place::Slot => {}
            Place::BothLegs => *slot(rig, right(field))? = Some(value),
        }
        *slot(rig, field)? = Some(value);
        Some(())
    }
}

/// The field of the right leg that goes with one of the left.
const fn right(field: Field) -> Field {
    match field {
        Field::ButtDiameter(_) => Field::ButtDiameter(Side::Right),
        Field::TipDiameter(_) => Field::TipDiameter(Side::Right),
        Field::Breadth(_) => Field::Breadth(Side::Right),
        Field::Depth(_) => Field::Depth(Side::Right),
        Field::Crook(_) => Field::Crook(Side::Right),
        Field::Eccentricity(_) => Field::Eccentricity(Side::Right),
        other => other,
    }
}

/// Where a field stands that may not be known; `None` for any other and for a guy that is not there.
fn slot(rig: &mut Rig, field: Field) -> Option<&mut Option<f64>> {
    let guy = |number: u8| usize::from(number);
    let gear = &mut rig.gear;
    Some(match field {
        Field::ButtDiameter(side) => &mut rig.legs.on_mut(side).pole.butt_diameter,
        Field::TipDiameter(side) => &mut rig.legs.on_mut(side).pole.tip_diameter,
        Field::Breadth(side) => &mut rig.legs.on_mut(side).pole.breadth,
        Field::Depth(side) => &mut rig.legs.on_mut(side).pole.depth,
        Field::Crook(side) => &mut rig.legs.on_mut(side).pole.crook,
        Field::Eccentricity(side) => &mut rig.legs.on_mut(side).pole.eccentricity,
        Field::TimberCompression => &mut gear.timber.compression,
        Field::TimberBending => &mut gear.timber.bending,
        Field::TimberStiffness => &mut gear.timber.stiffness,
        Field::Friction => &mut rig.feet.friction,
        Field::BearingArea => &mut rig.feet.bearing_area,
        Field::BearingAllowable => &mut rig.feet.bearing_allowable,
        Field::LineBreaking(of) => &mut of_line(gear, of).0.breaking,
        Field::LineKnotEfficiency(of) => &mut of_line(gear, of).0.knot_efficiency,
        Field::HaulPickets(of) => &mut of_line(gear, of).1.pickets,
        Field::HaulPicketSpacing(of) => &mut of_line(gear, of).1.spacing,
        Field::HaulHoldfastStrength(of) => &mut of_line(gear, of).1.strength,
        Field::HaulHoldfastAllowable(of) => of_line(gear, of).2,
        Field::SlingBreaking => &mut gear.sling.cordage.breaking,
        Field::SlingKnotEfficiency => &mut gear.sling.cordage.knot_efficiency,
        Field::SlingParts => &mut gear.sling.parts,
        Field::SlingAngle => &mut gear.sling.angle,
        Field::PulleyBreaking => &mut gear.pulley.breaking,
        Field::ConnectorBreaking => &mut gear.connector.breaking,
        Field::RedirectBreaking => &mut gear.redirect.breaking,
        Field::LashingRope => &mut gear.lashing.rope,
        Field::WrappingTurns => &mut gear.lashing.turns,
        Field::FrappingTurns => &mut gear.lashing.frapping,
        Field::Spacer => &mut gear.lashing.spacer,
        Field::LashingTail => &mut gear.lashing.tail,
        Field::LashingGirth => &mut gear.lashing.girth,
        Field::StrengthFactor => &mut gear.factor,
        Field::UprightStop => &mut rig.limits.upright_stop,
        Field::RopeAllowable(number) => &mut rig.guys.get_mut(guy(number))?.rope_allowable,
        Field::HoldfastAllowable(number) => &mut rig.guys.get_mut(guy(number))?.holdfast_allowable,
        Field::StretchMargin => &mut rig.limits.stretch_margin,
        Field::Elongation(number) => &mut rig.guys.get_mut(guy(number))?.sheet.elongation,
        Field::ElongationAt(number) => &mut rig.guys.get_mut(guy(number))?.sheet.at,
        Field::RopeGive(number) => &mut rig.guys.get_mut(guy(number))?.sheet.give,
        Field::GuyBreaking(number) => &mut rig.guys.get_mut(guy(number))?.cordage.breaking,
        Field::GuyKnotEfficiency(number) => &mut rig.guys.get_mut(guy(number))?.cordage.knot_efficiency,
        Field::Pickets(number) => &mut rig.guys.get_mut(guy(number))?.holdfast.pickets,
        Field::PicketSpacing(number) => &mut rig.guys.get_mut(guy(number))?.holdfast.spacing,
        Field::HoldfastStrength(number) => &mut rig.guys.get_mut(guy(number))?.holdfast.strength,
        _ => return None,
    })
}

/// The rope of a line, what its haul line ends at, and what that may carry.
const fn of_line(gear: &mut Gear, of: LineName) -> (&mut Cordage, &mut Holdfast, &mut Option<f64>) {
    match of {
        LineName::Main => (&mut gear.line, &mut gear.haul, &mut gear.haul_allowable),
        LineName::Second => (&mut gear.second, &mut gear.second_haul, &mut gear.second_haul_allowable),
    }
}

const fn both_legs(key: &'static str, core: Field) -> FieldSpec {
    FieldSpec { key, core: Core::Is(core), place: Place::BothLegs }
}

/// A row of a value that may not be known.
pub(crate) const fn known(key: &'static str, core: Field) -> FieldSpec {
    FieldSpec { key, core: Core::Is(core), place: Place::Slot }
}

/// A row of such a value of a guy.
pub(crate) const fn of_guy(key: &'static str, core: fn(u8) -> Field) -> FieldSpec {
    FieldSpec { key, core: Core::Of(core), place: Place::Slot }
}

/// What the rig is made of: every number of it, none of which need be known.
pub(crate) const GEAR: &[FieldSpec] = &[
    both_legs("legs.butt_diameter", Field::ButtDiameter(Side::Left)),
    both_legs("legs.tip_diameter", Field::TipDiameter(Side::Left)),
    both_legs("legs.breadth", Field::Breadth(Side::Left)),
    both_legs("legs.depth", Field::Depth(Side::Left)),
    both_legs("legs.crook", Field::Crook(Side::Left)),
    both_legs("legs.eccentricity", Field::Eccentricity(Side::Left)),
    known("legs.left.butt_diameter", Field::ButtDiameter(Side::Left)),
    known("legs.left.tip_diameter", Field::TipDiameter(Side::Left)),
    known("legs.left.breadth", Field::Breadth(Side::Left)),
    known("legs.left.depth", Field::Depth(Side::Left)),
    known("legs.left.crook", Field::Crook(Side::Left)),
    known("legs.left.eccentricity", Field::Eccentricity(Side::Left)),
    known("legs.right.butt_diameter", Field::ButtDiameter(Side::Right)),
    known("legs.right.tip_diameter", Field::TipDiameter(Side::Right)),
    known("legs.right.breadth", Field::Breadth(Side::Right)),
    known("legs.right.depth", Field::Depth(Side::Right)),
    known("legs.right.crook", Field::Crook(Side::Right)),
    known("legs.right.eccentricity", Field::Eccentricity(Side::Right)),
    known("timber.compression", Field::TimberCompression),
    known("timber.bending", Field::TimberBending),
    known("timber.stiffness", Field::TimberStiffness),
    known("feet.bearing_allowable", Field::BearingAllowable),
    known("line.breaking", Field::LineBreaking(LineName::Main)),
    known("line.knot_efficiency", Field::LineKnotEfficiency(LineName::Main)),
    known("second.breaking", Field::LineBreaking(LineName::Second)),
    known("second.knot_efficiency", Field::LineKnotEfficiency(LineName::Second)),
    known("line.pickets", Field::HaulPickets(LineName::Main)),
    known("second.pickets", Field::HaulPickets(LineName::Second)),
    known("line.picket_spacing", Field::HaulPicketSpacing(LineName::Main)),
    known("second.picket_spacing", Field::HaulPicketSpacing(LineName::Second)),
    known("line.holdfast_strength", Field::HaulHoldfastStrength(LineName::Main)),
    known("second.holdfast_strength", Field::HaulHoldfastStrength(LineName::Second)),
    known("line.holdfast_allowable", Field::HaulHoldfastAllowable(LineName::Main)),
    known("second.holdfast_allowable", Field::HaulHoldfastAllowable(LineName::Second)),
    known("sling.breaking", Field::SlingBreaking),
    known("sling.knot_efficiency", Field::SlingKnotEfficiency),
    known("sling.parts", Field::SlingParts),
    known("sling.angle", Field::SlingAngle),
    known("pulley.breaking", Field::PulleyBreaking),
    known("connector.breaking", Field::ConnectorBreaking),
    known("redirect.breaking", Field::RedirectBreaking),
    known("lashing.rope", Field::LashingRope),
    known("lashing.turns", Field::WrappingTurns),
    known("lashing.frapping", Field::FrappingTurns),
    known("lashing.spacer", Field::Spacer),
    known("lashing.tail", Field::LashingTail),
    known("lashing.girth", Field::LashingGirth),
    known("limits.stretch_margin", Field::StretchMargin),
    known("limits.strength_factor", Field::StrengthFactor),
    of_guy("guy.N.elongation", Field::Elongation),
    of_guy("guy.N.elongation_at", Field::ElongationAt),
    of_guy("guy.N.give", Field::RopeGive),
    of_guy("guy.N.breaking", Field::GuyBreaking),
    of_guy("guy.N.knot_efficiency", Field::GuyKnotEfficiency),
    of_guy("guy.N.pickets", Field::Pickets),
    of_guy("guy.N.picket_spacing", Field::PicketSpacing),
    of_guy("guy.N.holdfast_strength", Field::HoldfastStrength),
];
