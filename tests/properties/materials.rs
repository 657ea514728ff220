//! What must be carried to build a rig.

use outlean_rig::strength::{Holdfast, HoldfastKind, Lashing};
use outlean_rig::{Connection, Guy, HoldfastMaterials, Line, Path, Point, Rig, materials};

fn rig() -> Rig {
    let mut rig = Rig::new(4.0, 1.2, 0.3, 200.0);
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    rig.feet.connection = Connection::Hobble;
    rig
}

/// Without a thickness of rope or a girth, nothing is said; with both, turn by turn.
#[test]
fn a_lashing_is_as_long_as_its_turns() {
    let mut rig = rig();
    assert_eq!(materials(&rig).unwrap().lashing, None);
    rig.gear.lashing = Lashing { rope: Some(0.01), girth: Some(0.36), ..Lashing::default() };
    let six = materials(&rig).unwrap().lashing.unwrap();
    rig.gear.lashing.turns = Some(8.0);
    let eight = materials(&rig).unwrap().lashing.unwrap();
    // Round two poles of 11.5 cm, 4.5 cm apart, with the middle of a 1 cm rope: a loop laid out by hand.
    let thick = 0.36 / core::f64::consts::PI;
    let loop_of = core::f64::consts::PI * (thick + 0.01) + 2.0 * (thick + 0.045);
    assert!((eight.wrapping - six.wrapping - 2.0 * loop_of).abs() < 1e-12);
    assert!((six.wrapping - 6.0 * loop_of).abs() < 1e-12);
    assert!((six.total() - six.wrapping - six.frapping - six.hitches - six.tails).abs() < 1e-12);
}

#[test]
fn ropes_and_pickets_are_those_of_the_rig() {
    let mut rig = rig();
    rig.guys[0].holdfast.kind = Some(HoldfastKind::Pickets111);
    rig.line = Line::along(Path::RedirectedMidBase { to: Point::new(-7.0, 0.0, 0.0) });
    let found = materials(&rig).unwrap();
    let length = outlean_rig::solve(&rig).unwrap().guy_length[0];
    assert!((found.guys[0].rope - length - 2.0).abs() < 1e-12);
    let holdfast = found.guys[0].holdfast.unwrap();
    assert_eq!((holdfast.pickets, holdfast.lashings), (3, 2));
    assert!(holdfast.rope > 2.0 * 10.0 * 0.9);
    assert!((found.line.unwrap() - libm::sqrt(16.0 - 0.36) - 7.0 - 1.0).abs() < 1e-9);
    assert_eq!(found.haul, None, "nothing is said of it");
    rig.guys[0].rigged = false;
    rig.feet.connection = Connection::None;
    let found = materials(&Rig { lean: 0.0, ..rig }).unwrap();
    assert!(found.guys.is_empty() && found.hobble.is_none());
}

/// Of each system its pickets and what ties them to one another; what is counted is as many as were counted, one where
/// nothing was, and steel pickets are tied in a row.
#[test]
fn every_system_has_its_pickets_and_lashings() {
    for (kind, count, pickets, lashings) in [
        (HoldfastKind::Picket, None, 1, 0),
        (HoldfastKind::Pickets11, None, 2, 1),
        (HoldfastKind::Pickets111, None, 3, 2),
        (HoldfastKind::Pickets21, None, 3, 1),
        (HoldfastKind::Pickets321, None, 6, 2),
        (HoldfastKind::SteelPickets, Some(4.0), 4, 3),
        (HoldfastKind::SteelPickets, None, 1, 0),
        (HoldfastKind::Pins1Inch, Some(5.0), 5, 0),
        (HoldfastKind::Pins3Inch, None, 1, 0),
        (HoldfastKind::Natural, Some(3.0), 0, 0),
        (HoldfastKind::Deadman, None, 0, 0),
    ] {
        let holdfast =
            Holdfast { kind: Some(kind), pickets: count, spacing: Some(1.44), ..Holdfast::default() };
        let found = HoldfastMaterials::of(&holdfast).unwrap();
        assert_eq!((found.pickets, found.lashings), (pickets, lashings), "{kind:?} {count:?}");
        // Five turns, there and back, to a picket 1.44 m off from 0.6 m up another, and a knot of 1 m.
        assert!((found.rope - f64::from(lashings) * (2.0 * 5.0 * 1.56 + 1.0)).abs() < 1e-12, "{found:?}");
    }
}

/// From foot to foot, two clove hitches of two turns each, two tails.
#[test]
fn a_hobble_is_as_long_as_the_feet_are_apart_and_what_ties_it() {
    let mut rig = rig();
    rig.gear.lashing = Lashing { rope: Some(0.01), girth: Some(0.36), tail: Some(0.4), ..Lashing::default() };
    let wanted = 1.2 + 4.0 * (0.36 + 0.01 * core::f64::consts::PI) + 0.8;
    assert!((materials(&rig).unwrap().hobble.unwrap() - wanted).abs() < 1e-12);
}

/// Round both legs, 4.5 cm apart where they are lashed, and down to the pulley and back.
#[test]
fn the_sling_of_the_pulley_goes_round_both_legs() {
    let mut rig = rig();
    rig.gear.lashing.girth = Some(0.36);
    rig.line.sling = 0.7;
    let wanted = 0.36 + 2.0 * (0.36 / core::f64::consts::PI + 0.045) + 2.0 * 0.7;
    assert!((materials(&rig).unwrap().sling.unwrap() - wanted).abs() < 1e-12);
}
