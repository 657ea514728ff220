//! *National Design Specification*, supplement, 2018: tables 4A and 4B, as transcribed by open-source programs that
//! cite its pages; the factors beside them; table 2.3.2. Posts and timbers of table 4D from memory.

use super::{LBF, near};
use outlean_rig::strength::timber::nds::{load_duration, size_factors, wet_service};
use outlean_rig::strength::timber::{Duration, Grade, Moisture};
use outlean_rig::strength::{Seen, Source};

const IN: f64 = 0.0254;
const PSI: f64 = LBF / (IN * IN);

#[track_caller]
fn row(grade: Grade, bending: f64, compression: f64, e_min: f64, seen: Seen) {
    let values = grade.values().unwrap();
    near(values.bending / PSI, bending, 1e-6);
    near(values.compression / PSI, compression, 1e-6);
    near(values.stiffness / PSI, e_min, 1e-3);
    assert_eq!(values.source.seen, seen);
}

#[test]
fn dimension_lumber() {
    row(Grade::DouglasFirLarch1, 1000.0, 1500.0, 620e3, Seen::SecondHand);
    row(Grade::DouglasFirLarch2, 900.0, 1350.0, 580e3, Seen::SecondHand);
    row(Grade::SprucePineFir, 875.0, 1150.0, 510e3, Seen::SecondHand);
    row(Grade::HemFir2, 850.0, 1300.0, 470e3, Seen::SecondHand);
    row(Grade::SouthernPine2, 1100.0, 1450.0, 510e3, Seen::SecondHand);
    assert_eq!(Grade::SouthernPine2.values().unwrap().source.source, Source::NdsTable4B);
    // The same row in a metric guide: bending 7.6, compression 10.0 MPa, modulus 3.5 GPa.
    let southern = Grade::SouthernPine2.values().unwrap();
    near(southern.bending / 1e6, 7.6, 0.05);
    near(southern.compression / 1e6, 10.0, 0.05);
    near(southern.stiffness / 1e9, 3.5, 0.05);
}

/// From memory, but for the compression and the modulus of no 1.
#[test]
fn posts_and_timbers_from_memory() {
    row(Grade::DouglasFirLarchPosts1, 1200.0, 1000.0, 580e3, Seen::Memory);
    row(Grade::DouglasFirLarchPosts2, 750.0, 700.0, 470e3, Seen::Memory);
}

#[test]
fn factors_for_size() {
    for (depth, on_compression, on_bending) in
        [(3.5, 1.15, 1.5), (3.5625, 1.15, 1.5), (5.5, 1.1, 1.3), (7.25, 1.05, 1.2), (13.25, 0.9, 0.9)]
    {
        assert_eq!(size_factors(1.5 * IN, depth * IN), (on_compression, on_bending), "{depth} in");
    }
    near(size_factors(3.5 * IN, 7.25 * IN).1, 1.3, 0.0);
    near(size_factors(1.5 * IN, 9.25 * IN).0, 1.0, 0.0);
    near(size_factors(1.5 * IN, 11.25 * IN).0, 1.0, 0.0);
}

#[track_caller]
fn wet(found: [f64; 3], printed: [f64; 3]) {
    found.into_iter().zip(printed).for_each(|(found, printed)| near(found, printed, 0.0));
}

#[test]
fn factors_for_wet_service() {
    wet(wet_service(Moisture::Dry, 1e9, 1e9), [1.0, 1.0, 1.0]);
    wet(wet_service(Moisture::Wet, 751.0 * PSI, 1151.0 * PSI), [0.8, 0.85, 0.9]);
    wet(wet_service(Moisture::Wet, 749.0 * PSI, 1149.0 * PSI), [1.0, 1.0, 0.9]);
}

/// 1.6 and 2.0, of ten minutes and impact, are not offered.
#[test]
fn factors_for_load_duration() {
    near(load_duration(Duration::Permanent), 0.9, 0.0);
    near(load_duration(Duration::Long), 1.0, 0.0);
    near(load_duration(Duration::Medium), 1.15, 0.0);
    near(load_duration(Duration::Short), 1.25, 0.0);
    assert_eq!(Duration::default(), Duration::Long);
}
