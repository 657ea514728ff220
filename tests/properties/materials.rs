//! What must be carried to build a rig.

use outlean_rig::strength::{HoldfastKind, Lashing};
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
    assert_eq!((found.guys[0].holdfast.pickets, found.guys[0].holdfast.lashings), (3, 2));
    assert!(found.guys[0].holdfast.rope > 2.0 * 10.0 * 0.9);
    assert!((found.line.unwrap() - libm::sqrt(16.0 - 0.36) - 7.0 - 1.0).abs() < 1e-9);
    assert_eq!(HoldfastMaterials::of(&rig.gear.haul), HoldfastMaterials::default());
    rig.guys[0].rigged = false;
    rig.feet.connection = Connection::None;
    let found = materials(&Rig { lean: 0.0, ..rig }).unwrap();
    assert!(found.guys.is_empty() && found.hobble.is_none());
}
