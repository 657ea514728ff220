//! The sling factor 1/sin of the angle of its legs from the level: printed alike in tables after ASME B30.9 and 29 CFR
//! 1910.184, which do not use angles below 30°.

use super::near;
use outlean_rig::strength::{Cordage, Sling, leg_factor};

#[test]
fn tension_in_a_leg_by_its_angle() {
    for (angle, factor) in [
        (90.0, 1.000),
        (85.0, 1.004),
        (80.0, 1.015),
        (75.0, 1.035),
        (70.0, 1.064),
        (65.0, 1.104),
        (60.0, 1.155),
        (55.0, 1.221),
        (50.0, 1.305),
        (45.0, 1.414),
        (40.0, 1.555),
        (35.0, 1.742),
        (30.0, 2.000),
    ] {
        let angle = f64::to_radians(angle);
        near(leg_factor(angle), factor, 0.002);
        // Two legs of 10 kN carry together so much less than 20 kN.
        let cordage = Cordage { breaking: Some(10_000.0), knot_efficiency: Some(1.0), ..Cordage::default() };
        let sling = Sling { cordage, parts: Some(2.0), angle: Some(angle) };
        near(20_000.0 / sling.capacity(Some(5.0)).unwrap().strength, factor, 0.002);
        near(sling.capacity(Some(5.0)).unwrap().allowable.unwrap(), 4_000.0 / factor, 8.0);
        let flat = Sling { angle: Some(f64::to_radians(29.9)), ..sling };
        assert_eq!(flat.capacity(Some(5.0)), None, "too flat to be used");
    }
}
