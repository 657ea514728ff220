//! Plans of any rig: none fails, and what they advise goes with what they found.

use super::cases;
use outlean_plan::{Advice, Given, Hold, Line, Mark, Measured, Plan, Saying, Voice, guys};
use outlean_rig::{G, Path, Rig, solve};
use outlean_rigfile::{Job, Units, Words};
use outlean_tests::geared::geared_rig;
use outlean_tests::random::random_rig;
use proptest::prelude::*;

/// A rig with gear or without.
fn any_rig(seed: u64) -> Rig {
    if seed.is_multiple_of(2) { random_rig(seed) } else { geared_rig(seed) }
}

fn planned(rig: &Rig) -> Option<Plan> {
    let job = Job { pull: Some(200.0), people: Some(8.0), ..Job::default() };
    let plan = Plan::of(&Given { rig, job: &job, draws: 20 });
    // All that may be going on is asked for, and what is now.
    let mut cases = rig.cases().into_iter().chain([rig.case]);
    let can_be = cases.all(|case| solve(&Rig { case, ..rig.clone() }).is_ok());
    if let Err(fault) = &plan {
        let allowed = fault.allowed.least..=fault.allowed.most;
        assert!(!can_be || !allowed.contains(&fault.value), "{fault:?}");
    } else {
        assert!(can_be);
    }
    plan.ok()
}

/// While the main line holds its share the pulley hangs in the ground behind the edge.
#[test]
fn what_cannot_be_in_one_of_its_cases_is_refused_though_it_can_be_now() {
    let rig = random_rig(14_502_236_199_381_160_700);
    assert!(solve(&rig).is_ok() && planned(&rig).is_none());
}

/// Leaned as much farther as it may be off, the head of this one would be below the edge.
#[test]
fn what_can_go_no_farther_out_is_planned() {
    assert!(planned(&random_rig(13_017_179_586_846_376_338)).is_some());
}

proptest! {
    #![proptest_config(cases(100))]

    #[test]
    fn the_advice_goes_with_what_was_found(seed in any::<u64>()) {
        let rig = any_rig(seed);
        let Some(plan) = planned(&rig) else { return Ok(()) };
        prop_assert_eq!(plan.verdict.past.is_empty(), plan.governing.holds());
        match &plan.advice {
            Advice::Build => {
                prop_assert!(plan.governing.holds() && plan.tips.is_none());
                prop_assert!(plan.test.holds || !plan.is_tested());
            }
            Advice::TestLess => prop_assert!(plan.governing.holds() && !plan.test.holds && plan.is_tested()),
            Advice::FindOut(unknown) => prop_assert!(plan.governing.holds() && !unknown.is_empty()),
            Advice::Stiffen => {
                prop_assert!(plan.governing.holds() && plan.stretching.as_ref().is_some_and(|found| !found.holds()));
            }
            Advice::Change => prop_assert!(!plan.governing.holds() && !plan.proposals.is_empty()),
            Advice::DoNotBuild => prop_assert!(!plan.governing.holds() && plan.proposals.is_empty()),
        }
        // The first that is named is the nearest, but for rules, which are no matter of degree.
        if plan.governing.ratio.is_finite() {
            let first = plan.limits.first().map_or(0.0, |first| first.ratio);
            prop_assert!(plan.limits.is_empty() || first.to_bits() == plan.governing.ratio.to_bits());
        }
    }

    /// What pulls at a holdfast in the plan is at least what pulls there now; places are as far from the feet as tapes say.
    #[test]
    fn demands_and_tapes(seed in any::<u64>()) {
        let rig = any_rig(seed);
        let Some(plan) = planned(&rig) else { return Ok(()) };
        let solution = solve(&rig).unwrap();
        for check in outlean_rig::checks(&rig, &solution) {
            // Any case that the rig must stand, the one at hand if it is one of them.
            if !rig.cases().contains(&rig.case) {
                break;
            }
            let most = plan.demands.iter().find(|demand| demand.part == check.part).map(|demand| demand.force);
            prop_assert!(most.is_some_and(|most| most >= check.demand), "{:?}", check.part);
        }
        let feet = rig.feet.at;
        for pace in &plan.pacing {
            let Mark::Anchor(number) = pace.mark else { continue };
            let anchor = rig.guys[usize::from(number)].anchor;
            prop_assert_eq!(pace.from_left_foot, Some((anchor - feet.left).length()));
            let level = anchor - feet.left.midpoint(feet.right);
            let square = libm::hypot(level.x, level.y);
            prop_assert!((libm::hypot(pace.ahead, pace.left) - square).abs() < 1e-9 * square.max(1.0));
        }
    }

    /// It can be said of every rig, with no number that is none but a dash, and read again beside itself without a difference.
    #[test]
    fn it_can_be_said_and_measured(seed in any::<u64>()) {
        let rig = any_rig(seed);
        let Some(plan) = planned(&rig) else { return Ok(()) };
        let words = Words::default();
        let names = guys(&words, &rig, &[]);
        for units in [Units::Metric, Units::Us] {
            let voice = Voice { words: &words, units, guys: &names };
            let sections = Saying { plan: &plan, rig: &rig, voice }.sections();
            prop_assert!(sections.iter().any(|section| section.key == "verdict"));
            let lists = sections.iter().any(|section| section.key == "as_built");
            prop_assert_eq!(lists, plan.advice.may_be_built());
            let holds = sections.iter().flat_map(|section| &section.lines).filter(|line| matches!(line, Line::Hold(_)));
            let wanted = plan.steps.iter().filter(|step| step.hold.is_some()).count();
            prop_assert_eq!(holds.count(), if lists { wanted } else { 0 });
            let tested = plan.steps.iter().any(|step| step.hold == Some(Hold::TestLoaded));
            prop_assert_eq!(tested, rig.lines().any(|line| !matches!(line.path, Path::NotOverHead)));
            prop_assert!(wanted >= 2 + usize::from(tested));
        }
        // Before loading it stands as the sheet says.
        let mut built = rig.clone();
        if let Some(lean) = plan.as_built.iter().find(|row| row.key == "lean").map(|row| row.planned) {
            built.lean = lean;
        }
        if let Ok(beside) = Measured::of(&plan, &rig, &Given { rig: &built, job: &Job::default(), draws: 0 }) {
            prop_assert!(beside.within, "{:?}", beside.rows.iter().find(|row| !row.within));
        }
        prop_assert!((plan.test.mass - rig.load.tension() / G).abs() < 1e-9 * plan.test.mass.max(1.0));
    }
}
