//! Check: how far off run-away a rig must be, and how far its head may go.

use super::{Margin, Outcome, Stretch, least_share, margin, stretched};
use crate::angle::degrees;
use crate::strength::{CheckRule, Notes, Symbol, Worked};
use crate::{Fault, Rig, solve};
use arrayvec::ArrayVec;

/// Load at run-away over load that is asked for where nobody says otherwise. Our choice: no source gives one.
pub const WANTED_MARGIN: f64 = 3.0;
/// Lean that a frame may gain or lose from set to loaded, rad. Our choice: no source gives one.
pub const EXTRA_LEAN: f64 = degrees(3.0);

/// What is checked of a frame on guys that stretch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
pub enum StretchCheck {
    /// The margin asked for against load at run-away over load.
    Stability,
    /// The lean that it gains or loses from set to loaded against [`EXTRA_LEAN`], rad.
    ExtraLean,
}

/// One check of a frame on guys that stretch.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct StretchChecked {
    /// Of what.
    pub check: StretchCheck,
    /// What is asked for (a margin) or there (lean, rad).
    pub demand: f64,
    /// What is there (a margin: infinite where it never runs away, 0 where nothing holds it) or allowed (lean, rad).
    pub allowable: f64,
    /// Demand over allowable; above 1 is past it, infinite where nothing holds.
    pub ratio: f64,
    /// By which rule.
    pub rule: CheckRule,
    /// Its inputs and intermediate values, in the order in which they are worked out: stiffness, length and arm of each
    /// rigged guy in the order of the rig. What is infinite is left out.
    #[cfg_attr(feature = "serde", serde(skip))]
    pub worked: Worked,
}

/// The checks of a rig on guys that stretch, for a margin asked for (see [`WANTED_MARGIN`]). The extra lean is left out
/// where the frame does not stand, or where it is not known how it stood before loading.
///
/// # Errors
///
/// As [`stretched`].
pub fn stretch_checks(
    rig: &Rig,
    stretch: &Stretch,
    wanted: f64,
) -> Result<ArrayVec<StretchChecked, 2>, Fault> {
    let mut all = ArrayVec::new();
    let at_run_away = margin(rig, stretch)?;
    all.push(StretchChecked {
        check: StretchCheck::Stability,
        demand: wanted,
        allowable: at_run_away.map_or(0.0, |margin| margin.multiple),
        ratio: stability_ratio(wanted, at_run_away),
        rule: CheckRule::RunAway,
        worked: stability_worked(rig, stretch, wanted, at_run_away)?,
    });
    if let Outcome::Stands(found) = stretched(rig, stretch)?
        && let Some(set) = found.set_lean
    {
        let (demand, allowable) = ((found.lean - set).abs(), EXTRA_LEAN);
        let mut worked = Worked::new();
        worked.put(Symbol::SetLean, set);
        worked.put(Symbol::LoadedLean, found.lean);
        worked.put(Symbol::LeanChange, demand);
        worked.put(Symbol::LeanAllowed, allowable);
        all.push(StretchChecked {
            check: StretchCheck::ExtraLean,
            demand,
            allowable,
            ratio: demand / allowable,
            rule: CheckRule::ExtraLean,
            worked,
        });
    }
    Ok(all)
}

/// The margin asked for over that which is there; infinite where nothing holds the frame without load.
pub(crate) fn stability_ratio(wanted: f64, at: Option<Margin>) -> f64 {
    at.map_or(f64::INFINITY, |at| wanted / at.multiple)
}

fn stability_worked(rig: &Rig, stretch: &Stretch, wanted: f64, at: Option<Margin>) -> Result<Worked, Fault> {
    let mut worked = Worked::new();
    let solution = solve(rig)?;
    let load: f64 = solution.lines().map(|line| line.load.size()).sum();
    worked.put(Symbol::WholeLoad, load);
    let guys = rig.guys.iter().zip(&stretch.ropes).zip(solution.guy_length.iter().zip(&solution.guy_arm));
    for ((_, rope), (length, arm)) in guys.filter(|((guy, _), _)| guy.rigged) {
        worked.put(Symbol::RopeStiffness, rope.stiffness);
        worked.put(Symbol::RopeLength, *length);
        worked.put(Symbol::RopeArm, *arm);
    }
    if let Some(share) = least_share(rig, stretch)?.filter(|share| share.is_finite()) {
        worked.put(Symbol::LeastShare, share);
    }
    if let Some(Margin { multiple, lean: Some(lean), .. }) = at {
        worked.put(Symbol::RunAwayLoad, load * multiple);
        worked.put(Symbol::RunAwayLean, lean);
        worked.put(Symbol::Multiple, multiple);
    }
    worked.put(Symbol::MarginWanted, wanted);
    Ok(worked)
}
