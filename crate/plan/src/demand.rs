//! Demand: the most that each part carries, in any case that the rig must stand.

use outlean_rig::{Case, Fault, HoldfastPull, Part, Rig, State, checks, holdfast_pulls, solve};
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

/// The greatest pull on the holdfast of each redirect midway between the feet, in any case: nothing in a rig says what such
/// a holdfast may carry. Named by the redirect's pulley.
///
/// # Errors
///
/// As [`solve`] in any of its cases.
pub fn redirects(rig: &Rig) -> Result<Vec<(Part, HoldfastPull)>, Fault> {
    let mut all: Vec<(Part, HoldfastPull)> = Vec::new();
    for case in rig.cases() {
        let there = Rig { case, ..rig.clone() };
        for (part, pull) in holdfast_pulls(&there, &solve(&there)?) {
            if !matches!(part, Part::RedirectPulley | Part::SecondRedirect) {
                continue;
            }
            match all.iter_mut().find(|(known, _)| *known == part) {
                Some((_, most)) if pull.size > most.size => *most = pull,
                Some(_) => {}
                None => all.push((part, pull)),
            }
        }
    }
    Ok(all)
}
