//! Pretensions: what guys were set to, and what becomes of it as the load comes on.

use super::{cases, force_scale, solvable};
use outlean_rig::{Guy, Point, Rig, Role, solve, solve_at};
use proptest::prelude::*;

fn frame(lean: f64, aft: f64, fore: Option<f64>) -> Rig {
    let mut rig = Rig::new(4.0, 1.2, f64::to_radians(lean), 100.0);
    rig.guys.push(Guy { pretension: aft, ..Guy::to(Point::new(-6.0, 0.0, 0.0)) });
    if let Some(pretension) = fore {
        rig.guys.push(Guy { pretension, ..Guy::to(Point::new(6.0, 0.0, 0.0)) });
    }
    rig
}

fn tensions(rig: &Rig) -> Vec<f64> {
    solve(rig).unwrap().forces().expect("it stands").guys.iter().map(|guy| guy.tension).collect()
}

/// Upright, with nothing to hold, guys that were set draw against each other.
#[test]
fn guys_set_against_each_other_hold_each_other() {
    let tension = tensions(&frame(0.0, 300.0, Some(300.0)));
    assert!((tension[0] - 300.0).abs() < 1e-9 && (tension[1] - 300.0).abs() < 1e-9);
    // Set harder than its fellow, the aft guy draws the fore guy to the same.
    let tension = tensions(&frame(0.0, 300.0, Some(0.0)));
    assert!((tension[0] - 300.0).abs() < 1e-9 && (tension[1] - 300.0).abs() < 1e-9);
    let tension = tensions(&frame(0.0, 0.0, Some(300.0)));
    assert!((tension[0] - 300.0).abs() < 1e-9 && (tension[1] - 300.0).abs() < 1e-9);
}

/// A rope that nothing pulls against does not stay tight: it holds what balance needs.
#[test]
fn a_guy_set_with_nothing_against_it_eases() {
    let slack = tensions(&frame(8.0, 0.0, None));
    let set = tensions(&frame(8.0, 900.0, None));
    assert!((slack[0] - set[0]).abs() < 1e-9);
    let upright = solve(&frame(0.0, 900.0, None)).unwrap();
    assert_eq!(upright.forces().expect("it stands").guys[0].role, Role::Slack);
    // Two of them: the first goes slack, the second eases.
    let mut two = frame(3.0, 500.0, None);
    two.guys.push(Guy { pretension: 500.0, ..Guy::to(Point::new(-6.0, 0.0, 0.0)) });
    let tension = tensions(&two);
    assert!(tension[0] == 0.0 && tension[1] > 0.0);
}

/// A side guy listed first does not take the load of an aft guy, for which its arm is far too short.
#[test]
fn a_side_guy_works_only_where_no_other_can() {
    let mut rig = frame(20.0, 0.0, None);
    rig.guys.insert(0, Guy::to(Point::new(-0.2, 6.0, 0.0)));
    assert_eq!(solve(&rig).unwrap().forces().expect("it stands").working_guy, Some(1));
    rig.guys[1].rigged = false;
    assert_eq!(solve(&rig).unwrap().forces().expect("it stands").working_guy, Some(0));
}

proptest! {
    #![proptest_config(cases(2000))]

    /// As the frame leans through its balance, no tension jumps.
    #[test]
    fn tensions_change_smoothly_through_the_balance(aft in 0.0..800.0_f64, fore in 0.0..800.0_f64, back in 3.0..20.0_f64) {
        let mut rig = frame(0.0, aft, Some(fore));
        rig.line = outlean_rig::Line::along(outlean_rig::Path::StraightBack { to: Point::new(-back, 0.0, 0.0) });
        let mut before: Option<Vec<f64>> = None;
        for step in 0..450 {
            rig.lean = f64::to_radians(0.1 * f64::from(step));
            let here = tensions(&rig);
            if let Some(before) = before {
                for (a, b) in before.iter().zip(&here) {
                    prop_assert!((a - b).abs() < 20.0, "{a} to {b} at {}°", rig.lean.to_degrees());
                }
            }
            before = Some(here);
        }
    }

    /// Whoever pulls against another, nobody who was set and still pulls does so with less than he was set to, but
    /// for one at most, and only where nothing pulls against it.
    #[test]
    fn a_guy_holds_what_it_was_set_to_while_another_pulls_against_it(seed: u64) {
        let Some((rig, solution)) = solvable(seed) else { return Ok(()) };
        let Some(forces) = solution.forces() else { return Ok(()) };
        for (i, (guy, force)) in rig.guys.iter().zip(&forces.guys).enumerate() {
            if guy.rigged && force.tension < guy.pretension * (1.0 - 1e-12) {
                let opposed = rig.guys.iter().zip(&solution.guy_arm).any(|(other, arm)| {
                    other.rigged && arm * solution.guy_arm[i] < -1e-6
                });
                prop_assert!(!opposed, "guy {i} eased to {} N", force.tension);
            }
        }
    }

    /// A guy that is not rigged might as well not be there.
    #[test]
    fn a_guy_that_is_not_rigged_changes_nothing(seed: u64, x in -9.0..9.0_f64, y in -9.0..9.0_f64) {
        let Some((mut rig, before)) = solvable(seed) else { return Ok(()) };
        let idle = Guy { rigged: false, pretension: 500.0, ..Guy::to(Point::new(x, y, 0.0)) };
        if rig.guys.try_push(idle).is_ok() {
            let after = solve_at(&rig, rig.lean).unwrap();
            prop_assert_eq!(before.tips(), after.tips());
            if let (Some(a), Some(b)) = (before.forces(), after.forces()) {
                prop_assert!((a.compression.left - b.compression.left).abs() < 1e-9 * force_scale(&rig, &before));
            }
        }
    }
}
