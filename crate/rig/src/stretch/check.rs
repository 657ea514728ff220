//! Check: how far off run-away a rig must be, and how far its head may go.

use super::{Outcome, Stretch, margin, stretched};
use crate::angle::degrees;
use crate::{Fault, Rig};
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
#[derive(Clone, Copy, Debug, PartialEq)]
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
    let checked = |check, demand: f64, allowable: f64| StretchChecked {
        check,
        demand,
        allowable,
        ratio: demand / allowable,
    };
    let multiple = margin(rig, stretch)?.map_or(0.0, |margin| margin.multiple);
    let mut all = ArrayVec::new();
    all.push(checked(StretchCheck::Stability, wanted, multiple));
    if let Outcome::Stands(found) = stretched(rig, stretch)?
        && let Some(set) = found.set_lean
    {
        all.push(checked(StretchCheck::ExtraLean, (found.lean - set).abs(), EXTRA_LEAN));
    }
    Ok(all)
}
