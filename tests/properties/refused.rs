//! What is out of range is refused by the name of its own field, wherever it stands in a rig.

use outlean_rig::LineName::{Main, Second};
use outlean_rig::Side::{Left, Right};
use outlean_rig::Stage::{AtEdge, HangingClear, OnTagLines};
use outlean_rig::{
    DataSheet, Edge, Field, Guy, Line, Path, Point, Rig, SecondLine, Swing, WANTED_MARGIN, solve,
};

type Put = fn(&mut Rig, f64);

/// Every field that a number of a rig is checked as, and that number.
const FIELDS: [(Field, Put); 75] = [
    (Field::LegLength(Left), |rig, value| rig.legs.left.length = value),
    (Field::LegLength(Right), |rig, value| rig.legs.right.length = value),
    (Field::LashingBelowTip(Left), |rig, value| rig.legs.left.lashing_below_tip = value),
    (Field::LegWeight(Right), |rig, value| rig.legs.right.weight_per_metre = value),
    (Field::TipDiameter(Left), |rig, value| rig.legs.left.pole.tip_diameter = Some(value)),
    (Field::ButtDiameter(Right), |rig, value| rig.legs.right.pole.butt_diameter = Some(value)),
    (Field::Breadth(Left), |rig, value| rig.legs.left.pole.breadth = Some(value)),
    (Field::Depth(Right), |rig, value| rig.legs.right.pole.depth = Some(value)),
    (Field::Crook(Left), |rig, value| rig.legs.left.pole.crook = Some(value)),
    (Field::Eccentricity(Right), |rig, value| rig.legs.right.pole.eccentricity = Some(value)),
    (Field::FootPosition(Left), |rig, value| rig.feet.at.left = Point::new(0.0, value, 0.0)),
    (Field::FootPosition(Right), |rig, value| rig.feet.at.right = Point::new(value, -0.6, 0.0)),
    (Field::ConnectionHeight, |rig, value| rig.feet.connection_height = value),
    (Field::Friction, |rig, value| rig.feet.friction = Some(value)),
    (Field::BearingArea, |rig, value| rig.feet.bearing_area = Some(value)),
    (Field::BearingAllowable, |rig, value| rig.feet.bearing_allowable = Some(value)),
    (Field::Lean, |rig, value| rig.lean = value),
    (Field::Mass, |rig, value| rig.load.mass = value),
    (Field::DynamicFactor, |rig, value| rig.load.dynamic_factor = value),
    (Field::SideAngle(HangingClear), |rig, value| rig.load.side_angle = value),
    (Field::OutwardAngle(HangingClear), |rig, value| rig.load.outward_angle = value),
    (Field::SideAngle(AtEdge), |rig, value| rig.load.at_edge = Some(Swing { side: value, outward: 0.0 })),
    (Field::OutwardAngle(OnTagLines), |rig, value| {
        rig.load.on_tag_lines = Some(Swing { side: 0.0, outward: value })
    }),
    (Field::PulleyEfficiency(Main), |rig, value| rig.line.pulley_efficiency = value),
    (Field::RedirectEfficiency(Main), |rig, value| rig.line.redirect_efficiency = value),
    (Field::Sling(Main), |rig, value| rig.line.sling = value),
    (Field::HaulPoint(Main), |rig, value| {
        rig.line.path = Path::StraightBack { to: Point::new(-8.0, value, 0.0) }
    }),
    (Field::PulleyEfficiency(Second), |rig, value| second(rig).line.pulley_efficiency = value),
    (Field::RedirectEfficiency(Second), |rig, value| second(rig).line.redirect_efficiency = value),
    (Field::Sling(Second), |rig, value| second(rig).line.sling = value),
    (Field::SecondShare, |rig, value| second(rig).share = value),
    (Field::PeakFactor, |rig, value| second(rig).peak_factor = Some(value)),
    (Field::EdgeAhead, |rig, value| edge(rig).ahead = value),
    (Field::EdgeLevel, |rig, value| edge(rig).level = value),
    (Field::LitterDrop, |rig, value| edge(rig).litter_drop = value),
    (Field::ClearReachWanted, |rig, value| edge(rig).clear_reach_wanted = Some(value)),
    (Field::HeadroomWanted, |rig, value| edge(rig).headroom_wanted = Some(value)),
    (Field::GuyAnchor(1), |rig, value| rig.guys[1].anchor = Point::new(6.0, 0.0, value)),
    (Field::Pretension(1), |rig, value| rig.guys[1].pretension = value),
    (Field::RopeAllowable(1), |rig, value| rig.guys[1].rope_allowable = Some(value)),
    (Field::HoldfastAllowable(1), |rig, value| rig.guys[1].holdfast_allowable = Some(value)),
    (Field::Elongation(1), |rig, value| sheet(rig).elongation = Some(value)),
    (Field::ElongationAt(1), |rig, value| sheet(rig).at = Some(value)),
    (Field::RopeGive(1), |rig, value| sheet(rig).give = Some(value)),
    (Field::GuyBreaking(1), |rig, value| rig.guys[1].cordage.breaking = Some(value)),
    (Field::GuyKnotEfficiency(1), |rig, value| rig.guys[1].cordage.knot_efficiency = Some(value)),
    (Field::Pickets(1), |rig, value| rig.guys[1].holdfast.pickets = Some(value)),
    (Field::PicketSpacing(1), |rig, value| rig.guys[1].holdfast.spacing = Some(value)),
    (Field::HoldfastStrength(1), |rig, value| rig.guys[1].holdfast.strength = Some(value)),
    (Field::StretchMargin, |rig, value| rig.limits.stretch_margin = Some(value)),
    (Field::UprightStop, |rig, value| rig.limits.upright_stop = Some(value)),
    (Field::TimberCompression, |rig, value| rig.gear.timber.compression = Some(value)),
    (Field::TimberBending, |rig, value| rig.gear.timber.bending = Some(value)),
    (Field::TimberStiffness, |rig, value| rig.gear.timber.stiffness = Some(value)),
    (Field::LineBreaking(Main), |rig, value| rig.gear.line.breaking = Some(value)),
    (Field::LineKnotEfficiency(Main), |rig, value| rig.gear.line.knot_efficiency = Some(value)),
    (Field::LineBreaking(Second), |rig, value| rig.gear.second.breaking = Some(value)),
    (Field::SlingBreaking, |rig, value| rig.gear.sling.cordage.breaking = Some(value)),
    (Field::SlingKnotEfficiency, |rig, value| rig.gear.sling.cordage.knot_efficiency = Some(value)),
    (Field::SlingParts, |rig, value| rig.gear.sling.parts = Some(value)),
    (Field::SlingAngle, |rig, value| rig.gear.sling.angle = Some(value)),
    (Field::PulleyBreaking, |rig, value| rig.gear.pulley.breaking = Some(value)),
    (Field::ConnectorBreaking, |rig, value| rig.gear.connector.breaking = Some(value)),
    (Field::RedirectBreaking, |rig, value| rig.gear.redirect.breaking = Some(value)),
    (Field::HaulPickets(Main), |rig, value| rig.gear.haul.pickets = Some(value)),
    (Field::HaulPicketSpacing(Second), |rig, value| rig.gear.second_haul.spacing = Some(value)),
    (Field::HaulHoldfastStrength(Main), |rig, value| rig.gear.haul.strength = Some(value)),
    (Field::HaulHoldfastAllowable(Second), |rig, value| rig.gear.second_haul_allowable = Some(value)),
    (Field::LashingRope, |rig, value| rig.gear.lashing.rope = Some(value)),
    (Field::WrappingTurns, |rig, value| rig.gear.lashing.turns = Some(value)),
    (Field::FrappingTurns, |rig, value| rig.gear.lashing.frapping = Some(value)),
    (Field::Spacer, |rig, value| rig.gear.lashing.spacer = Some(value)),
    (Field::LashingTail, |rig, value| rig.gear.lashing.tail = Some(value)),
    (Field::LashingGirth, |rig, value| rig.gear.lashing.girth = Some(value)),
    (Field::StrengthFactor, |rig, value| rig.gear.factor = Some(value)),
];

fn second(rig: &mut Rig) -> &mut SecondLine {
    rig.second.as_mut().unwrap()
}

fn edge(rig: &mut Rig) -> &mut Edge {
    rig.edge.as_mut().unwrap()
}

fn sheet(rig: &mut Rig) -> &mut DataSheet {
    &mut rig.guys[1].sheet
}

fn sound() -> Rig {
    let mut rig = Rig::new(4.0, 1.2, 0.3, 200.0);
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    rig.guys.push(Guy::to(Point::new(6.0, 0.0, 0.0)));
    rig.second = Some(SecondLine { line: Line::hung(), share: 0.5, peak_factor: None });
    rig.edge = Some(Edge::at(1.0));
    rig.limits.stretch_margin = Some(WANTED_MARGIN);
    assert!(solve(&rig).is_ok());
    rig
}

#[test]
fn every_field_by_its_own_name() {
    for (field, put) in FIELDS {
        let allowed = field.allowed();
        for value in [f64::NAN, f64::INFINITY, allowed.least - 1e-6, allowed.most * 1.000_001] {
            let mut rig = sound();
            put(&mut rig, value);
            let fault = solve(&rig).expect_err(&format!("{field:?} of {value}"));
            assert_eq!((fault.field, fault.value.to_bits()), (field, value.to_bits()), "{fault}");
            assert_eq!(fault.allowed, allowed);
        }
        // At the ends nothing is wrong with the field itself.
        for value in [allowed.least, allowed.most] {
            let mut rig = sound();
            put(&mut rig, value);
            assert!(rig.check().err().is_none_or(|fault| fault.field != field), "{field:?}");
        }
    }
}

/// Back, right and down as much as forward, left and up: what has a sign may have either.
#[test]
fn what_has_a_sign_may_have_either() {
    for field in [
        Field::FootPosition(Left),
        Field::HaulPoint(Main),
        Field::GuyAnchor(0),
        Field::Lean,
        Field::SideAngle(HangingClear),
        Field::OutwardAngle(HangingClear),
        Field::EdgeAhead,
        Field::EdgeLevel,
        Field::ClearReachWanted,
        Field::UprightStop,
    ] {
        let allowed = field.allowed();
        assert!(allowed.least < 0.0 && allowed.most > 0.0, "{field:?}");
    }
}
