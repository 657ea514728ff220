//! Breaking strengths of ropes and hardware: EN 1891 type A and B (maker's catalogue and a rope-access manual); NFPA
//! 1983/2500 (second hand; technical use rope and the pulleys from memory); manila and three-strand nylon (tables of
//! engineering handbooks, lbf); the seamen's rule by circumference. Tubular webbing from memory.

use super::{LBF, near};
use outlean_rig::strength::{Cordage, Hardware, HardwareClass, RopeClass, Seen};

#[test]
fn classes_of_rope() {
    for (class, newtons, seen) in [
        (RopeClass::En1891A, 22_000.0, Seen::Read),
        (RopeClass::En1891B, 18_000.0, Seen::Read),
        (RopeClass::NfpaGeneral, 40_000.0, Seen::SecondHand),
        (RopeClass::ManilaHalf, 2_385.0 * LBF, Seen::Read),
        (RopeClass::ManilaFiveEighths, 3_960.0 * LBF, Seen::Read),
        (RopeClass::ManilaThreeQuarters, 4_860.0 * LBF, Seen::Read),
        (RopeClass::ManilaOne, 8_100.0 * LBF, Seen::Read),
        (RopeClass::NylonHalf, 5_750.0 * LBF, Seen::Read),
        (RopeClass::NylonFiveEighths, 9_350.0 * LBF, Seen::Read),
        (RopeClass::NylonThreeQuarters, 12_800.0 * LBF, Seen::Read),
    ] {
        let (breaking, source) = class.breaking();
        near(breaking, newtons, 1e-9 * newtons);
        assert_eq!(source.seen, seen, "{class:?}");
        let rope = Cordage { class: Some(class), knot_efficiency: Some(1.0), ..Cordage::default() };
        near(rope.capacity(None).unwrap().strength, breaking, 0.0);
    }
    // The general use rope is also printed as 9,000 lbf (8,992 with all digits).
    near(RopeClass::NfpaGeneral.breaking().0 / LBF, 9_000.0, 10.0);
    near(RopeClass::NfpaGeneral.breaking().0 / LBF, 8_992.0, 0.5);
}

/// The safe loads beside the manila table, an eighth of an inch apart, are a twelfth of it.
#[test]
fn a_twelfth_of_manila_is_called_safe() {
    for (class, pounds) in [
        (RopeClass::ManilaHalf, 199.0),
        (RopeClass::ManilaFiveEighths, 330.0),
        (RopeClass::ManilaThreeQuarters, 405.0),
        (RopeClass::ManilaOne, 675.0),
    ] {
        let rope = Cordage { class: Some(class), knot_efficiency: Some(1.0), ..Cordage::default() };
        near(rope.capacity(Some(12.0)).unwrap().allowable.unwrap() / LBF, pounds, 0.5);
    }
}

/// The working loads beside the nylon table are a ninth to an eleventh of it.
#[test]
fn about_a_tenth_of_nylon_is_called_safe() {
    for (class, pounds) in [
        (RopeClass::NylonHalf, 525.0),
        (RopeClass::NylonFiveEighths, 935.0),
        (RopeClass::NylonThreeQuarters, 1_420.0),
    ] {
        let rope = Cordage { class: Some(class), knot_efficiency: Some(1.0), ..Cordage::default() };
        near(rope.capacity(Some(10.0)).unwrap().allowable.unwrap() / LBF, pounds, 0.11 * pounds);
    }
}

/// The seamen's rule for three-strand rope, 900 lbf times the square of the circumference in inches and for nylon 2.5 times
/// that, says whether a table can be right: within a sixth of it.
#[test]
fn by_circumference() {
    for (class, inches, times) in [
        (RopeClass::ManilaHalf, 1.0 / 2.0, 1.0),
        (RopeClass::ManilaFiveEighths, 5.0 / 8.0, 1.0),
        (RopeClass::ManilaThreeQuarters, 3.0 / 4.0, 1.0),
        (RopeClass::ManilaOne, 1.0, 1.0),
        (RopeClass::NylonHalf, 1.0 / 2.0, 2.5),
        (RopeClass::NylonFiveEighths, 5.0 / 8.0, 2.5),
        (RopeClass::NylonThreeQuarters, 3.0 / 4.0, 2.5),
    ] {
        let round = core::f64::consts::PI * inches;
        let by_rule = 900.0 * times * round * round;
        near(class.breaking().0 / LBF, by_rule, by_rule / 6.0);
    }
}

#[test]
fn classes_of_hardware() {
    for (class, newtons, seen) in [
        (HardwareClass::ConnectorTechnical, 27_000.0, Seen::SecondHand),
        (HardwareClass::ConnectorGeneral, 40_000.0, Seen::SecondHand),
    ] {
        near(class.breaking().0, newtons, 0.0);
        assert_eq!(class.breaking().1.seen, seen);
        let capacity = Hardware { class: Some(class), breaking: None }.capacity(Some(5.0)).unwrap();
        assert_eq!((capacity.strength, capacity.allowable), (newtons, Some(newtons / 5.0)));
    }
    assert_eq!(Hardware::default().capacity(Some(5.0)), None);
}

/// Within a tenth, until a person opens the page.
#[test]
fn classes_from_memory() {
    let band = |found: (f64, outlean_rig::strength::Citation), remembered: f64| {
        near(found.0, remembered, 0.1 * remembered);
        assert_eq!(found.1.seen, Seen::Memory);
    };
    band(RopeClass::NfpaTechnical.breaking(), 20_000.0);
    band(RopeClass::NfpaTechnical.breaking(), 4_496.0 * LBF);
    band(RopeClass::WebbingOne.breaking(), 4_000.0 * LBF);
    band(RopeClass::WebbingTwo.breaking(), 7_000.0 * LBF);
    band(HardwareClass::PulleyTechnical.breaking(), 22_000.0);
    band(HardwareClass::PulleyGeneral.breaking(), 36_000.0);
}

/// 29 CFR 1926.104(c) asks 5,400 lbf of a 3/4 in manila lifeline (read): more than the table gives such rope.
#[test]
fn manila_for_a_lifeline() {
    let (breaking, _) = RopeClass::ManilaThreeQuarters.breaking();
    assert!(breaking < 5_400.0 * LBF && breaking > 0.89 * 5_400.0 * LBF);
}
