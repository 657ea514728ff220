//! Jumps: a guy lets go before another is taut, and the frame falls from the one to the other.

use super::ropes;
use outlean_rig::{FARTHEST_JUMP, LeanIs, Outcome, Rig, Stretch, margin, stretched};
use outlean_tests::random::random_rig;

/// Where a rig stands under a share of its load.
fn lean(rig: &Rig, stretch: &Stretch, share: f64) -> Option<f64> {
    let mut rig = rig.clone();
    rig.load.mass *= share;
    match stretched(&rig, stretch) {
        Ok(Outcome::Stands(found)) => Some(found.lean),
        _ => None,
    }
}

/// How far it falls at once as its load grows up to `most` times what it is: looked for where it moves most beside
/// what it does before and after.
fn falls(rig: &Rig, stretch: &Stretch, most: f64) -> Option<f64> {
    const PARTS: usize = 200;
    let share = |part: usize| 0.999 * most * (part as f64 + 0.5) / PARTS as f64;
    let leans: Vec<f64> = (0..PARTS).map(|part| lean(rig, stretch, share(part))).collect::<Option<_>>()?;
    let sudden = |part: usize| {
        let moved = |part: usize| (leans[part + 1] - leans[part]).abs();
        moved(part) / (moved(part - 1) + moved(part + 1))
    };
    let part = (1..PARTS - 2).max_by(|a, b| sudden(*a).total_cmp(&sudden(*b)))?;
    let (mut from, mut to) = (share(part), share(part + 1));
    let (mut before, mut after) = (leans[part], leans[part + 1]);
    for _ in 0..40 {
        let share = 0.5 * (from + to);
        let at = lean(rig, stretch, share)?;
        if (at - before).abs() < (after - at).abs() {
            (from, before) = (share, at);
        } else {
            (to, after) = (share, at);
        }
    }
    Some((after - before).abs())
}

/// As far as found by growing the load itself, up to the quarter of
/// a stride in which it is looked whether another guy has caught them.
#[test]
fn a_frame_falls_as_far_as_is_said() {
    let quarter = 0.0625_f64.to_radians();
    for (lean_is, seed) in [
        (LeanIs::SetBefore, 5),
        (LeanIs::SetBefore, 155),
        (LeanIs::SetBefore, 743),
        (LeanIs::SetBefore, 4857),
        (LeanIs::SetBefore, 1137),
        (LeanIs::Cut, 656),
        (LeanIs::Cut, 1774),
        (LeanIs::Cut, 12_664),
    ] {
        let mut rig = random_rig(seed);
        rig.feet.held_down = true;
        let stretch = ropes(&rig, seed, lean_is);
        let found = margin(&rig, &stretch).unwrap().unwrap();
        let falls = falls(&rig, &stretch, found.multiple.min(15_000.0 / rig.load.mass)).unwrap();
        assert!(falls > 0.005 && found.jump < FARTHEST_JUMP, "seed {seed}: {falls} {found:?}");
        let over = found.jump - falls;
        assert!((-1e-6..1.1 * quarter).contains(&over), "seed {seed}: {falls} {found:?}");
    }
    let steady = super::hung(0.3, 200.0);
    let found = margin(&steady, &super::alike(&steady, 50_000.0, LeanIs::SetBefore)).unwrap().unwrap();
    assert_eq!(found.jump.to_bits(), 0.0_f64.to_bits());
}
