//! Any numbers in any rig: solved, ranged, scattered, proposed for. No panic, no hang, and no number that is none in
//! what stands.
#![no_main]

use libfuzzer_sys::fuzz_target;
use outlean_rig::{Scatter, governing, limits_at, scattered, solve};
use outlean_tests::finite::{MAY_LACK, nulls};
use outlean_tests::numbers::each_number;
use outlean_tests::geared::geared_rig;

fuzz_target!(|wild: (u64, Vec<(u8, u64)>)| {
    let (seed, changes) = wild;
    let mut rig = geared_rig(seed);
    for (place, bits) in changes.into_iter().take(16) {
        let mut here = 0_u8;
        each_number(&mut rig, &mut |number| {
            if here == place {
                *number = f64::from_bits(bits);
            }
            here = here.wrapping_add(1);
        });
    }
    match solve(&rig) {
        Ok(solution) => {
            assert!(nulls(&solution, &MAY_LACK).is_empty());
            let worst = governing(&rig, rig.lean).expect("a rig that is solved has limits");
            assert!(worst.ratio >= 0.0);
            assert!(limits_at(&rig, rig.lean).is_ok_and(|all| all.iter().all(|limit| limit.ratio >= 0.0)));
            let scatter = Scatter { length: 0.1, angle: 0.05, load: 0.2, soil: 0.5 };
            let _ = solve(&scattered(&rig, &scatter, seed, 0));
        }
        Err(fault) => {
            let allowed = fault.allowed.least <= fault.value && fault.value <= fault.allowed.most;
            assert!(!allowed, "a fault that is none: {fault}");
        }
    }
});
