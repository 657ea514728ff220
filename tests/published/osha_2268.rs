//! OSHA 2268, 29 CFR 1915, table G-1 (read): what a single leg of manila rope may carry, lbf, by its diameter in inches.

use super::{LBF, near};
use outlean_rig::strength::{Cordage, RopeClass};

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
