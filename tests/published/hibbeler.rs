//! R. C. Hibbeler, S. C. Fan, K. W. Yap, P. Schiavone, *Statics: Mechanics for Engineers*, Pearson 2013, the shear
//! leg derrick that hauls a 200 kg net of fish; R. C. Hibbeler, *Engineering Mechanics: Statics*, example 3.7 (as
//! worked in the open textbook companion code of FOSSEE) and, 14th ed., review problem 3-7.

use super::{guy, legs, mass_of, members, near, solved};
use outlean_rig::{Guy, Point, Rig};

/// Feet (±2, 0, 0), head (0, 4, 4), cable to (0, −5.6, 0) m; 200 kg with g = 9.81. Printed, from memory: 2.52 kN in
/// each leg, 3.64 kN in the cable. Solved apart: 2522.57 N and 3643.71 N.
#[test]
fn shear_leg_derrick_on_the_frame() {
    let mut rig = Rig::new(6.0, 4.0, 45f64.to_radians(), mass_of(200.0 * 9.81));
    rig.guys.push(Guy::to(Point::new(-5.6, 0.0, 0.0)));
    let solution = solved(&rig);
    near(solution.layout.reach(), 4.0, 1e-12);
    near(solution.layout.head_height(), 4.0, 1e-12);
    near(solution.guy_length[0], 10.4, 1e-12);
    near(legs(&solution).left, 2522.57, 0.01);
    near(legs(&solution).right, 2522.57, 0.01);
    near(guy(&solution, 0), 3643.71, 0.01);
    near(legs(&solution).left, 2520.0, 5.0);
    near(guy(&solution, 0), 3640.0, 5.0);
}

#[test]
fn shear_leg_derrick_on_the_kernel() {
    let ends = [[2.0, 0.0, 0.0], [-2.0, 0.0, 0.0], [0.0, -5.6, 0.0]];
    let [a, c, d] = members([0.0, 4.0, 4.0], ends, [0.0, 0.0, -200.0 * 9.81]);
    near(a, 2522.57, 0.01);
    near(c, 2522.57, 0.01);
    near(d, -3643.71, 0.01);
}

/// Cables from A to (−3, −4, 8), (−3, 4, 8) and along +x, 40 hung at A. Printed: 23.6, 23.6, 15.0.
#[test]
fn two_inclined_cables_and_a_level_one() {
    let ends = [[-3.0, -4.0, 8.0], [-3.0, 4.0, 8.0], [1.0, 0.0, 0.0]];
    let [b, c, d] = members([0.0; 3], ends, [0.0, 0.0, -40.0]);
    near(-b, 23.6, 0.05);
    near(-c, 23.6, 0.05);
    near(-d, 15.0, 0.05);
}

/// C(0, 6, 0) to A(2, 0, 0), B(−2, 0, 0), D(0, 12, 8); 500 lb at C. Printed: 198, 198, 625 lb.
#[test]
fn three_cables_and_500_pounds() {
    let ends = [[2.0, 0.0, 0.0], [-2.0, 0.0, 0.0], [0.0, 12.0, 8.0]];
    let [a, b, d] = members([0.0, 6.0, 0.0], ends, [0.0, 0.0, -500.0]);
    near(-a, 198.0, 0.5);
    near(-b, 198.0, 0.5);
    near(-d, 625.0, 0.5);
}
