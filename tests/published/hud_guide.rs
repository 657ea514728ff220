//! HUD, *Residential Structural Design Guide*, 2nd edition, October 2017, example 5.6: a 4x4 column of spruce-pine-fir
//! no 2, 7.3 ft, dry, normal load duration, 4,800 lb.

use super::{FT, LBF, near};
use outlean_rig::strength::Symbol;
use outlean_rig::strength::timber::{Grade, Moisture, Pole, Timber, nds};
use outlean_rig::{Check, Guy, Leg, Pair, Part, Point, Rig, Side, checks, solve, worked};

const IN: f64 = FT / 12.0;
const PSI: f64 = LBF / (IN * IN);

#[test]
fn the_column_formula() {
    let f_ce = nds::critical_buckling(510e3, 7.3 * 12.0 / 3.5);
    near(f_ce, 669.22, 0.01);
    let c_p = nds::column_stability(f_ce / 1322.5, nds::SAWN);
    near(c_p, 0.43783, 1e-5);
    near(1322.5 * c_p, 579.03, 0.01);
    near(4800.0 / (3.5 * 3.5) / (1322.5 * c_p), 0.6767, 1e-4);
}

/// The same column as a leg whose load is on its axis.
#[test]
fn the_column_as_a_leg() {
    let mut rig = Rig::new(7.3 * FT, 0.3, 0.1, 500.0);
    let pole = Pole { breadth: Some(3.5 * IN), eccentricity: Some(0.0), ..Pole::default() };
    rig.legs = Pair::both(Leg { pole, ..rig.legs.left });
    rig.gear.timber =
        Timber { grade: Some(Grade::SprucePineFir), moisture: Moisture::Dry, ..Timber::default() };
    rig.guys.push(Guy::to(Point::new(-4.0, 0.0, 0.0)));
    let solution = solve(&rig).unwrap();
    let part = Part::Leg(Side::Left);
    let leg: Check = checks(&rig, &solution).into_iter().find(|check| check.part == part).unwrap();
    near(leg.allowable.unwrap() / LBF, 7093.0, 0.5);
    near(leg.ratio.unwrap(), leg.demand / leg.allowable.unwrap(), 1e-12);
    let steps = worked(&rig, &solution, part);
    let value = |symbol| steps.iter().find(|value| value.symbol == symbol).unwrap().value;
    near(value(Symbol::FcE) / PSI, 669.22, 0.01);
    near(value(Symbol::FcStar) / PSI, 1322.5, 0.01);
    near(value(Symbol::CP), 0.43783, 1e-5);
    near(value(Symbol::FcPrime) / PSI, 579.03, 0.01);
}
