//! British manuals of field engineering and pioneering: a 1-1 holds 14 hundredweight, a 2-1 one ton, a 3-2-1 two. *From
//! memory*: a band. The American values are the same numbers in hundredweights of 100 lb and tons of 2,000.

use super::{LBF, near};
use outlean_rig::strength::{Holdfast, HoldfastKind, Soil};

#[test]
fn pickets_in_hundredweights() {
    for (kind, hundredweights) in
        [(HoldfastKind::Pickets11, 14.0), (HoldfastKind::Pickets21, 20.0), (HoldfastKind::Pickets321, 40.0)]
    {
        let holdfast = Holdfast { kind: Some(kind), soil: Some(Soil::Loam), ..Holdfast::default() };
        let held = holdfast.capacity().unwrap().strength / LBF;
        near(held, 100.0 * hundredweights, 1e-9);
        assert!((0.85..=1.0).contains(&(held / (112.0 * hundredweights))), "{kind:?}");
    }
}
