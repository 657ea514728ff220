//! EN 338 strength classes and EN 1995-1-1:2004 table 3.1, as transcribed in programs and in Porteous & Kermani,
//! *Structural Timber Design to Eurocode 5*, table 5.3 and example 5.7.3. C14 from memory.

use super::near;
use outlean_rig::strength::Seen;
use outlean_rig::strength::timber::{Duration, Grade, Moisture, Section, eurocode};

#[test]
fn classes() {
    for (grade, bending, compression, stiffness, seen) in [
        (Grade::C16, 16.0, 17.0, 5400.0, Seen::SecondHand),
        (Grade::C24, 24.0, 21.0, 7400.0, Seen::SecondHand),
        (Grade::C27, 27.0, 22.0, 7700.0, Seen::SecondHand),
        (Grade::C30, 30.0, 23.0, 8000.0, Seen::SecondHand),
        (Grade::C35, 35.0, 25.0, 8700.0, Seen::SecondHand),
        // From memory.
        (Grade::C14, 14.0, 16.0, 4700.0, Seen::Memory),
    ] {
        let values = grade.values().unwrap();
        near(values.bending / 1e6, bending, 1e-9);
        near(values.compression / 1e6, compression, 1e-9);
        near(values.stiffness / 1e6, stiffness, 1e-6);
        assert_eq!(values.source.seen, seen, "{grade:?}");
    }
    let lowest = |pick: fn(Grade) -> Option<f64>| {
        Grade::ALL.into_iter().filter_map(pick).fold(f64::INFINITY, f64::min)
    };
    let en = |grade: Grade| (grade.code() == outlean_rig::strength::timber::Code::En1995).then_some(grade);
    near(
        lowest(|g| Some(g.values()?.compression).filter(|_| g.assumed())),
        Grade::ALL
            .into_iter()
            .filter_map(en)
            .filter_map(|g| Some(g.values()?.compression))
            .fold(f64::INFINITY, f64::min),
        0.0,
    );
}

#[test]
fn modification_factors() {
    use Duration::{Long, Medium, Permanent, Short};
    for (duration, dry, wet) in
        [(Permanent, 0.6, 0.5), (Long, 0.7, 0.55), (Medium, 0.8, 0.65), (Short, 0.9, 0.7)]
    {
        near(eurocode::modification(Moisture::Dry, duration), dry, 0.0);
        near(eurocode::modification(Moisture::Wet, duration), wet, 0.0);
    }
}

/// Design strengths: C24 in bending, medium duration, dry: 14.769 MPa; 2.2 MPa across the grain of C18, permanent, wet:
/// 0.84615 MPa.
#[test]
fn design_strengths() {
    near(
        eurocode::design_strength(24.0, eurocode::modification(Moisture::Dry, Duration::Medium)),
        14.769,
        5e-4,
    );
    let wet = eurocode::modification(Moisture::Wet, Duration::Permanent);
    near(eurocode::design_strength(2.2, wet), 0.84615, 5e-6);
}

/// Porteous & Kermani, example 5.7.3: 100 × 200 mm of C24, 3.75 m, medium duration. The slenderness 129.9 is printed;
/// the rest is derived.
#[test]
fn a_post_of_c24() {
    let slenderness = 3.75 / Section::Sawn(0.1, 0.2).gyration();
    near(slenderness, 129.9, 0.05);
    let relative = eurocode::relative_slenderness(slenderness, 21.0, 7400.0);
    near(relative, 2.2028, 2e-4);
    near(eurocode::k(relative), 3.1163, 2e-4);
    let k_c = eurocode::buckling(relative);
    near(k_c, 0.1879, 1e-4);
    let design = eurocode::design_strength(21.0, eurocode::modification(Moisture::Dry, Duration::Medium));
    near(k_c * design, 2.429, 1e-3);
}

/// EN 1995-1-1 table 2.3: 1.3 on solid timber; EN 1990: 1.5 on what comes and goes, 1.35 on what stays.
#[test]
fn partial_factors() {
    near(eurocode::GAMMA_M, 1.3, 0.0);
    near(eurocode::GAMMA_Q, 1.5, 0.0);
    near(eurocode::GAMMA_G, 1.35, 0.0);
}
