//! Timber columns *derived* from stated inputs by a program written apart, not published: 4x4 by the NDS with
//! Douglas fir-larch no 2, southern pine no 2 and spruce-pine-fir; the buckling factor of EN 1995-1-1 for C24; a load
//! off the axis (15.4-1), for which no printed example is at hand, held against the exact column besides.

use super::{LBF, near};
use outlean_rig::strength::timber::nds::{
    Column, ROUND, SAWN, column_stability, critical_buckling, size_factors, wet_service,
};
use outlean_rig::strength::timber::{Grade, Moisture, Section, eurocode};

const IN: f64 = 0.0254;
const PSI: f64 = LBF / (IN * IN);

/// `C_P`, `F_c`′ (psi) and what a 4x4 may carry (lbf), at a load duration factor of 1.6, for feet of length.
fn four_by_four(grade: Grade, length: f64, moisture: Moisture) -> (f64, f64, f64) {
    let values = grade.values().unwrap();
    let c_f = if grade.sized() { size_factors(3.5 * IN, 3.5 * IN) } else { (1.0, 1.0) };
    let wet = wet_service(moisture, values.compression * c_f.0, values.bending * c_f.1);
    let fc_star = values.compression * 1.6 * wet[0] * c_f.0;
    let f_ce = critical_buckling(values.stiffness * wet[2], length * 12.0 / 3.5);
    let c_p = column_stability(f_ce / fc_star, SAWN);
    (c_p, c_p * fc_star / PSI, c_p * fc_star / PSI * 3.5 * 3.5)
}

#[test]
fn four_by_fours() {
    for (grade, c_p, fc_prime, load) in [
        (Grade::DouglasFirLarch2, 0.15740, 391.0, 4789.0),
        (Grade::SouthernPine2, 0.14854, 344.6, 4221.0),
        (Grade::SprucePineFir, 0.16225, 343.3, 4206.0),
    ] {
        let found = four_by_four(grade, 10.0, Moisture::Dry);
        near(found.0, c_p, 0.001 * c_p);
        near(found.1, fc_prime, 0.001 * fc_prime);
        near(found.2, load, 0.001 * load);
    }
    near(four_by_four(Grade::DouglasFirLarch2, 8.0, Moisture::Dry).2, 7302.0, 7.3);
    near(four_by_four(Grade::DouglasFirLarch2, 12.0, Moisture::Dry).2, 3367.0, 3.4);
    let wet = four_by_four(Grade::DouglasFirLarch2, 10.0, Moisture::Wet);
    near(wet.0, 0.17615, 0.0002);
    near(wet.2, 4288.0, 4.3);
}

/// A 4x4 of Douglas fir-larch no 2, dry, 8 ft, its load half its side off the axis: 225.467 psi by 15.4-1. The column
/// bent exactly, whose moment grows by sec(π/2 √(`f_c/F_cE`)), comes to 225.00.
#[test]
fn a_load_off_the_axis() {
    let fc_star = 1350.0 * 1.15;
    let f_ce = critical_buckling(580e3, 96.0 / 3.5);
    let fc_prime = fc_star * column_stability(f_ce / fc_star, SAWN);
    let fb_prime = 900.0 * 1.5;
    near(fc_prime, 568.1337, 1e-3);
    let column = Column { fc_prime, fb_prime, f_ce, f_b: 0.0, crook: 0.0, eccentric: 3.0 };
    let most = column.greatest_compression();
    near(most, 225.467_474, 1e-5);
    near(column.interaction(most), 1.0, 1e-12);
    let grown = 1.0 / libm::cos(core::f64::consts::FRAC_PI_2 * libm::sqrt(most / f_ce));
    let exact = (most / fc_prime) * (most / fc_prime) + 3.0 * most * grown / fb_prime;
    near(exact, 1.0, 0.005);
}

/// A round pole of 100 mm, 3.5 m, wet, with its load on its side, a crook of 20 mm and 50 psi of its own weight.
#[test]
fn a_crooked_pole_with_its_load_on_its_side() {
    let section = Section::Round(0.1);
    near(section.side() / IN, 3.489_082, 1e-6);
    let slenderness = 3.5 / section.side();
    near(slenderness, 39.493_27, 1e-5);
    let (fc_star, fb_prime) = (1000.0 * 0.8, 1200.0 * 0.85);
    let f_ce = critical_buckling(580e3 * 0.9, slenderness);
    near(f_ce, 275.103_498, 1e-5);
    let c_p = column_stability(f_ce / fc_star, ROUND);
    near(c_p, 0.321_098_9, 1e-7);
    let eccentric = 0.05 / section.core();
    near(eccentric, 4.0, 0.0);
    let column = Column {
        fc_prime: fc_star * c_p,
        fb_prime,
        f_ce,
        f_b: 50.0,
        crook: 0.02 / section.core(),
        eccentric,
    };
    near(column.greatest_compression(), 91.807_447, 1e-5);
    // Under half of that, term by term (15.4-1); at the critical value there is no more room.
    let f_c = 45.0;
    let grown = column.eccentric * (1.0 + 0.234 * f_c / f_ce);
    let bending = (50.0 + f_c * (column.crook + grown)) / (fb_prime * (1.0 - f_c / f_ce));
    let axial = f_c / column.fc_prime;
    near(column.interaction(f_c), axial * axial + bending, 1e-12);
    assert!(column.interaction(f_ce).is_infinite());
    // Nothing but the bending: past it, nothing may be carried besides.
    near(Column { f_b: fb_prime, ..column }.greatest_compression(), 0.0, 0.0);
    let straight = Column { f_b: 0.0, crook: 0.0, eccentric: 0.0, ..column };
    near(straight.greatest_compression(), fc_star * c_p, 1e-12 * fc_star);
}

#[test]
fn buckling_factors_of_c24() {
    let relative = |slenderness| eurocode::relative_slenderness(slenderness, 21.0, 7400.0);
    for (slenderness, k_c) in [
        (40.0, 0.8867),
        (60.0, 0.6764),
        (80.0, 0.4496),
        (100.0, 0.3052),
        (120.0, 0.2181),
        (140.0, 0.1631),
        (160.0, 0.1264),
        (180.0, 0.1007),
    ] {
        near(eurocode::buckling(relative(slenderness)), k_c, 6e-5);
    }
    // A round pole of 100 mm, 3 m: four lengths over the diameter.
    near(eurocode::buckling(relative(3.0 / Section::Round(0.1).gyration())), 0.2181, 6e-5);
    near(eurocode::buckling(0.3), 1.0, 0.0);
}
