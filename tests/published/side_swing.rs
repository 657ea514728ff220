//! A hung load swung sideways until a foot lifts that nothing holds down: legs ℓ with feet ℓ/3 apart, aft guy set
//! back 1.5 slant heights. *Derived*: 9.6° upright, 12.1° at 18° of lean, 14.6° at 30°.

use super::{near, solved};
use outlean_rig::{Guy, Point, Rig, Tip};

#[test]
fn the_swing_that_lifts_a_foot() {
    for (lean, printed) in [(0.0, 9.6), (18.0, 12.1), (30.0, 14.6)] {
        let mut rig = Rig::new(4.0, 4.0 / 3.0, f64::to_radians(lean), 150.0);
        rig.feet.held_down = false;
        let setback = 1.5 * solved(&rig).layout.slant_height;
        rig.guys.push(Guy::to(Point::new(-setback, 0.0, 0.0)));
        let mut tips = |degrees: f64| {
            rig.load.side_angle = degrees.to_radians();
            solved(&rig).tips()
        };
        // Swung to the left it goes over its left foot, to the right over its right.
        assert_eq!(tips(printed - 0.1), None);
        assert_eq!(tips(printed + 0.1), Some(Tip::Left));
        assert_eq!(tips(-printed + 0.1), None);
        assert_eq!(tips(-printed - 0.1), Some(Tip::Right));
        let (mut stands, mut falls) = (0.0, 40.0);
        while falls - stands > 1e-6 {
            let middle = 0.5 * (stands + falls);
            if tips(middle).is_none() { stands = middle } else { falls = middle }
        }
        near(stands, printed, 0.05);
    }
}
