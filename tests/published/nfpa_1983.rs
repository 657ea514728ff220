//! NFPA 1983/2500, life safety rope (second hand): at a tenth of its breaking strength a rope gets 1 to 10 % longer; labels
//! give 300, 600 and 1,000 lbf. *From memory*: one person is 300 lbf, two are 600 lbf (general use), for which a
//! fifteenth of a rope is asked; typical data sheets of 12.5 mm ropes.

use super::{LBF, near};
use outlean_rig::strength::{Cordage, Knot, RopeClass};
use outlean_rig::{DataSheet, Rope};

/// *Derived*: a general use rope is stiffer than 40 kN and softer than 400, a technical use one half of that.
#[test]
fn between_one_and_ten_percent() {
    for (class, least) in [(RopeClass::NfpaGeneral, 40_000.0), (RopeClass::NfpaTechnical, 20_000.0)] {
        let rope = |elongation| {
            let at = Some(class.breaking().0 / 10.0);
            DataSheet { elongation: Some(elongation), at, give: None }.rope().unwrap()
        };
        near(rope(0.1).stiffness, least, 1e-6);
        near(rope(0.01).stiffness, 10.0 * least, 1e-6);
    }
}

/// From memory, within a fiftieth: the straight rope, to be tied with a knot that takes no more than it has to spare.
#[test]
fn a_fifteenth_is_what_one_or_two_people_weigh() {
    for (class, pounds) in [(RopeClass::NfpaTechnical, 300.0), (RopeClass::NfpaGeneral, 600.0)] {
        let rope = Cordage { class: Some(class), knot_efficiency: Some(1.0), ..Cordage::default() };
        near(rope.capacity(Some(15.0)).unwrap().allowable.unwrap() / LBF, pounds, 0.02 * pounds);
        let tied = Cordage { knot: Some(Knot::FigureEightLoop), knot_efficiency: None, ..rope };
        assert!(tied.capacity(Some(10.0)).unwrap().allowable.unwrap() / LBF < pounds);
        assert!(tied.capacity(Some(9.0)).unwrap().allowable.unwrap() / LBF > pounds);
    }
}

/// From memory: nylon 2 to 3.5 % at 300 lbf and 4 to 5.5 % at 600; polyester 1 to 1.5 % at 300. A rope taken as linear
/// from its first value gets longer than the second: it stiffens.
#[test]
fn typical_static_ropes() {
    for (at_300, at_600, kilonewtons) in [(0.02, 0.04, 66.7), (0.035, 0.055, 38.1)] {
        let rope = Rope::of_elongation(at_300, 300.0 * LBF);
        near(rope.stiffness / 1000.0, kilonewtons, 0.1);
        let linear = 600.0 * LBF / rope.stiffness;
        assert!(linear >= at_600 - 1e-12 && linear < 1.4 * at_600, "{linear}");
    }
    near(Rope::of_elongation(0.01, 300.0 * LBF).stiffness / 1000.0, 133.4, 0.1);
    near(Rope::of_elongation(0.015, 300.0 * LBF).stiffness / 1000.0, 89.0, 0.1);
}
