//! "Rigging extempore gear", after the Admiralty's manual of seamanship (second hand, weak): sheers splay a third of their
//! length; between the back guy and the legs' plane at least 45°, best 60 to 90.

use super::{near, solved};
use outlean_rig::{Guy, Point, Rig};

/// Angle between the aft guy and the frame's plane, degrees, for an anchor so many slant heights behind.
fn angle(lean: f64, heights: f64) -> f64 {
    let mut rig = Rig::new(6.0, 2.0, lean.to_radians(), 100.0);
    let slant = solved(&rig).layout.slant_height;
    rig.guys.push(Guy::to(Point::new(-heights * slant, 0.0, 0.0)));
    // The guy passes the foot line at its arm; the head is a slant height away from it.
    libm::asin(solved(&rig).guy_arm[0] / slant).to_degrees()
}

/// *Derived*: upright, 45° is one height back and 60° is 1.73. Leaning 18°, one and a half heights come to 44.3°, two to
/// 49.6°.
#[test]
fn the_angle_of_the_back_guy() {
    near(angle(0.0, 1.0), 45.0, 1e-9);
    near(angle(0.0, libm::sqrt(3.0)), 60.0, 1e-9);
    near(angle(18.0, 1.5), 44.3, 0.05);
    near(angle(18.0, 2.0), 49.6, 0.05);
    assert!(angle(18.0, 1.0) < 45.0 && angle(18.0, 30.0) < 90.0);
}
