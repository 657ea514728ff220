//! Standby: guys that could hold in place of those that work.

use crate::guy::Station;
use crate::rest::{rested, solved_at};
use crate::splay::splayed_to;
use crate::{Rig, Role, Side, Solution};
use core::ops::ControlFlow;

/// Whether a rigged guy that does not work could take over from those that do: it holds the same way and does not stand to
/// a side. How such guys share a load hangs on how tight each was tied, which nobody knows; so [`crate::checks`],
/// [`crate::holdfast_pulls`] and limits take what each comes to carry without the others, if that is more.
#[must_use]
#[inline(never)]
pub fn stands_by(rig: &Rig, solution: &Solution) -> bool {
    let Some(forces) = solution.forces() else { return false };
    let works = |number: usize| forces.guys.get(number).is_some_and(|guy| matches!(guy.role, Role::Working));
    (0..rig.guys.len()).any(|number| !works(number) && could(rig, solution, number))
}

/// Whether a rigged guy holds the way that those hold which work, and not from a side.
fn could(rig: &Rig, solution: &Solution, number: usize) -> bool {
    let Some(forces) = solution.forces() else { return false };
    let mut working = forces.guys.iter().zip(&solution.guy_arm);
    let working = working.find(|(force, _)| matches!(force.role, Role::Working)).map(|(_, arm)| *arm);
    let guy = rig.guys.get(number).zip(solution.guy_arm.get(number));
    working.zip(guy).is_some_and(|(working, (guy, arm))| {
        let to_side = matches!(Station::of(guy.anchor, &solution.layout), Station::Side);
        guy.rigged && arm * working > 0.0 && !to_side
    })
}

/// Calls `each`, until it breaks off, with a solved rig whose load hangs on one of the guys that could hold it, or on two splayed
/// to either side, and that solved as it stands: once for every guy, of those splayed to a side once with each fellow that it may
/// have. Nothing where no guy [stands by](stands_by). Feet count as held down: which foot lifts is told by the forces.
pub(crate) fn each_alone(
    rig: &Rig,
    solution: &Solution,
    each: &mut dyn FnMut(&Rig, &Solution) -> ControlFlow<()>,
) -> ControlFlow<()> {
    if !stands_by(rig, solution) {
        return ControlFlow::Continue(());
    }
    let all = || (0..rig.guys.len()).filter(|number| could(rig, solution, *number));
    let side = |number: usize| {
        let guy = rig.guys.get(number)?;
        Some((Station::of(guy.anchor, &solution.layout), splayed_to(guy.anchor, &solution.layout)?))
    };
    for first in all() {
        let beside = side(first).map(|(station, side)| (station, side.other()));
        let mut fellows = all().filter(|number| beside.is_some() && side(*number) == beside).peekable();
        let alone = fellows.peek().is_none().then_some(first);
        // A pair is met from its left.
        let left = matches!(side(first), Some((_, Side::Left)));
        for fellow in alone.into_iter().chain(fellows.filter(|_| left)) {
            let mut there = rig.clone();
            there.feet.held_down = true;
            for (number, guy) in there.guys.iter_mut().enumerate() {
                guy.rigged &= number == first || number == fellow || !could(rig, solution, number);
            }
            if let Some(alone) = solved_at(&there, solution.layout.lean, solution.case) {
                each(&there, &alone)?;
            }
        }
    }
    ControlFlow::Continue(())
}

/// Calls `each` with all that the parts of a solved rig are held against beside it, and the rig that it is of: where it
/// [comes to rest](Rig::comes_to_rest); where another guy [stands by](stands_by), each that could hold without the others, as set
/// and where that comes to rest.
pub fn each_other(rig: &Rig, solution: &Solution, each: &mut dyn FnMut(&Rig, &Solution)) {
    if let Some(rested) = rested(rig, solution) {
        each(rig, &rested);
    }
    let _ = each_alone(rig, solution, &mut |rig, alone| {
        each(rig, alone);
        if let Some(rested) = rested(rig, alone) {
            each(rig, &rested);
        }
        ControlFlow::Continue(())
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        DataSheet, Guy, LeanIs, Limit, Part, Path, Point, checks, governing, holdfast_pulls, limits_at,
        range_within, solve, worked, working_range,
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
        let leg = Part::Leg(Side::Left);
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

    /// Alone it stretches more than beside the other, and so leans farther and carries more.
    #[test]
    fn alone_on_a_rope_that_stretches_it_is_held_against_where_it_then_comes_to_rest() {
        let mut rig = frame(&[Point::new(-6.0, 0.3, 0.0)]);
        rig.lean_is = LeanIs::SetBefore;
        rig.guys[1].rigged = false;
        for guy in &mut rig.guys {
            guy.sheet = DataSheet { elongation: Some(0.03), at: Some(1330.0), give: None };
        }
        let alone = only(&rig, 2);
        let part = Part::GuyRope(2);
        let wanted = carries(&alone, part);
        let together = rested(&rig, &solve(&rig).unwrap()).unwrap().layout.lean;
        assert!(together + 0.01 < rested(&alone, &solve(&alone).unwrap()).unwrap().layout.lean);
        assert!((carries(&rig, part) - wanted).abs() < 1e-6 * wanted);
        let far =
            limits_at(&Rig { gear: rig.gear, ..with_allowable(&rig, 2, 0.99 * wanted) }, rig.lean).unwrap();
        assert!(
            far.iter().any(|met| met.limit == Limit::Part(part) && (met.ratio - 1.0 / 0.99).abs() < 1e-6)
        );
    }

    /// The softer it is the nearer to its limit, until alone it does not stand at all: that is past it too.
    #[test]
    fn a_softer_guy_is_never_held_for_stronger() {
        let mut before = 0.0;
        let mut fell = false;
        for percent in 1_i8..30 {
            let mut rig = frame(&[Point::new(-6.0, 0.3, 0.0)]);
            rig.lean_is = LeanIs::SetBefore;
            rig.limits.stretch_margin = Some(1.0);
            for guy in &mut rig.guys {
                guy.sheet = DataSheet { elongation: Some(0.01), at: Some(1330.0), give: None };
            }
            rig.guys[2].sheet.elongation = Some(0.01 * f64::from(percent));
            rig.guys[2].rope_allowable = Some(3000.0);
            let alone = only(&rig, 2);
            fell |= rested(&alone, &solve(&alone).unwrap()).is_none();
            let worst = limits_at(&rig, rig.lean).unwrap();
            let here = worst.iter().filter(|met| met.limit != Limit::ExtraLean).map(|met| met.ratio);
            let here = here.fold(0.0, f64::max);
            assert!(here >= before * (1.0 - 1e-9), "{percent} %: {here} after {before}");
            before = here;
        }
        assert!(fell && before.is_infinite());
    }

    fn with_allowable(rig: &Rig, number: usize, allowable: f64) -> Rig {
        let mut rig = rig.clone();
        rig.guys[number].rope_allowable = Some(allowable);
        rig
    }

    /// Of two guys to the left and one to the right either may be the one that pairs with it.
    #[test]
    fn what_each_is_held_against_hangs_on_no_order() {
        let places = [
            Point::new(-8.0, 3.0, 0.0),
            Point::new(-8.0, -3.0, 0.0),
            Point::new(-2.0, 1.9, 0.0),
            Point::new(-3.0, -2.0, 0.0),
        ];
        let of = |order: &[usize]| {
            let mut rig = frame(&[]);
            rig.guys.clear();
            rig.guys.extend(order.iter().map(|place| Guy::to(places[*place])));
            let mut all = [0.0; 4];
            for (number, place) in (0_u8..).zip(order) {
                all[*place] = carries(&rig, Part::GuyRope(number));
            }
            (all, carries(&rig, Part::Leg(Side::Left)), carries(&rig, Part::Leg(Side::Right)))
        };
        for orders in [&[[0, 1, 2], [2, 1, 0], [1, 2, 0], [2, 0, 1]][..], &[[0, 3, 2], [2, 3, 0], [3, 0, 2]]]
        {
            let first = of(&orders[0]);
            for order in &orders[1..] {
                let found = of(order);
                assert!(
                    (0..4).all(|place| (found.0[place] - first.0[place]).abs() < 1e-6),
                    "{order:?}: {found:?} {first:?}"
                );
                assert!((found.1 - first.1).abs() < 1e-6 && (found.2 - first.2).abs() < 1e-6);
            }
        }
        let [one, other] = [of(&[0, 1, 2, 3]), of(&[3, 2, 1, 0])];
        assert!((0..4).all(|place| (one.0[place] - other.0[place]).abs() < 1e-6));
    }
}
