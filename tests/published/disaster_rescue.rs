//! Australian Emergency Manual, *Disaster Rescue*, 8.3: steel pickets 25 mm by 1.5 m in good ground, 350 kg each and
//! for each added, at least 1 m apart, systems up to 2 t.

use super::{LBF, near};
use outlean_rig::strength::{Basis, Holdfast, HoldfastKind};

#[test]
fn steel_pickets_add_up() {
    let held = |count: f64| {
        let kind = Some(HoldfastKind::SteelPickets);
        Holdfast { kind, pickets: Some(count), ..Holdfast::default() }.capacity().unwrap()
    };
    near(held(1.0).strength / outlean_rig::G, 350.0, 1e-9);
    near(held(3.0).strength / outlean_rig::G, 1050.0, 1e-9);
    near(held(3.0).strength / LBF, 2315.0, 1.0);
    near(held(7.0).strength / outlean_rig::G, 2000.0, 1e-9);
    assert_eq!(held(3.0).basis, Basis::Design);
    near(HoldfastKind::SteelPickets.spacing().unwrap().0, 1.0, 0.0);
}
