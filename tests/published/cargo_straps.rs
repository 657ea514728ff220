//! 49 CFR 393.108 (read): 2 in synthetic webbing not marked otherwise is rated at 2,000 lb (910 kg). That is tie-down
//! webbing; what 2 in tubular webbing breaks at is *from memory*, so this is a band: three to four times as much.

use super::{LBF, near};
use outlean_rig::strength::{Cordage, RopeClass, Seen};

#[test]
fn two_inch_webbing() {
    let webbing =
        Cordage { class: Some(RopeClass::WebbingTwo), knot_efficiency: Some(1.0), ..Cordage::default() };
    let rated = |factor| webbing.capacity(Some(factor)).unwrap().allowable.unwrap() / LBF;
    assert!(rated(4.0) < 2000.0 && rated(3.0) > 2000.0, "{}", rated(3.5));
    assert_eq!(RopeClass::WebbingTwo.breaking().1.seen, Seen::Memory);
    near(2000.0 * LBF / outlean_rig::G, 910.0, 5.0);
}
