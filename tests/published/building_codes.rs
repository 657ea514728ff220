//! What building codes add to a moving load: Ontario Building Code, table 4.1.5.11 (read); Municipal Code of Chicago,
//! 13-52-170 (read); Minnesota Rules, 1305.1607 (read); ASCE 7-16, 4.6.3 and 4.9.3 (*from memory*; alike).

use super::{guy, legs, mass_of, near, solved};
use outlean_rig::{Guy, Point, Rig};

/// What an impact of `percent` of the load does: every force of a frame without weight grows by as much.
#[track_caller]
fn adds(percent: f64) {
    let mut rig = Rig::new(4.0, 1.2, 0.35, mass_of(2000.0));
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    let still = solved(&rig);
    rig.load.dynamic_factor = 1.0 + percent / 100.0;
    let moving = solved(&rig);
    near(moving.line.load.size(), 2000.0 + 20.0 * percent, 1e-9);
    for (moved, at_rest) in [
        (guy(&moving, 0), guy(&still, 0)),
        (legs(&moving).left, legs(&still).left),
        (legs(&moving).right, legs(&still).right),
    ] {
        near(100.0 * (moved / at_rest - 1.0), percent, 1e-9);
    }
}

/// By hand or pendant 10, light machinery 20, from a cab or by radio 25, reciprocating machinery 50.
#[test]
fn ontario() {
    [10.0, 20.0, 25.0, 50.0].into_iter().for_each(adds);
}

/// Light machinery 20, craneways 25, hangers 33, reciprocating machinery 50, elevators 100.
#[test]
fn chicago() {
    [20.0, 25.0, 33.0, 50.0, 100.0].into_iter().for_each(adds);
}

/// Hand chains nothing, hoists below 30 ft/min 15, faster ones half of a percent for each ft/min, up to 50; bridges 25.
#[test]
fn minnesota() {
    let hoist = |feet_per_minute: f64| (0.5 * feet_per_minute).clamp(15.0, 50.0);
    [0.0, 25.0, hoist(20.0), hoist(60.0), hoist(200.0)].into_iter().for_each(adds);
}

/// By hand nothing, pendant 10, light machinery 20, powered 25, reciprocating 50.
#[test]
fn asce_from_memory() {
    [0.0, 10.0, 20.0, 25.0, 50.0].into_iter().for_each(adds);
}
