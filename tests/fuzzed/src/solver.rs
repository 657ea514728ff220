//! Any numbers in any rig: solved, its limits looked at, scattered. No number that is none in what stands.

use outlean_rig::{Scatter, governing, limits_at, scattered, solve};
use outlean_tests::finite::{MAY_LACK, nulls};
use outlean_tests::geared::geared_rig;
use outlean_tests::numbers::each_number;

/// Most numbers of a rig that are set.
const MOST_SET: usize = 16;

/// The rig of a seed, the first eight bytes; then a byte each that says which of its numbers is set, and eight for the number.
pub fn held(data: &[u8]) {
    let Some((seed, rest)) = data.split_first_chunk() else { return };
    let seed = u64::from_le_bytes(*seed);
    let mut rig = geared_rig(seed);
    let (set, _) = rest.as_chunks::<9>();
    for [place, bits @ ..] in set.iter().take(MOST_SET) {
        let mut here = 0_u8;
        each_number(&mut rig, &mut |number| {
            if here == *place {
                *number = f64::from_le_bytes(*bits);
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
}
