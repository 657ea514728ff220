//! Cordage Institute, CI 1801, 1998 (second hand): at a tenth of its breaking strength a static rope gets at most 6 %
//! longer, a low-stretch rope 6 to 10 %.

use super::near;
use outlean_rig::DataSheet;
use outlean_rig::strength::RopeClass;

/// *Derived* for a rope of 40 kN: 2 % is a stiffness of 200 kN, 3 % 133, 6 % 66.7, 10 % 40.
#[test]
fn stiffness_of_a_general_use_rope() {
    for (percent, kilonewtons) in [(2.0, 200.0), (3.0, 133.333), (6.0, 66.667), (10.0, 40.0)] {
        let at = Some(RopeClass::NfpaGeneral.breaking().0 / 10.0);
        let rope = DataSheet { elongation: Some(percent / 100.0), at, give: None }.rope().unwrap();
        near(rope.stiffness / 1000.0, kilonewtons, 0.001);
    }
}
