//! US Navy, NAVEDTRA 14043 and 14251 and the *Steelworker* course, shears and gin poles (read); US Army, FM 5-125, 1995,
//! chapter 5, p. 5-1 (read): how far they may drift, what the aft guy takes, what shears carry beside a gin pole.

use super::{guy, legs, mass_of, members, near, solved};
use outlean_rig::{Connection, Guy, Lean, Point, Rig, Rule, Side, findings};

/// Shears whose feet are a third of their legs' length apart, a load of 1 N, guys anchored two of the leaning head's
/// heights behind and ahead.
fn shears(lean: f64) -> Rig {
    let mut rig = Rig::new(6.0, 2.0, lean, mass_of(1.0));
    let back = 2.0 * solved(&rig).layout.head_height();
    rig.guys.push(Guy::to(Point::new(-back, 0.0, 0.0)));
    rig.guys.push(Guy::to(Point::new(back, 0.0, 0.0)));
    rig
}

/// The aft guy is to be strong enough for half the load, and the fore guy takes little: so it is up to 21° of lean. Past
/// that, well within the drift that is allowed, the rule is not on the safe side.
#[test]
fn the_aft_guy_takes_half_the_load_up_to_21_degrees() {
    let at = |degrees: f64| {
        let solution = solved(&shears(degrees.to_radians()));
        near(guy(&solution, 1), 0.0, 0.0);
        guy(&solution, 0)
    };
    near(at(21.0), 0.5, 0.005);
    assert!(at(15.0) < 0.34 && at(21.2) > 0.5 && at(45.0) > 1.5);
}

/// A drift of 0.7 of the height, or 45° from the vertical: the same to a degree.
#[test]
fn a_drift_of_seven_tenths_is_forty_five_degrees() {
    let slant = solved(&shears(0.0)).layout.slant_height;
    let lean = Lean::Reach(0.7 * slant).from_vertical(slant);
    near(lean.to_degrees(), 45.0, 1.0);
    for (lean, met) in [(lean, true), (lean + 0.02, false)] {
        let found = findings(&shears(lean)).unwrap();
        assert_eq!(found.iter().find(|finding| finding.rule == Rule::LeanLoadedMost).unwrap().met, met);
    }
}

/// Shears carry seven eighths of the table's value for a gin pole of such a spar: at no drift that is allowed does a leg
/// carry more than the pole may.
#[test]
fn seven_eighths_of_a_gin_pole() {
    let most = |degrees: f64| {
        let compression = legs(&solved(&shears(degrees.to_radians())));
        7.0 / 8.0 * compression.left.max(compression.right)
    };
    assert!((0_u8..=45).map(f64::from).map(most).all(|carried| carried < 1.0));
    assert!(most(45.0) > 0.9 && most(50.0) > 1.0, "it is not far from it: {}", most(45.0));
}

/// A tripod is said to carry a third more than shears of such spars: by balance, with legs as steep, half as much more.
#[test]
fn a_tripod_beside_shears() {
    let spread = solved(&shears(0.0));
    let (out, height) = (1.0, spread.layout.head_height());
    let (sine, cosine) = (libm::sqrt(3.0) / 2.0, 0.5);
    let ends = [[out, 0.0, 0.0], [-out * cosine, out * sine, 0.0], [-out * cosine, -out * sine, 0.0]];
    let [one, ..] = members([0.0, 0.0, height], ends, [0.0, 0.0, -1.0]);
    let more = legs(&spread).left / one;
    near(more, 1.5, 1e-9);
    assert!(more > 4.0 / 3.0);
}

/// The legs are tied against spreading (NAVEDTRA 14251, p. 182): tied at the feet, the rope takes all of the thrust, and an
/// upright frame asks nothing sideways of the ground.
#[test]
fn legs_are_tied_against_spreading() {
    let footing = |connection| {
        let mut rig = shears(0.0);
        rig.feet.connection = connection;
        solved(&rig).forces().unwrap().footing
    };
    let (loose, tied) = (footing(Connection::None), footing(Connection::Hobble));
    near(tied.connection, loose.spread_thrust, 1e-12);
    for side in Side::BOTH {
        near(loose.feet.on(side).friction_needed.unwrap(), loose.spread_thrust / 0.5, 1e-9);
        near(tied.feet.on(side).friction_needed.unwrap(), 0.0, 1e-12);
    }
}
