//! American Wood Council, *Structural Wood Design Examples*, 2015/2018: beam-columns E1.7 (uniaxial, a 2x6 stud of
//! southern pine no 1, 9 ft) and E1.8 (biaxial, a 2x4 of southern pine no 2, 3 ft). psi. The factors on load duration
//! here are of wind, snow and dead load: examples of the formulas, not loads offered for a frame.

use super::near;
use outlean_rig::strength::timber::nds::{
    SAWN, Stresses, beam_slenderness, beam_stability, column_stability, combined, critical_bending,
    critical_buckling,
};

#[track_caller]
fn about(found: f64, printed: f64) {
    near(found, printed, 0.005 * printed);
}

/// The 2x4: compression 1,450, bending 1,100, modulus 510,000; 36 in unbraced about both axes.
fn biaxial(c_d: f64, load: f64, weak: f64, strong: f64) -> (Stresses, f64) {
    let (depth, breadth, e_min, length) = (3.5, 1.5, 510e3, 36.0);
    let f_ce = [critical_buckling(e_min, length / depth), critical_buckling(e_min, length / breadth)];
    let fc_star = 1450.0 * c_d;
    let c_p = column_stability(f_ce[1] / fc_star, SAWN);
    let fb_star = 1100.0 * c_d;
    let f_be = critical_bending(e_min, beam_slenderness(59.82, depth, breadth));
    let moment = |load: f64| load * length / 4.0;
    let stresses = Stresses {
        f_c: load / (depth * breadth),
        fc_prime: fc_star * c_p,
        f_b: [
            moment(strong) / (breadth * depth * depth / 6.0),
            moment(weak) / (depth * breadth * breadth / 6.0),
        ],
        // Flat use of a 4 in piece: 1.1.
        fb_prime: [fb_star * beam_stability(f_be / fb_star), fb_star * 1.1],
        f_ce,
        f_be,
    };
    (stresses, c_p)
}

#[test]
fn biaxial_with_wind() {
    let (stresses, c_p) = biaxial(1.6, 900.0, 150.0, 120.0);
    near(stresses.f_ce[0], 3962.5, 1.0);
    near(stresses.f_ce[1], 727.8, 0.1);
    near(c_p, 0.2900, 1e-4);
    about(stresses.fc_prime, 672.8);
    about(stresses.fb_prime[0], 1729.0);
    about(stresses.fb_prime[1], 1936.0);
    about(stresses.f_c, 171.0);
    about(stresses.f_b[0], 353.0);
    about(stresses.f_b[1], 1029.0);
    near(combined(&stresses), 0.9758, 0.0005);
}

#[test]
fn biaxial_with_snow_and_dead_load() {
    let (stresses, c_p) = biaxial(1.15, 900.0, 150.0, 0.0);
    near(c_p, 0.387, 0.0005);
    about(stresses.fc_prime, 646.0);
    about(stresses.fb_prime[1], 1392.0);
    near(combined(&stresses), 1.0373, 0.0005);
    // Its bending stress is printed 353 in the third case, which is a slip of the reference: 342.9.
    let (stresses, c_p) = biaxial(0.9, 300.0, 50.0, 0.0);
    near(c_p, 0.473, 0.0005);
    about(stresses.fc_prime, 617.0);
    about(stresses.fb_prime[1], 1089.0);
    about(stresses.f_b[1], 342.9);
    near(combined(&stresses), 0.3502, 0.0005);
}

#[test]
fn lateral_stability_of_the_2x4() {
    let r_b = beam_slenderness(59.82, 3.5, 1.5);
    about(r_b, 9.6464);
    about(critical_bending(510e3, r_b), 6577.0);
    about(beam_stability(critical_bending(510e3, r_b) / (1100.0 * 1.6)), 0.9825);
}

#[test]
fn uniaxial_with_wind() {
    let (fc, e_min, slenderness) = (1550.0, 580e3, 9.0 * 12.0 / 5.5);
    let f_ce = critical_buckling(e_min, slenderness);
    let prime = |c_d: f64| {
        let c_p = column_stability(f_ce / (fc * c_d), SAWN);
        (c_p, fc * c_d * c_p)
    };
    let (c_p, fc_prime) = prime(1.6);
    near(c_p, 0.4326, 0.001);
    near(fc_prime, 1073.0, 2.0);
    let stresses = Stresses {
        f_c: 1400.0 / 8.25,
        fc_prime,
        f_b: [1606.6, 0.0],
        fb_prime: [2160.0, f64::INFINITY],
        f_ce: [f_ce, f64::INFINITY],
        f_be: f64::INFINITY,
    };
    near(stresses.f_c, 169.7, 0.05);
    near(combined(&stresses), 0.887, 0.002);
    let (c_p, fc_prime) = prime(1.15);
    near(c_p, 0.5551, 0.001);
    near(fc_prime, 989.5, 2.0);
    near(stresses.f_c / fc_prime, 0.1715, 0.0005);
    let (c_p, fc_prime) = prime(0.9);
    near(c_p, 0.6479, 0.001);
    near(fc_prime, 903.8, 2.0);
}

/// At and past either critical value the formula no longer holds (3.9.2).
#[test]
fn past_a_critical_value_nothing_is_allowed() {
    let stresses = Stresses {
        f_c: 500.0,
        fc_prime: 1000.0,
        f_b: [100.0, 100.0],
        fb_prime: [900.0, 900.0],
        f_ce: [2000.0, 2000.0],
        f_be: 4000.0,
    };
    assert!(combined(&stresses) < 1.0);
    for f_ce in [[500.0, 2000.0], [2000.0, 500.0], [400.0, 2000.0], [2000.0, 400.0]] {
        assert!(combined(&Stresses { f_ce, ..stresses }).is_infinite(), "{f_ce:?}");
    }
}
