//! The working range against a scan by brute force.

use super::{cases, solvable};
use outlean_rig::{Clearance, Rig, Side, checks, solve_at, working_range};
use proptest::prelude::*;

const FINE: f64 = 0.02 * core::f64::consts::PI / 180.0;

/// Whether everything assessed holds at a lean: written from the rule, apart from the core's own search.
fn holds(rig: &Rig, lean: f64) -> bool {
    if rig.limits.upright_stop.is_some_and(|stop| lean < stop) {
        return false;
    }
    rig.cases().iter().all(|&case| {
        let rig = Rig { case, ..rig.clone() };
        let Ok(solution) = solve_at(&rig, lean) else { return false };
        let Some(forces) = solution.forces() else { return false };
        let strong = checks(&rig, &solution).iter().all(|check| check.ratio.is_none_or(|ratio| ratio <= 1.0));
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
                .all(|nudge| solve_at(&rig, lean + nudge).is_ok_and(|solution| solution.forces().is_some()));
        let room = rig.edge.as_ref().is_none_or(|edge| {
            let there = Clearance::of(edge, &rig, &solution);
            edge.clear_reach_wanted.is_none_or(|wanted| there.clear_reach >= wanted)
                && edge.headroom_wanted.is_none_or(|wanted| there.headroom >= wanted)
        });
        strong && gripped && steady && room
    })
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
                prop_assert_eq!(
                    holds(&rig, lean),
                    range.around(lean).is_some(),
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
        for interval in &range.intervals {
            prop_assert!(interval.from <= interval.to);
            prop_assert!(holds(&rig, interval.from) && holds(&rig, interval.to), "{interval:?}");
            let (back, out) = (interval.from - FINE, interval.to + FINE);
            prop_assert!(back < -30_f64.to_radians() || !holds(&rig, back), "{interval:?}");
            prop_assert!(out > 80_f64.to_radians() || !holds(&rig, out), "{interval:?}");
        }
        prop_assert!(range.intervals.windows(2).all(|pair| pair[0].to < pair[1].from));
        prop_assert_eq!(range.best_ratio <= 1.0, !range.intervals.is_empty());
    }
}
