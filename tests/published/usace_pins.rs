//! US Army Corps of Engineers, US&R *Structures Specialist Field Operations Guide*, 5th edition, 2006, "Approximate
//! design load of pickets (pins) in soils", after FHWA-IP-84-11. Second hand. Design loads, about half of capacity; lbf.

use super::{LBF, near};
use outlean_rig::strength::{Basis, Holdfast, HoldfastKind, Seen, Soil};

const SOILS: [Soil; 6] =
    [Soil::ClayPoor, Soil::ClayAverage, Soil::ClayGood, Soil::SandLoose, Soil::SandMedium, Soil::SandDense];

#[test]
fn pins_by_soil() {
    for (kind, pounds) in [
        (HoldfastKind::Pins1Inch, [500.0, 750.0, 1000.0, 50.0, 55.0, 63.0]),
        (HoldfastKind::Pins3Inch, [1000.0, 1500.0, 2000.0, 150.0, 180.0, 190.0]),
    ] {
        for (ground, each) in SOILS.into_iter().zip(pounds) {
            let pin = Holdfast { kind: Some(kind), soil: Some(ground), ..Holdfast::default() };
            let one = pin.capacity().unwrap();
            near(one.allowable.unwrap() / LBF, each, 1e-9);
            near(one.failure.unwrap() / LBF, 2.0 * each, 1e-9);
            assert_eq!((one.basis, one.source.seen), (Basis::Design, Seen::SecondHand));
            // Derived: three add up.
            let three = Holdfast { pickets: Some(3.0), ..pin }.capacity().unwrap();
            near(three.allowable.unwrap() / LBF, 3.0 * each, 1e-9);
        }
        let in_loam = Holdfast { kind: Some(kind), soil: Some(Soil::Loam), ..Holdfast::default() };
        assert_eq!(in_loam.capacity(), None, "loam is not in the table");
    }
}
