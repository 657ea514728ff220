//! Standby: guys that could hold in place of those that work.

use crate::guy::Station;
use crate::rest::{rested, solved_at};
use crate::{Rig, Role, Solution};
use core::ops::ControlFlow;

/// Whether a rigged guy that does not work could take over from those that do: it holds the same way and does not stand to
/// a side. How such guys share a load hangs on how tight each was tied, which nobody knows; so [`crate::checks`],
/// [`crate::holdfast_pulls`] and limits take what each comes to carry alone, if that is more.
#[must_use]
#[inline(never)]
pub fn stands_by(rig: &Rig, solution: &Solution) -> bool {
    let Some(forces) = solution.forces() else { return false };
    let guys = || forces.guys.iter().zip(&solution.guy_arm).zip(&rig.guys);
    let Some(working) =
        guys().find_map(|((force, arm), _)| matches!(force.role, Role::Working).then_some(*arm))
    else {
        return false;
    };
    guys().any(|((force, arm), guy)| {
        guy.rigged
            && !matches!(force.role, Role::Working)
            && arm * working > 0.0
            && !matches!(Station::of(guy.anchor, &solution.layout), Station::Side)
    })
}

/// A rig whose working guys have let go, solved as it stands; `None` where no guy [stands by](stands_by). Feet count as held
/// down: it is a bound on what guys carry that hold together, and no foot lifts for it.
#[inline(never)]
fn taken_over(rig: &Rig, solution: &Solution) -> Option<(Rig, Solution)> {
    if !stands_by(rig, solution) {
        return None;
    }
    let mut rig = rig.clone();
    rig.feet.held_down = true;
    for (guy, force) in rig.guys.iter_mut().zip(&solution.forces()?.guys) {
        guy.rigged &= !matches!(force.role, Role::Working);
    }
    let there = solved_at(&rig, solution.layout.lean, solution.case)?;
    Some((rig, there))
}

/// Calls `each`, until it breaks off, for each guy that [stands by](stands_by) in a solved rig, or two splayed to either side,
/// holding alone: with the rig with those before it gone, and that solved as it stands.
pub(crate) fn each_alone(
    rig: &Rig,
    solution: &Solution,
    each: &mut dyn FnMut(&Rig, &Solution) -> ControlFlow<()>,
) -> ControlFlow<()> {
    let mut next = taken_over(rig, solution);
    while let Some((rig, alone)) = next {
        each(&rig, &alone)?;
        next = taken_over(&rig, &alone);
    }
    ControlFlow::Continue(())
}

/// Calls `each` with all that the parts of a solved rig are held against beside it, and the rig that it is of: where it
/// [comes to rest](Rig::comes_to_rest), and of both each guy that [stands by](stands_by) alone.
pub(crate) fn each_other(rig: &Rig, solution: &Solution, each: &mut dyn FnMut(&Rig, &Solution)) {
    let rested = rested(rig, solution);
    if let Some(rested) = &rested {
        each(rig, rested);
    }
    for solution in rested.iter().chain([solution]) {
        let _ = each_alone(rig, solution, &mut |rig, alone| {
            each(rig, alone);
            ControlFlow::Continue(())
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        Guy, Limit, Part, Path, Point, checks, governing, holdfast_pulls, limits_at, range_within, solve,
        worked, working_range,
    };

    /// A leaning frame with an aft and a fore guy, and others besides.
    fn frame(others: &[Point]) -> Rig {
        let mut rig = Rig::new(4.0, 1.2, 20f64.to_radians(), 250.0);
        rig.guys.extend([-6.0, 4.0].map(|x| Guy::to(Point::new(x, 0.0, 0.0))));
        rig.guys.extend(others.iter().map(|at| Guy::to(*at)));
        rig
    }

    fn carries(rig: &Rig, part: Part) -> f64 {
        let all = checks(rig, &solve(rig).unwrap());
        all.iter().find(|check| check.part == part).unwrap().demand
    }

    /// The same frame with only one of its guys rigged.
    fn only(rig: &Rig, number: usize) -> Rig {
        let mut rig = rig.clone();
        for (each, guy) in rig.guys.iter_mut().enumerate() {
            guy.rigged = each == number;
        }
        rig
    }

    #[test]
    fn each_of_three_guys_in_a_row_is_held_against_the_whole_pull() {
        let rig = frame(&[Point::new(-4.0, 0.0, 0.0), Point::new(-9.0, 0.0, 0.0)]);
        let solution = solve(&rig).unwrap();
        assert!(stands_by(&rig, &solution));
        let slack = |number: usize| solution.forces().unwrap().guys[number].tension == 0.0;
        assert!(slack(1) && slack(2) && slack(3));
        for number in [0, 2, 3] {
            let alone = only(&rig, number);
            let guy = u8::try_from(number).unwrap();
            for part in [Part::GuyRope(guy), Part::GuyHoldfast(guy)] {
                let tension = carries(&alone, part);
                assert!(tension > 1000.0 && (carries(&rig, part) - tension).abs() < 1e-6, "{part:?}");
            }
            let pull = |rig: &Rig, at: usize| holdfast_pulls(rig, &solve(rig).unwrap())[at].1;
            assert!((pull(&rig, number).uplift - pull(&alone, 0).uplift).abs() < 1e-6);
            let steps = worked(&rig, &solution, Part::GuyRope(guy));
            assert!((steps[0].value - carries(&rig, Part::GuyRope(guy))).abs() < 1e-6);
        }
        assert!(carries(&rig, Part::GuyRope(1)) < 1e-9);
        // The steepest presses the legs most.
        let leg = Part::Leg(crate::Side::Left);
        assert!((carries(&rig, leg) - carries(&only(&rig, 2), leg)).abs() < 1e-6);
    }

    #[test]
    fn a_weak_guy_beside_a_strong_one_is_past_and_ends_the_range() {
        let mut rig = frame(&[Point::new(-5.0, 0.3, 0.0)]);
        let solution = solve(&rig).unwrap();
        let part = Part::GuyHoldfast(2);
        rig.guys[2].holdfast_allowable = Some(0.9 * carries(&rig, part));
        let governs = governing(&rig, rig.lean).unwrap();
        assert_eq!(governs.limit, Limit::Part(part));
        assert!((governs.ratio - 1.0 / 0.9).abs() < 1e-9);
        assert_eq!(limits_at(&rig, rig.lean).unwrap()[0], governs);
        let range = working_range(&rig).unwrap();
        assert!(range.around(rig.lean).is_none());
        assert_eq!(range.intervals.last().unwrap().to_limit, Limit::Part(part));
        assert!(range_within(&rig, Limit::Part(part)).unwrap().around(rig.lean).is_none());
        // What is derigged holds nothing.
        rig.guys[2].rigged = false;
        assert!(!stands_by(&rig, &solution) && working_range(&rig).unwrap().around(rig.lean).is_some());
    }

    #[test]
    fn guys_on_one_holdfast_pull_it_no_harder_for_it() {
        let rig = frame(&[Point::new(-6.0, 0.01, 0.0)]);
        let (one, both) = (only(&rig, 0), Part::GuyHoldfast(0));
        assert!((carries(&rig, both) - carries(&one, both)).abs() < 1.0);
    }

    #[test]
    fn a_pair_splayed_to_either_side_works_together_and_stands_by_together() {
        let mut rig = frame(&[]);
        rig.guys[0].anchor = Point::new(-6.0, 2.5, 0.0);
        rig.guys.push(Guy::to(Point::new(-6.0, -2.5, 0.0)));
        let solution = solve(&rig).unwrap();
        assert!(!stands_by(&rig, &solution));
        let share = carries(&rig, Part::GuyRope(0));
        let mut led = frame(&[]);
        led.guys.extend([rig.guys[0], rig.guys[2]]);
        assert!((carries(&led, Part::GuyRope(2)) - share).abs() < 1e-6);
        assert!((carries(&led, Part::GuyRope(3)) - share).abs() < 1e-6);
    }

    #[test]
    fn side_guys_and_guys_ahead_do_not_stand_by() {
        let mut rig = frame(&[Point::new(-0.5, 5.0, 0.0), Point::new(-0.5, -5.0, 0.0)]);
        assert!(!stands_by(&rig, &solve(&rig).unwrap()));
        rig.line = crate::Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) });
        rig.lean = 0.1;
        let solution = solve(&rig).unwrap();
        assert!(!stands_by(&rig, &solution) && solution.forces().unwrap().working_guy == Some(1));
        rig.guys.push(Guy::to(Point::new(7.0, 0.0, 0.0)));
        assert!(stands_by(&rig, &solve(&rig).unwrap()));
    }

    #[test]
    fn a_guy_to_one_side_is_held_against_all_though_a_foot_would_lift() {
        let mut rig = frame(&[Point::new(-4.0, 7.0, 0.0)]);
        rig.feet.held_down = false;
        assert!(solve(&only(&rig, 2)).unwrap().forces().is_none());
        assert!(carries(&rig, Part::GuyRope(2)) > 1000.0);
    }
}
