//! Demand: the most that each part carries, in any case that the rig must stand.

use outlean_rig::{Case, Fault, HoldfastPull, Pair, Part, Point, Rig, State, checks, holdfast_pulls, solve};
use serde::Serialize;

/// Ropes that end this near to one another are tied to one holdfast, m: as in [`holdfast_pulls`].
const SAME_HOLDFAST: f64 = 0.05;

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

/// The most that every part of a rig carries, in the order of [`checks`]. Cases in which the frame tips carry nothing.
///
/// # Errors
///
/// As [`solve`] in any of its cases.
pub fn demands(rig: &Rig) -> Result<Vec<Demand>, Fault> {
    let mut all: Vec<Demand> = Vec::new();
    for case in rig.cases() {
        let there = Rig { case, ..rig.clone() };
        for check in checks(&there, &solve(&there)?) {
            let known = check.state != State::NotAssessed;
            let assumed = check.state == State::Assumed;
            let here = Demand { part: check.part, force: check.demand, case, known, assumed };
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
    }
    Ok(all)
}

/// The greatest pull on each holdfast in any case, whether anything is known of it or not: those of guys and of haul lines, then
/// those of redirects midway between the feet, named by their pulley: nothing in a rig says what these may carry. A holdfast that
/// ropes share and of which only one of them is said is there once.
///
/// # Errors
///
/// As [`solve`] in any of its cases.
pub fn holdfasts(rig: &Rig, demands: &[Demand]) -> Result<Vec<(Part, HoldfastPull)>, Fault> {
    let mut all: Vec<(Part, HoldfastPull)> = Vec::new();
    for case in rig.cases() {
        let there = Rig { case, ..rig.clone() };
        for (part, pull) in holdfast_pulls(&there, &solve(&there)?) {
            match all.iter_mut().find(|(known, _)| *known == part) {
                Some((_, most)) if pull.size > most.size => *most = pull,
                Some(_) => {}
                None => all.push((part, pull)),
            }
        }
    }
    let guys = || rig.guys.iter().filter(|guy| guy.rigged).map(|guy| guy.anchor);
    let (main, second) =
        (rig.line.path.haul_point(), rig.second.and_then(|second| second.line.path.haul_point()));
    let shared = |at: Option<Point>, others: Vec<Point>| {
        at.is_some_and(|at| others.iter().any(|other| (*other - at).length() < SAME_HOLDFAST))
    };
    all.retain(|(part, _)| {
        demands.iter().any(|demand| demand.part == *part)
            || match part {
                Part::HaulHoldfast => !shared(main, guys().collect()),
                Part::SecondHoldfast => !shared(second, guys().chain(main).collect()),
                _ => true,
            }
    });
    all.sort_by_key(|(part, _)| is_redirect(*part));
    Ok(all)
}

/// Whether a part is a redirect, which stands for its own holdfast.
pub(crate) const fn is_redirect(part: Part) -> bool {
    matches!(part, Part::RedirectPulley | Part::SecondRedirect)
}

/// What lifts each foot of a rig whose feet are held down, in the case in which most does, N; 0 for one that nothing lifts, and for
/// both where they are not held down.
///
/// # Errors
///
/// As [`solve`] in any of its cases.
pub fn lifts(rig: &Rig) -> Result<Pair<f64>, Fault> {
    let mut most = Pair::new(0.0, 0.0);
    if !rig.feet.held_down {
        return Ok(most);
    }
    for case in rig.cases() {
        let found = solve(&Rig { case, ..rig.clone() })?;
        let Some(forces) = found.forces() else { continue };
        most = Pair::from_fn(|side| {
            let foot = forces.footing.feet.on(side);
            if foot.lifts { most.on(side).max(-foot.bearing) } else { *most.on(side) }
        });
    }
    Ok(most)
}
