//! Limits: what a rig may not pass, and how near each is at a lean.

use crate::check::{KnownLegs, MAX_CHECKS, Part, each_check};
use crate::rest::{rested, solved_at};
use crate::solve::{Posture, Tip};
use crate::standby::each_alone;
use crate::stretch::{bears, leans, stability_ratio};
use crate::{
    Case, Clearance, EXTRA_LEAN, Fault, GREATEST_MULTIPLE, LeanIs, Rig, Side, Solution, Stretch, margin,
    slide,
};
use arrayvec::ArrayVec;
use core::cell::Cell;
use core::ops::ControlFlow;

/// What ends a working range.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Limit {
    /// A part carries all it may.
    Part(Part),
    /// The frame would stand further back than the upright stop, as it is set or where it comes to rest.
    UprightStop,
    /// It tips.
    Tips(Tip),
    /// A foot slides: it needs more friction than there is, and nothing else holds it.
    FootSlides(Side),
    /// The load has less clear reach than is asked for.
    ClearReach,
    /// The litter has less headroom over the edge than is asked for.
    Headroom,
    /// Its guys are too soft: its load growing, it would run away before the margin asked for.
    Stretch,
    /// Its guys give so much that it leans too far otherwise loaded than it was set.
    ExtraLean,
    /// The geometry ends: a guy or a line would have no length.
    NoGeometry,
    /// Nothing ends it as far as was looked, 30° back to 80° out.
    NotLookedFurther,
}

impl Limit {
    /// Whether it is a rule rather than a force or a fall.
    const fn is_rule(self) -> bool {
        matches!(self, Self::UprightStop | Self::ClearReach | Self::Headroom)
    }
}

/// How many limits a rig can have: one for each part, four ways to tip, two feet, three rules, two of stretch,
/// no geometry.
pub const MAX_LIMITS: usize = MAX_CHECKS + 12;

/// A lean at rest this much farther back than the stop is rounding, rad.
const ROUNDING: f64 = 1e-9;

/// How it is judged that guys stretch, which takes longer than all else.
#[derive(Clone, Copy, PartialEq)]
enum Judged {
    /// Not at all.
    LeftOut,
    /// Only where the frame comes to rest, not whether it would run away.
    Rest,
    /// Of the load at run-away only whether it is past the margin asked for: a ratio of infinity if not, of 0 if so.
    Whether,
    /// How near run-away is only where nothing met before is nearer: what governs is known without.
    IfNearest,
    /// How near each limit is.
    HowNear,
}

/// A limit at one lean and how near it is: the greatest ratio over all cases of the rig.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Governing {
    /// Demand over allowable, and of [`Limit::Stretch`] the margin asked for over the load at run-away; infinite where
    /// the frame tips or stands further back than its upright stop, 0 where nothing is assessed.
    pub ratio: f64,
    /// What it is the ratio of.
    pub limit: Limit,
    /// What is going on then.
    pub case: Case,
}

impl Governing {
    /// Whether everything assessed holds.
    #[must_use]
    pub const fn holds(&self) -> bool {
        self.ratio <= 1.0
    }
}

/// What governs a rig at a lean (rad), the greatest of [`limits_at`]: see [`crate::working_range`] for what is looked
/// at.
///
/// # Errors
///
/// As [`crate::solve_at`].
pub fn governing(rig: &Rig, lean: f64) -> Result<Governing, Fault> {
    Ok(governing_of(rig, &crate::solve_at(rig, lean)?))
}

/// Every limit that is assessed at a lean (rad), each once with its greatest ratio over all cases, in the order in
/// which they were met. Limits that are not near, such as not tipping, are not listed.
///
/// # Errors
///
/// As [`crate::solve_at`].
pub fn limits_at(rig: &Rig, lean: f64) -> Result<ArrayVec<Governing, MAX_LIMITS>, Fault> {
    let solution = crate::solve_at(rig, lean)?;
    let mut all: ArrayVec<Governing, MAX_LIMITS> = ArrayVec::new();
    let _ = each_limit(rig, lean, Some(&solution), Judged::HowNear, &mut |here| {
        match all.iter_mut().find(|known| known.limit == here.limit) {
            Some(known) if here.ratio > known.ratio => *known = here,
            Some(_) => {}
            // There are places for every limit there is.
            None => _ = all.try_push(here),
        }
        ControlFlow::Continue(())
    });
    Ok(all)
}

/// As [`governing`], of a rig solved in its present case at a lean.
pub(crate) fn governing_of(rig: &Rig, solution: &Solution) -> Governing {
    worst(rig, solution.layout.lean, Some(solution), Judged::IfNearest)
}

/// As [`governing`], of a rig and a lean already checked.
pub(crate) fn governing_at(rig: &Rig, lean: f64) -> Governing {
    worst(rig, lean, None, Judged::IfNearest)
}

/// As [`governing_at`], as if no guy stretched.
pub(crate) fn governing_unstretched(rig: &Rig, lean: f64) -> Governing {
    worst(rig, lean, None, Judged::LeftOut)
}

fn worst(rig: &Rig, lean: f64, solved: Option<&Solution>, judged: Judged) -> Governing {
    let mut worst = Governing { ratio: 0.0, limit: Limit::NotLookedFurther, case: rig.case };
    // Stop and room are rules, not forces: nothing outranks them but falling over.
    let mut rule: Option<Governing> = None;
    let _ = each_limit(rig, lean, solved, judged, &mut |here| {
        if here.limit.is_rule() {
            rule = rule.or(Some(here));
        } else if here.ratio > worst.ratio {
            worst = here;
        }
        ControlFlow::Continue(())
    });
    rule.filter(|_| worst.ratio.is_finite()).unwrap_or(worst)
}

/// Whether everything assessed holds at the rig's own lean in every case; not for a rig that cannot be solved.
#[must_use]
pub fn holds(rig: &Rig) -> bool {
    crate::solve(rig).is_ok_and(|solution| holds_where(rig, rig.lean, Some(&solution)))
}

/// As [`holds`], of a rig and a lean already checked.
pub(crate) fn holds_at(rig: &Rig, lean: f64) -> bool {
    holds_where(rig, lean, None)
}

fn holds_where(rig: &Rig, lean: f64, solved: Option<&Solution>) -> bool {
    each_limit(rig, lean, solved, Judged::Whether, &mut past).is_continue()
}

fn past(here: Governing) -> ControlFlow<()> {
    if here.holds() { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
}

/// How near one limit is at a lean already checked; ratio 0 where it is not met at all.
pub(crate) fn limit_at(rig: &Rig, lean: f64, limit: Limit) -> Governing {
    let judged = match limit {
        Limit::Stretch => Judged::HowNear,
        Limit::ExtraLean => Judged::Rest,
        _ if matches!(rig.lean_is, LeanIs::UnderLoad) => Judged::LeftOut,
        _ => Judged::Rest,
    };
    let mut worst = Governing { ratio: 0.0, limit, case: rig.case };
    let _ = each_limit(rig, lean, None, judged, &mut |here| {
        if here.limit == limit && here.ratio > worst.ratio {
            worst = here;
        }
        ControlFlow::Continue(())
    });
    worst
}

/// Calls `found` for every limit met at a lean already checked, case by case, until it breaks off. `solved` is the rig
/// solved there in one of its cases, where that is at hand.
fn each_limit(
    rig: &Rig,
    lean: f64,
    solved: Option<&Solution>,
    judged: Judged,
    found: &mut dyn FnMut(Governing) -> ControlFlow<()>,
) -> ControlFlow<()> {
    // The greatest ratio so far of what is no rule.
    let nearest = Cell::new(0.0_f64);
    let mut found = |ratio: f64, limit: Limit, case: Case| {
        if !limit.is_rule() {
            nearest.set(nearest.get().max(ratio));
        }
        found(Governing { ratio, limit, case })
    };
    let cases = rig.cases();
    let posture = match solved {
        Some(solution) if cases.as_slice() == [solution.case] => None,
        _ => match Posture::at(rig, lean) {
            Ok(posture) => Some(posture),
            Err(_) => return found(f64::INFINITY, Limit::NoGeometry, rig.case),
        },
    };
    if rig.limits.upright_stop.is_some_and(|stop| lean < stop) {
        found(f64::INFINITY, Limit::UprightStop, rig.case)?;
    }
    let known = if judged == Judged::LeftOut { None } else { Stretch::of(rig) };
    let mut stretching = known.map(|stretch| (Rig { lean, ..rig.clone() }, stretch));
    let (legs, legs_at_rest) = (KnownLegs::default(), KnownLegs::default());
    for case in cases {
        let anew;
        let solution = if let Some(solution) = solved.filter(|solution| solution.case == case) {
            solution
        } else if let Some(Ok(solution)) = posture.clone().map(|posture| posture.loaded(rig, case)) {
            anew = solution;
            &anew
        } else {
            found(f64::INFINITY, Limit::NoGeometry, case)?;
            continue;
        };
        each_but_slides(rig, solution, &legs, &mut found)?;
        each_alone(rig, solution, &mut |rig, alone| {
            each_part(rig, alone, &legs, &mut found)?;
            if judged == Judged::LeftOut || !rig.comes_to_rest() {
                return ControlFlow::Continue(());
            }
            match rested(rig, alone) {
                Some(rested) => each_part(rig, &rested, &legs_at_rest, &mut found),
                // Without the others it does not stand at all.
                None => found(f64::INFINITY, Limit::Stretch, case),
            }
        })?;
        if solution.forces().is_none() {
            continue;
        }
        if let Some((there, stretch)) = &mut stretching {
            there.case = case;
            let wanted = rig.limits.wanted_margin();
            // What does not stand even on guys that do not stretch has been met above.
            if let Ok(Some((loaded, set))) = leans(there, stretch) {
                if let Some(set) = set {
                    found((loaded - set).abs() / EXTRA_LEAN, Limit::ExtraLean, case)?;
                }
                if !matches!(rig.lean_is, LeanIs::UnderLoad) {
                    if rig.limits.upright_stop.is_some_and(|stop| loaded < stop - ROUNDING) {
                        found(f64::INFINITY, Limit::UprightStop, case)?;
                    }
                    match solved_at(rig, loaded, case) {
                        Some(rested) => {
                            each_but_slides(rig, &rested, &legs_at_rest, &mut found)?;
                            each_slide(rig, &rested, &mut found)?;
                        }
                        None => found(f64::INFINITY, Limit::NoGeometry, case)?,
                    }
                }
            }
            if judged == Judged::Rest {
                each_slide(rig, solution, &mut found)?;
                continue;
            }
            // Past a margin with which it would be as near as what is nearest so far it governs nothing; a hair more than
            // that, since a limit point is found to a hair.
            let enough = wanted / nearest.get() * (1.0 + 1e-4);
            let governs_not = judged == Judged::IfNearest
                && enough <= GREATEST_MULTIPLE
                && matches!(bears(there, stretch, enough), Ok(true));
            let ratio = if governs_not {
                Ok(0.0)
            } else if judged == Judged::Whether {
                bears(there, stretch, wanted).map(|bears| if bears { 0.0 } else { f64::INFINITY })
            } else {
                margin(there, stretch).map(|at| stability_ratio(wanted, at))
            };
            // What cannot be followed is not taken to hold.
            found(ratio.unwrap_or(f64::INFINITY), Limit::Stretch, case)?;
        }
        each_slide(rig, solution, &mut found)?;
    }
    ControlFlow::Continue(())
}

/// Calls `found` for every limit that a solved rig meets, but that its feet slide.
fn each_but_slides(
    rig: &Rig,
    solution: &Solution,
    legs: &KnownLegs,
    found: &mut dyn FnMut(f64, Limit, Case) -> ControlFlow<()>,
) -> ControlFlow<()> {
    let case = solution.case;
    if let Some(edge) = &rig.edge {
        let Clearance { clear_reach, headroom } = Clearance::of(edge, rig, solution);
        if edge.clear_reach_wanted.is_some_and(|wanted| clear_reach < wanted) {
            found(f64::INFINITY, Limit::ClearReach, case)?;
        }
        if edge.headroom_wanted.is_some_and(|wanted| headroom < wanted) {
            found(f64::INFINITY, Limit::Headroom, case)?;
        }
    }
    if let Some(tip) = solution.tips().or_else(|| unguarded(rig, solution)) {
        found(f64::INFINITY, Limit::Tips(tip), case)?;
    }
    each_part(rig, solution, legs, found)
}

/// Calls `found` for every part of a solved rig that is assessed.
fn each_part(
    rig: &Rig,
    solution: &Solution,
    legs: &KnownLegs,
    found: &mut dyn FnMut(f64, Limit, Case) -> ControlFlow<()>,
) -> ControlFlow<()> {
    each_check(rig, solution, legs, &mut |check| match check.ratio {
        Some(ratio) => found(ratio, Limit::Part(check.part), solution.case),
        None => ControlFlow::Continue(()),
    })
}

/// Calls `found` for every foot of a solved rig that only friction holds.
fn each_slide(
    rig: &Rig,
    solution: &Solution,
    found: &mut dyn FnMut(f64, Limit, Case) -> ControlFlow<()>,
) -> ControlFlow<()> {
    for slide in Side::BOTH.into_iter().filter_map(|side| slide(rig, solution, side)) {
        found(slide.ratio, Limit::FootSlides(slide.side), solution.case)?;
    }
    ControlFlow::Continue(())
}

/// Which way a frame in neutral balance would go at a nudge, its loads having no moment about the foot line, if no
/// guy stands against it.
fn unguarded(rig: &Rig, solution: &Solution) -> Option<Tip> {
    if solution.forces()?.working_guy.is_some() || solution.resultant.force.size() == 0.0 {
        return None;
    }
    let guarded =
        |sign: f64| rig.guys.iter().zip(&solution.guy_arm).any(|(guy, arm)| guy.rigged && sign * arm > 0.0);
    match (guarded(1.0), guarded(-1.0)) {
        (true, true) => None,
        (false, _) => Some(Tip::Forward),
        (true, false) => Some(Tip::Back),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Edge, Guy, Line, Operation, Path, Point, Scenario, Stage, Swing};

    /// Whichever case is at hand, one that the rig need not stand among them.
    #[test]
    fn a_solution_at_hand_changes_nothing() {
        let mut rig = Rig::new(4.0, 1.2, 0.35, 250.0);
        rig.line = Line {
            pulley_efficiency: 0.8,
            ..Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) })
        };
        rig.load.on_tag_lines = Some(Swing { side: 0.1, outward: 0.2 });
        rig.edge = Some(Edge { headroom_wanted: Some(1.0), ..Edge::at(1.0) });
        for (x, most) in [(-6.0, 900.0), (5.0, 700.0)] {
            rig.guys.push(Guy { rope_allowable: Some(most), ..Guy::to(Point::new(x, 0.0, 0.0)) });
        }
        let hung = Rig { line: Line::hung(), ..rig.clone() };
        for mut rig in [rig, hung] {
            for operation in Operation::ALL {
                for stage in [Stage::HangingClear, Stage::AtEdge, Stage::OnTagLines] {
                    rig.case = Case { operation, stage, scenario: Scenario::Shared };
                    let solution = crate::solve(&rig).unwrap();
                    let (with, without) = (governing_of(&rig, &solution), governing_at(&rig, rig.lean));
                    assert_eq!(with, without);
                    assert!(with.ratio > 0.0);
                }
            }
        }
    }
}
