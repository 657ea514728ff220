//! Limits: each against the parts of every case, and what outranks what.

use super::{cases, solvable};
use outlean_rig::{
    EXTRA_LEAN, Edge, Guy, LeanIs, Limit, Outcome, Part, Point, Rig, Stretch, Tip, checks, governing, holds,
    limits_at, margin, range_within, solve, solve_at, stands_by, stretched,
};
use outlean_tests::geared::geared_rig;
use proptest::prelude::*;

/// The greatest ratio of a part over all cases of a rig at its own lean; `None` where it has none.
fn greatest(rig: &Rig, part: Part) -> Option<f64> {
    let mut greatest: Option<f64> = None;
    for case in rig.cases() {
        let there = Rig { case, ..rig.clone() };
        let Ok(solution) = solve_at(&there, there.lean) else { continue };
        for check in checks(&there, &solution).iter().filter(|check| check.part == part) {
            if let Some(ratio) = check.ratio {
                greatest = Some(greatest.map_or(ratio, |known| known.max(ratio)));
            }
        }
    }
    greatest
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn a_part_is_as_near_its_limit_as_in_its_worst_case(seed: u64) {
        let rig = geared_rig(seed);
        let Ok(limits) = limits_at(&rig, rig.lean) else { return Ok(()) };
        for (number, met) in limits.iter().enumerate() {
            prop_assert!(limits[..number].iter().all(|other| other.limit != met.limit), "{met:?} twice");
            if let Limit::Part(part) = met.limit {
                let greatest = greatest(&rig, part).map(f64::to_bits);
                prop_assert_eq!(Some(met.ratio.to_bits()), greatest, "{:?}", part);
            }
        }
        let worst = limits.iter().fold(0.0_f64, |worst, met| worst.max(met.ratio));
        prop_assert_eq!(governing(&rig, rig.lean).unwrap().ratio.to_bits(), worst.to_bits());
    }

    /// Stretch too, whose answers are about the lean at which one looks.
    #[test]
    fn limits_at_a_lean_are_those_of_a_rig_that_leans_so(seed: u64, lean in -0.4..1.2_f64) {
        let Some((mut rig, _)) = solvable(seed) else { return Ok(()) };
        for guy in &mut rig.guys {
            (guy.sheet.elongation, guy.sheet.at) = (Some(0.03), Some(2000.0));
        }
        let there = Rig { lean, ..rig.clone() };
        prop_assert_eq!(limits_at(&rig, lean), limits_at(&there, lean));
    }

    /// Looked at on a grid of its own.
    #[test]
    fn one_limit_by_itself_holds_inside_its_range_and_nowhere_else(seed: u64) {
        let Some((rig, solution)) = solvable(seed) else { return Ok(()) };
        let Ok(limits) = limits_at(&rig, solution.layout.lean) else { return Ok(()) };
        for limit in limits.iter().map(|met| met.limit).filter(|limit| matches!(limit, Limit::Part(_))) {
            let range = range_within(&rig, limit).unwrap();
            for step in 0..37 {
                let lean = (-29.0 + 3.017 * f64::from(step)).to_radians();
                let ends = range.intervals.iter().flat_map(|interval| [interval.from, interval.to]);
                if ends.into_iter().any(|end| (end - lean).abs() < 1e-3) {
                    continue;
                }
                let Ok(there) = limits_at(&rig, lean) else { continue };
                let met = there.iter().find(|met| met.limit == limit);
                let holds = met.is_none_or(|met| met.ratio <= 1.0);
                // What lasts for less than a quarter of a degree can be missed.
                let lasts = [-0.25_f64, 0.25].into_iter().all(|off| {
                    let beside = limits_at(&rig, lean + off.to_radians()).unwrap_or_default();
                    let met = beside.iter().find(|met| met.limit == limit);
                    met.is_none_or(|met| met.ratio <= 1.0) == holds
                });
                if lasts && there.iter().all(|met| met.limit != Limit::NoGeometry) {
                    prop_assert_eq!(holds, range.around(lean).is_some(), "{:?} at {} rad: {:?}", limit, lean, met);
                }
            }
        }
    }
}

/// Room that is asked for outranks a part past what it may carry, and a fall outranks both.
#[test]
fn room_outranks_forces_and_a_fall_outranks_room() {
    let mut rig = Rig::new(4.0, 1.2, 0.3, 250.0);
    rig.edge = Some(Edge { clear_reach_wanted: Some(9.0), ..Edge::at(1.0) });
    rig.guys.push(Guy { rope_allowable: Some(1.0), ..Guy::to(Point::new(-6.0, 0.0, 0.0)) });
    let found = governing(&rig, rig.lean).unwrap();
    assert_eq!(found.limit, Limit::ClearReach);
    rig.guys.clear();
    assert_eq!(governing(&rig, rig.lean).unwrap().limit, Limit::Tips(Tip::Forward));
}

/// Upright under a load that hangs plumb it needs no guy, but one against a nudge either way, rigged.
#[test]
fn in_neutral_balance_a_guy_is_wanted_on_either_side() {
    let guy = |x: f64, rigged: bool| Guy { rigged, ..Guy::to(Point::new(x, 0.0, 0.0)) };
    for (guys, wanted) in [
        (&[guy(-6.0, true), guy(6.0, true)][..], None),
        (&[guy(-6.0, true)], Some(Tip::Back)),
        (&[guy(6.0, true)], Some(Tip::Forward)),
        (&[guy(-6.0, false), guy(6.0, true)], Some(Tip::Forward)),
        (&[guy(-6.0, true), guy(6.0, false)], Some(Tip::Back)),
        (&[], Some(Tip::Forward)),
    ] {
        let mut rig = Rig::new(4.0, 1.2, 0.0, 250.0);
        rig.guys = guys.iter().copied().collect();
        let tips = limits_at(&rig, 0.0).unwrap().iter().find_map(|met| match met.limit {
            Limit::Tips(tip) => Some(tip),
            _ => None,
        });
        assert_eq!(tips, wanted, "{guys:?}");
    }
}

/// A peak narrower than the grid on which leans are looked at: a rope that may carry a hair less than it has to where
/// it carries most divides the range.
#[test]
fn a_peak_between_two_looks_is_seen() {
    let mut seen = 0;
    for seed in 0..500 {
        let Some((mut rig, _)) = solvable(seed) else { continue };
        rig.guys.truncate(2);
        let Some(case) = rig.cases().first().copied() else { continue };
        let Ok(guys) = u8::try_from(rig.guys.len()) else { continue };
        for number in 0..guys {
            let place = usize::from(number);
            (rig.guys[place].rope_allowable, rig.second) = (None, None);
            (rig.load.at_edge, rig.load.on_tag_lines) = (None, None);
            // Alike however the line moves.
            (rig.line.pulley_efficiency, rig.line.redirect_efficiency) = (1.0, 1.0);
            let rig = Rig { case, ..rig.clone() };
            let pull = |lean: f64| {
                let solution = solve_at(&rig, lean).ok()?;
                Some(solution.forces()?.guys[place].tension)
            };
            let looks: Vec<_> = (-110..=300).map(|step| (f64::from(step) * 0.25).to_radians()).collect();
            for three in looks.windows(3) {
                let (Some(before), Some(top), Some(after)) = (pull(three[0]), pull(three[1]), pull(three[2]))
                else {
                    continue;
                };
                if top <= before || top <= after {
                    continue;
                }
                // The top of the parabola through them, as near as need be.
                let aside = 0.5 * (before - after) / (before - 2.0 * top + after);
                let at = three[1] + aside * (three[1] - three[0]);
                let Some(peak) = pull(at).filter(|peak| *peak > top + 1e-9 * top) else { continue };
                let mut rig = rig.clone();
                rig.guys[place].rope_allowable = Some(0.5 * (peak + top.max(before).max(after)));
                let range = range_within(&rig, Limit::Part(Part::GuyRope(number))).unwrap();
                assert!(range.around(at).is_none(), "seed {seed}, guy {number} at {at} rad of {range:?}");
                seen += 1;
            }
        }
    }
    assert!(seen >= 5, "{seen} peaks");
}

/// How near run-away is at a lean is what following the path of a growing load comes to, whichever way the lean is meant,
/// and whether all holds is found sooner alike.
#[test]
fn of_stretch_a_lean_is_as_near_its_limit_as_its_margin_is_great() {
    let (mut met, mut past) = (0, 0);
    for seed in 0..600 {
        let Some((mut rig, _)) = solvable(seed) else { continue };
        rig.lean_is = if seed % 2 == 0 { LeanIs::SetBefore } else { LeanIs::UnderLoad };
        for guy in &mut rig.guys {
            (guy.sheet.elongation, guy.sheet.at) = (Some(0.005 + 1e-4 * (seed % 500) as f64), Some(2000.0));
        }
        let limits = limits_at(&rig, rig.lean).unwrap();
        assert_eq!(limits.iter().all(outlean_rig::Governing::holds), holds(&rig), "seed {seed}: {limits:?}");
        // What governs is found without working out all of them, and is the same.
        let greatest = limits.iter().fold(0.0_f64, |greatest, met| greatest.max(met.ratio));
        assert_eq!(governing(&rig, rig.lean).unwrap().ratio.to_bits(), greatest.to_bits(), "seed {seed}");
        let Some(found) = limits.iter().find(|met| met.limit == Limit::Stretch) else { continue };
        let stretch = Stretch::of(&rig).unwrap();
        let wanted = rig.limits.wanted_margin();
        let each = rig.cases().into_iter().filter_map(|case| {
            let there = Rig { case, ..rig.clone() };
            solve(&there).ok()?.forces()?;
            Some(margin(&there, &stretch).unwrap().map_or(f64::INFINITY, |at| wanted / at.multiple))
        });
        let worst = each.fold(0.0, f64::max);
        // Where one of several guys does not stand alone it is past it whatever all do.
        let alone = rig.cases().into_iter().any(|case| {
            let there = Rig { case, ..rig.clone() };
            solve(&there).is_ok_and(|solution| stands_by(&there, &solution))
        });
        if !(alone && found.ratio.is_infinite()) {
            assert_eq!(found.ratio.to_bits(), worst.to_bits(), "seed {seed}");
        }
        met += 1;
        past += u32::from(worst > 1.0);
    }
    assert!(met > 200 && past > 50 && met - past > 50, "{met} {past}");
}

/// The stop is the least lean that is allowed: a rig set to it just stands.
#[test]
fn a_rig_at_its_upright_stop_is_not_past_it() {
    let mut rig = Rig::new(4.0, 1.2, 0.2, 200.0);
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    for (stop, inside) in [(0.2, true), (0.2 + 1e-9, false)] {
        rig.limits.upright_stop = Some(stop);
        assert_eq!(holds(&rig), inside);
        assert_eq!(governing(&rig, rig.lean).unwrap().limit == Limit::UprightStop, !inside);
    }
}

/// How much further it leans than it was set, over how much further it may.
#[test]
fn of_extra_lean_a_rig_is_as_near_its_limit_as_its_guys_give() {
    for (lean, elongation) in [(0.2, 0.01), (0.3, 0.02), (0.4, 0.005)] {
        let mut rig = Rig::new(4.0, 1.2, lean, 200.0);
        rig.lean_is = LeanIs::SetBefore;
        rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
        (rig.guys[0].sheet.elongation, rig.guys[0].sheet.at) = (Some(elongation), Some(2000.0));
        let Outcome::Stands(found) = stretched(&rig, &Stretch::of(&rig).unwrap()).unwrap() else { panic!() };
        let extra = found.lean - found.set_lean.unwrap();
        assert!(extra > 0.001, "{extra}");
        let limits = limits_at(&rig, lean).unwrap();
        let met = limits.iter().find(|met| met.limit == Limit::ExtraLean).unwrap();
        assert!((met.ratio - extra / EXTRA_LEAN).abs() < 1e-12, "{} {extra}", met.ratio);
    }
}
