//! American Wood Council, *Structural Wood Design Examples*, 2015/2018: beam-columns E1.7 (uniaxial, a 2x6 stud of
//! southern pine no 1, 9 ft) and E1.8 (a 2x4 of southern pine no 2, 3 ft, where it bends about one axis). psi. The factors on
//! load duration here are of wind, snow and dead load: examples of the formulas, not loads offered for a frame.

use super::near;
use outlean_rig::strength::timber::nds::{Column, SAWN, column_stability, critical_buckling};

#[track_caller]
fn about(found: f64, printed: f64) {
    near(found, printed, 0.005 * printed);
}

/// A straight column loaded along its axis that bends under a load across it: its stability factor and how much of what is
/// allowed (3.9-3, which is 15.4-1 without a load off the axis) a compression stress uses.
fn used(fc_star: f64, f_ce: f64, fb_prime: f64, f_b: f64, f_c: f64) -> (f64, f64, f64) {
    let c_p = column_stability(f_ce / fc_star, SAWN);
    let fc_prime = fc_star * c_p;
    let column = Column { fc_prime, fb_prime, f_ce, f_b, crook: 0.0, eccentric: 0.0 };
    (c_p, fc_prime, column.interaction(f_c))
}

/// The 2x4 on its flat side, 36 in unbraced: compression 1,450, bending 1,100 and a tenth more for flat use, modulus 510,000.
/// `load` along it and `across` its middle, lb.
fn flat(c_d: f64, load: f64, across: f64) -> (f64, f64, f64) {
    let (depth, breadth, length) = (3.5, 1.5, 36.0);
    let f_ce = critical_buckling(510e3, length / breadth);
    let f_b = across * length / 4.0 / (depth * breadth * breadth / 6.0);
    used(1450.0 * c_d, f_ce, 1100.0 * c_d * 1.1, f_b, load / (depth * breadth))
}

/// With wind it bends about both axes, which no leg is taken to do: what of it is a column's alone.
#[test]
fn a_2x4_with_wind() {
    near(critical_buckling(510e3, 36.0 / 3.5), 3962.5, 1.0);
    near(critical_buckling(510e3, 36.0 / 1.5), 727.8, 0.1);
    let (c_p, fc_prime, _) = flat(1.6, 900.0, 150.0);
    near(c_p, 0.2900, 1e-4);
    about(fc_prime, 672.8);
}

#[test]
fn a_2x4_with_snow_and_with_dead_load() {
    let (c_p, fc_prime, used) = flat(1.15, 900.0, 150.0);
    near(c_p, 0.387, 0.0005);
    about(fc_prime, 646.0);
    near(used, 1.0373, 0.0005);
    // Its bending stress is printed 353 in this case, which is a slip of the reference: 342.9.
    let (c_p, fc_prime, used) = flat(0.9, 300.0, 50.0);
    near(c_p, 0.473, 0.0005);
    about(fc_prime, 617.0);
    near(used, 0.3502, 0.0005);
}

#[test]
fn a_stud_with_wind_snow_and_dead_load() {
    let f_ce = critical_buckling(580e3, 9.0 * 12.0 / 5.5);
    let f_c = 1400.0 / 8.25;
    near(f_c, 169.7, 0.05);
    let stud = |c_d: f64| used(1550.0 * c_d, f_ce, 2160.0, 1606.6, f_c);
    let (c_p, fc_prime, used) = stud(1.6);
    near(c_p, 0.4326, 0.001);
    near(fc_prime, 1073.0, 2.0);
    near(used, 0.887, 0.002);
    let (c_p, fc_prime, _) = stud(1.15);
    near(c_p, 0.5551, 0.001);
    near(fc_prime, 989.5, 2.0);
    near(f_c / fc_prime, 0.1715, 0.0005);
    let (c_p, fc_prime, _) = stud(0.9);
    near(c_p, 0.6479, 0.001);
    near(fc_prime, 903.8, 2.0);
}

/// At and past the critical value the formula no longer holds (3.9.2).
#[test]
fn past_the_critical_value_nothing_is_allowed() {
    let column = |f_ce: f64| Column {
        fc_prime: 1000.0,
        fb_prime: 900.0,
        f_ce,
        f_b: 100.0,
        crook: 0.0,
        eccentric: 0.0,
    };
    assert!(column(2000.0).interaction(500.0) < 1.0);
    for f_ce in [500.0, 400.0] {
        assert!(column(f_ce).interaction(500.0).is_infinite(), "{f_ce}");
    }
}
