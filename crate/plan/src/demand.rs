//! Demand: the most that each part carries, in any case that the rig must stand.

use outlean_rig::{
    Case, Fault, HoldfastPull, Pair, Part, Path, Point, Rig, Solution, State, checks, each_other,
    holdfast_pulls, one_holdfast, solve,
};
use serde::Serialize;

/// The most that a part carries.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Demand {
    /// The part.
    pub part: Part,
    /// How much, N.
    pub force: f64,
    /// When.
    pub case: Case,
    /// Whether it could be held against what the part may carry, or is to be confirmed on site.
    pub known: bool,
    /// Whether what it may carry was assumed.
    pub assumed: bool,
}

/// Calls `each` with a rig in every case that it must stand, solved.
///
/// # Errors
///
/// As [`solve`] in any of its cases.
#[inline(never)]
pub(crate) fn in_each_case(rig: &Rig, each: &mut dyn FnMut(&Rig, &Solution)) -> Result<(), Fault> {
    let mut there = rig.clone();
    for case in rig.cases() {
        there.case = case;
        each(&there, &solve(&there)?);
    }
    Ok(())
}

/// The most that every part of a rig carries, in the order of [`checks`]. Cases in which the frame tips carry nothing.
///
/// # Errors
///
/// As [`solve`] in any of its cases.
pub fn demands(rig: &Rig) -> Result<Vec<Demand>, Fault> {
    let mut all: Vec<Demand> = Vec::new();
    in_each_case(rig, &mut |there, solution| {
        for check in checks(there, solution) {
            let known = check.state != State::NotAssessed;
            let assumed = check.state == State::Assumed;
            let here = Demand { part: check.part, force: check.demand, case: there.case, known, assumed };
            match all.iter_mut().find(|demand| demand.part == check.part) {
                Some(most) => {
                    // A leg that pulls in one case is not assessed there, and is in the others.
                    let known = most.known || known;
                    if here.force > most.force {
                        *most = here;
                    }
                    most.known = known;
                }
                None => all.push(here),
            }
        }
    })?;
    Ok(all)
}

/// The greatest pull on each holdfast in any case and under the test load, whether anything is known of it or not: those of guys
/// and of haul lines, then those of redirects midway between the feet, named by their pulley: nothing in a rig says what these may
/// carry. A holdfast that ropes share and of which only one of them is said is there once.
///
/// # Errors
///
/// As [`solve`] in any of its cases, and with the test load.
pub fn holdfasts(rig: &Rig, demands: &[Demand], tested: &Rig) -> Result<Vec<(Part, HoldfastPull)>, Fault> {
    let mut all: Vec<(Part, HoldfastPull)> = Vec::new();
    let mut redirects: Vec<(Part, HoldfastPull)> = Vec::new();
    let mut take = |there: &Rig, solution: &Solution| {
        for (part, pull) in holdfast_pulls(there, solution) {
            let all = if is_redirect(part) { &mut redirects } else { &mut all };
            match all.iter_mut().find(|(known, _)| *known == part) {
                Some((_, most)) if pull.size > most.size => *most = pull,
                Some(_) => {}
                None if is_there(rig, demands, part) => all.push((part, pull)),
                None => {}
            }
        }
    };
    in_each_case(rig, &mut take)?;
    take(tested, &solve(tested)?);
    all.append(&mut redirects);
    Ok(all)
}

/// Whether the holdfast of a part is to be listed: not that of a haul line of which nothing is said and that is another's.
fn is_there(rig: &Rig, demands: &[Demand], part: Part) -> bool {
    // Midway between the feet both lines hang on one.
    if part == Part::SecondRedirect && matches!(rig.line.path, Path::RedirectedMidBase { .. }) {
        return false;
    }
    if demands.iter().any(|demand| demand.part == part) {
        return true;
    }
    let main = rig.line.path.haul_point();
    let (at, other) = match part {
        Part::HaulHoldfast => (main, None),
        Part::SecondHoldfast => (rig.second.and_then(|second| second.line.path.haul_point()), main),
        _ => return true,
    };
    let near = |other: Point| at.is_some_and(|at| one_holdfast(other, at));
    !(other.is_some_and(near) || rig.guys.iter().any(|guy| guy.rigged && near(guy.anchor)))
}

/// Whether a part is a redirect, which stands for its own holdfast.
pub(crate) const fn is_redirect(part: Part) -> bool {
    matches!(part, Part::RedirectPulley | Part::SecondRedirect)
}

/// What lifts each foot at the most, N, in any case and under a test load, as set and at rest: where feet are held down, and where
/// one of several guys held without the others. 0 for one that nothing lifts.
///
/// # Errors
///
/// As [`solve`] in any of its cases, and with the test load.
pub fn lifts(rig: &Rig, tested: Option<&Rig>) -> Result<Pair<f64>, Fault> {
    let mut most: Pair<f64> = Pair::new(0.0, 0.0);
    let mut take = |solution: &Solution| {
        let Some(forces) = solution.forces() else { return };
        most = Pair::from_fn(|side| {
            let foot = forces.footing.feet.on(side);
            if foot.lifts { most.on(side).max(-foot.bearing) } else { *most.on(side) }
        });
    };
    let mut all = |there: &Rig, solution: &Solution| {
        take(solution);
        each_other(there, solution, &mut |_, other| take(other));
    };
    in_each_case(rig, &mut all)?;
    if let Some(tested) = tested {
        all(tested, &solve(tested)?);
    }
    Ok(most)
}
