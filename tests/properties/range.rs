//! The working range against a scan by brute force.

use super::{cases, solvable};
use outlean_rig::{
    Clearance, EXTRA_LEAN, LeanIs, Outcome, Rig, Side, Stretch, checks, each_other, governing, margin, solve,
    solve_at, stands_by, stretched, working_range,
};
use proptest::prelude::*;
use std::collections::BTreeMap;

/// How far apart the core looks.
const GRID: f64 = 0.25 * core::f64::consts::PI / 180.0;
const FINE: f64 = 0.02 * core::f64::consts::PI / 180.0;

/// Whether everything assessed holds at a lean: written from the rule, apart from the core's own search.
fn holds(rig: &Rig, lean: f64) -> bool {
    rig.cases().iter().all(|&case| holds_now(&Rig { case, ..rig.clone() }, lean))
}

/// As `holds`, in its present case, as it stands there.
fn holds_now(rig: &Rig, lean: f64) -> bool {
    if rig.limits.upright_stop.is_some_and(|stop| lean < stop) {
        return false;
    }
    let rig = &Rig { lean_is: LeanIs::UnderLoad, ..rig.clone() };
    let Ok(solution) = solve_at(rig, lean) else { return false };
    let Some(forces) = solution.forces() else { return false };
    let strong = checks(rig, &solution).iter().all(|check| check.ratio.is_none_or(|ratio| ratio <= 1.0));
    let gripped = rig.feet.pinned
        || rig.feet.friction.is_none_or(|there| {
            Side::BOTH.iter().all(|&side| {
                forces.footing.feet.on(side).friction_needed.is_some_and(|needed| needed <= there)
            })
        });
    // In neutral balance a nudge either way must find a guy.
    let steady = forces.working_guy.is_some()
        || [-1e-9, 1e-9]
            .iter()
            .all(|nudge| solve_at(rig, lean + nudge).is_ok_and(|solution| solution.forces().is_some()));
    let room = rig.edge.as_ref().is_none_or(|edge| {
        let there = Clearance::of(edge, rig, &solution);
        edge.clear_reach_wanted.is_none_or(|wanted| there.clear_reach >= wanted)
            && edge.headroom_wanted.is_none_or(|wanted| there.headroom >= wanted)
    });
    strong && gripped && steady && room
}

proptest! {
    #![proptest_config(cases(25))]

    #[test]
    fn a_fine_scan_finds_the_same_range(seed: u64) {
        let Some((rig, _)) = solvable(seed) else { return Ok(()) };
        let range = working_range(&rig).unwrap();
        prop_assert!(range.intervals.len() < 8);
        let mut lean = -30_f64.to_radians();
        while lean <= 80_f64.to_radians() {
            let at_an_end = range
                .intervals
                .iter()
                .flat_map(|interval| [interval.from, interval.to])
                .any(|end| (end - lean).abs() < 1.1 * FINE);
            if !at_an_end {
                let (holds, found) = (holds(&rig, lean), range.around(lean).is_some());
                // Between limits that are passed all at once nothing leads to what is narrower than the grid.
                let narrow = || {
                    let past = |at: f64| governing(&rig, at).is_ok_and(|worst| worst.ratio.is_infinite());
                    past(lean - GRID) && past(lean + GRID)
                };
                prop_assert!(
                    holds == found || holds && narrow(),
                    "at {}° of {:?}", lean.to_degrees(), range
                );
            }
            lean += FINE;
        }
    }
}

proptest! {
    #![proptest_config(cases(120))]

    #[test]
    fn ends_are_ends(seed: u64) {
        let Some((rig, _)) = solvable(seed) else { return Ok(()) };
        let range = working_range(&rig).unwrap();
        for (number, interval) in range.intervals.iter().enumerate() {
            prop_assert!(interval.from <= interval.to);
            prop_assert!(holds(&rig, interval.from) && holds(&rig, interval.to), "{interval:?}");
            // Just beyond an end, or midway to the next stretch where that is nearer.
            let before = number.checked_sub(1).and_then(|before| range.intervals.get(before));
            let back = before.map_or(interval.from - FINE, |before| (interval.from - FINE).max(0.5 * (before.to + interval.from)));
            let after = range.intervals.get(number + 1);
            let out = after.map_or(interval.to + FINE, |after| (interval.to + FINE).min(0.5 * (interval.to + after.from)));
            prop_assert!(back < -30_f64.to_radians() || !holds(&rig, back), "{interval:?}");
            prop_assert!(out > 80_f64.to_radians() || !holds(&rig, out), "{interval:?}");
        }
        prop_assert!(range.intervals.windows(2).all(|pair| pair[0].to < pair[1].from));
        prop_assert_eq!(range.best_ratio <= 1.0, !range.intervals.is_empty());
    }
}

/// Whether all parts hold with each of several guys alone, as set and at rest.
fn others_hold(rig: &Rig) -> bool {
    let rigged = |rig: &Rig| rig.guys.iter().map(|guy| guy.rigged).collect::<Vec<_>>();
    let (all, mut hold, mut alone) = (rigged(rig), true, BTreeMap::<_, u32>::new());
    each_other(rig, &solve(rig).unwrap(), &mut |rig, other| {
        if rig.comes_to_rest() && rigged(rig) != all {
            *alone.entry(rigged(rig)).or_default() += 1;
        }
        // Where it stands, and not once more from there.
        let there = Rig { lean_is: LeanIs::UnderLoad, ..rig.clone() };
        let holds = || checks(&there, other).iter().all(|check| check.ratio.is_none_or(|ratio| ratio <= 1.0));
        hold &= stands_by(rig, other) || holds();
    });
    // As set, and where it comes to rest: one that does not falls.
    hold && alone.values().all(|times| *times == 2)
}

/// On guys that stretch the range is that of guys that do not, less the leans from which the load does not grow to the margin
/// asked for, under which it leans too far otherwise, or from which, set before loading, it comes to rest where something does
/// not hold; scanned between the degrees at which the core looks.
#[test]
fn a_scan_finds_the_same_range_on_guys_that_stretch() {
    let (mut inside, mut drawn_in) = (0, 0);
    for seed in 0..60 {
        let Some((mut rig, _)) = solvable(seed) else { continue };
        rig.lean_is = if seed % 2 == 0 { LeanIs::SetBefore } else { LeanIs::UnderLoad };
        let rigid = working_range(&rig).unwrap();
        for guy in &mut rig.guys {
            (guy.sheet.elongation, guy.sheet.at) = (Some(0.004 + 0.0005 * (seed % 60) as f64), Some(2000.0));
        }
        let range = working_range(&rig).unwrap();
        let stretch = Stretch::of(&rig).unwrap();
        let wanted = rig.limits.wanted_margin();
        let bears = |lean: f64| {
            rig.cases().into_iter().all(|case| {
                let there = Rig { case, lean, ..rig.clone() };
                let stands = solve(&there).is_ok_and(|solution| solution.forces().is_some());
                let tilts = match stretched(&there, &stretch).unwrap() {
                    Outcome::Stands(found) => {
                        let rests = rig.lean_is == LeanIs::UnderLoad || holds_now(&there, found.lean);
                        let far = found.set_lean.is_some_and(|set| (found.lean - set).abs() > EXTRA_LEAN);
                        far || !rests || !others_hold(&there)
                    }
                    _ => false,
                };
                let far = || margin(&there, &stretch).unwrap().is_some_and(|found| found.multiple >= wanted);
                stands && !tilts && far()
            })
        };
        let mut lean = -29.87_f64.to_radians();
        while lean < 80_f64.to_radians() {
            let ends = range.intervals.iter().flat_map(|interval| [interval.from, interval.to]);
            if ends.into_iter().all(|end| (end - lean).abs() > 1e-3) {
                let holds = rigid.around(lean).is_some() && bears(lean);
                // Less than a degree that holds or does not may go unseen.
                let near = [-1.0_f64, 1.0].map(|by| lean + by.to_radians());
                let alike = near.iter().all(|&near| (rigid.around(near).is_some() && bears(near)) == holds);
                assert!(
                    holds == range.around(lean).is_some() || !alike,
                    "seed {seed} at {}° of {range:?}",
                    lean.to_degrees()
                );
                inside += u32::from(holds);
            }
            lean += 0.43_f64.to_radians();
        }
        drawn_in += u32::from(range.intervals != rigid.intervals);
        assert_eq!(range.best_ratio <= 1.0, !range.intervals.is_empty(), "seed {seed}: {range:?}");
        for interval in &range.intervals {
            assert!(bears(interval.from) && bears(interval.to), "seed {seed}: {interval:?}");
        }
    }
    assert!(inside > 300 && drawn_in > 20, "{inside} {drawn_in}");
}
