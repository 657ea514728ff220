//! Two-legged timber frames of US field practice: legs of 12 ft to the lashing, feet 6 ft apart, guys to 24 ft.
//! *Derived* from stated inputs with a program of its own, in feet and pounds; not printed anywhere.

use super::{FT, LBF, feet, guy, legs, mass_of, near, solved};
use outlean_rig::{Guy, Line, Path, Point, Rig, Role, Side, Tip};

/// 600 lbf on 12 ft legs, feet at ±3 ft, lean 15°, aft guy 24 ft behind.
fn frame() -> Rig {
    let mut rig = Rig::new(12.0 * FT, 6.0 * FT, 15f64.to_radians(), mass_of(600.0 * LBF));
    rig.guys.push(Guy::to(feet(-24.0, 0.0, 0.0)));
    rig
}

#[test]
fn a_hung_load() {
    let solution = solved(&frame());
    near(guy(&solution, 0) / LBF, 195.913, 1e-3);
}

/// The haul line led down to the right foot adds its tension to that leg and leaves the guy alone.
#[test]
fn haul_line_to_the_right_foot() {
    let mut rig = frame();
    rig.line = Line::along(Path::RedirectedAtFoot { foot: Side::Right, to: feet(0.0, 20.0, 0.0) });
    let solution = solved(&rig);
    near(guy(&solution, 0) / LBF, 195.913, 1e-3);
    near(legs(&solution).left / LBF, 360.961, 1e-3);
    near(legs(&solution).right / LBF, 960.961, 1e-3);
}

/// The haul line straight back to the ground 12 ft behind: the aft guy would have to push 272.29 lbf, so the fore
/// guy works; without one the frame tips back.
#[test]
fn haul_line_straight_back() {
    let mut rig = frame();
    rig.line = Line::along(Path::StraightBack { to: feet(-12.0, 0.0, 0.0) });
    let alone = solved(&rig);
    near(alone.resultant.tipping_moment / alone.guy_arm[0] / LBF, -272.29, 5e-3);
    assert_eq!(alone.tips(), Some(Tip::Back));

    rig.guys.push(Guy::to(feet(24.0, 0.0, 0.0)));
    let held = solved(&rig);
    near(guy(&held, 1) / LBF, 221.623, 1e-3);
    near(guy(&held, 0), 0.0, 0.0);
    near(legs(&held).left / LBF, 568.736, 1e-3);
    near(legs(&held).right / LBF, 568.736, 1e-3);
}

/// A fore guy set to 50 lbf with the load on pulls against the aft guy and presses on the legs.
#[test]
fn fore_guy_set_to_50_pounds() {
    let mut rig = frame();
    rig.guys.push(Guy { pretension: 50.0 * LBF, ..Guy::to(feet(24.0, 0.0, 0.0)) });
    let solution = solved(&rig);
    near(guy(&solution, 0) / LBF, 257.343, 1e-3);
    near(legs(&solution).left / LBF, 386.166, 1e-3);
    near(legs(&solution).right / LBF, 386.166, 1e-3);
    assert_eq!(solution.forces().unwrap().guys[1].role, Role::Pretensioned);
}

/// Aft guy over load, and what the legs carry together in the frame's plane over load, for an anchor two of the
/// leaning head's heights behind the feet.
#[test]
fn the_price_of_lean() {
    for (lean, aft, plane) in [
        (5.0, 0.1013, 1.0477),
        (10.0, 0.2112, 1.1050),
        (11.54, 0.2471, 1.1248),
        (15.0, 0.3321, 1.1740),
        (20.0, 0.4671, 1.2578),
        (22.5, 0.5412, 1.3066),
        (25.0, 0.6205, 1.3606),
        (30.0, 0.7981, 1.4880),
        (45.0, 1.5811, 2.1213),
    ] {
        let lean = f64::to_radians(lean);
        let mut rig = Rig::new(4.0, 1.2, lean, mass_of(1.0));
        let layout = solved(&rig).layout;
        rig.guys.push(Guy::to(Point::new(-2.0 * layout.head_height(), 0.0, 0.0)));
        let solution = solved(&rig);
        near(guy(&solution, 0), aft, 6e-5);
        let along = layout.slant_height / 4.0;
        near((legs(&solution).left + legs(&solution).right) * along, plane, 6e-5);
    }
}

/// An upright frame whose feet are apart a third, a half, and all of the legs' length: leg and outward thrust of
/// each foot over load.
#[test]
fn upright_legs() {
    for (spread, leg, thrust) in
        [(1.0 / 3.0, 0.50709, 0.08452), (0.5, 0.51640, 0.12910), (1.0, 0.57735, 0.28868)]
    {
        let solution = solved(&Rig::new(5.0, 5.0 * spread, 0.0, mass_of(1.0)));
        let footing = solution.forces().unwrap().footing;
        for side in Side::BOTH {
            near(*legs(&solution).on(side), leg, 6e-6);
            near(footing.feet.on(side).outward, thrust, 6e-6);
            near(footing.feet.on(side).bearing, 0.5, 1e-12);
        }
        near(footing.spread_thrust, thrust, 6e-6);
    }
}
