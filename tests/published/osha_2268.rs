//! OSHA 2268, 29 CFR 1915, table G-1 (read): what a single leg of manila rope may carry, lbf, by its diameter in inches.

use super::{LBF, near};
use outlean_rig::strength::{Cordage, Fibre, RopeClass, breaking_by_circumference};

/// Of the sizes whose breaking strength is known, nine halves of the table's load.
#[test]
fn manila_at_four_and_a_half() {
    for (class, pounds) in [
        (RopeClass::ManilaHalf, 530.0),
        (RopeClass::ManilaFiveEighths, 880.0),
        (RopeClass::ManilaThreeQuarters, 1080.0),
        (RopeClass::ManilaOne, 1800.0),
    ] {
        let rope = Cordage { class: Some(class), knot_efficiency: Some(1.0), ..Cordage::default() };
        near(rope.capacity(Some(4.5)).unwrap().allowable.unwrap() / LBF, pounds, 0.5);
    }
}

/// Of all sizes, an eighth off the seamen's rule at the most.
#[test]
fn every_size_by_circumference() {
    for (inches, pounds) in [
        (1.0 / 4.0, 120.0),
        (5.0 / 16.0, 200.0),
        (3.0 / 8.0, 270.0),
        (7.0 / 16.0, 350.0),
        (15.0 / 32.0, 450.0),
        (1.0 / 2.0, 530.0),
        (9.0 / 16.0, 690.0),
        (5.0 / 8.0, 880.0),
        (3.0 / 4.0, 1080.0),
        (13.0 / 16.0, 1300.0),
        (7.0 / 8.0, 1540.0),
        (1.0, 1800.0),
    ] {
        let round = core::f64::consts::PI * inches * 0.0254;
        near(breaking_by_circumference(round, Fibre::Manila) / LBF / 4.5, pounds, 0.125 * pounds);
    }
}
