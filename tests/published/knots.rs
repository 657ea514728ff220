//! Knot strengths after the Plymouth Cordage Company, 1946, as printed in Jacobson, *Knots for the Outdoors*, p. 24. The
//! loss in rescue knots, 18 to 37 %, as quoted in rescue manuals.

use super::near;
use outlean_rig::strength::{Cordage, Knot, Seen, Source};

#[test]
fn what_a_knot_leaves() {
    for (knot, percent) in [
        (Knot::Bowline, 60.0),
        (Knot::CloveHitch, 75.0),
        (Knot::TwoHalfHitches, 75.0),
        (Knot::AnchorBend, 70.0),
        (Knot::TimberHitch, 70.0),
        (Knot::Square, 45.0),
        (Knot::Overhand, 45.0),
        (Knot::FigureEightStopper, 48.0),
        (Knot::EyeSplice, 95.0),
        (Knot::ShortSplice, 90.0),
    ] {
        near(knot.efficiency() * 100.0, percent, 0.0);
        let rope = Cordage { breaking: Some(10_000.0), knot: Some(knot), ..Cordage::default() };
        assert_eq!(rope.capacity(Some(10.0)).unwrap().allowable, Some(10.0 * percent));
    }
    assert_eq!(Knot::Bowline.source().source, Source::KnotTable);
    assert_eq!(Knot::FigureEightLoop.source().source, Source::RescueKnots);
    let loop_knot = Knot::FigureEightLoop.efficiency();
    assert!((0.63..=0.82).contains(&loop_knot) && Knot::FigureEightLoop.source().seen == Seen::SecondHand);
    near(loop_knot, 0.63, 0.0);
    // Kernmantle rope tied so is said, from memory, to keep 75 to 80 %: that is not counted on.
    assert!(loop_knot < 0.75);
}
