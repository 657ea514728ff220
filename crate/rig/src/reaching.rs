//! Reaching: the lean that a wanted clear reach asks for, and what that costs.

use crate::numeric::{bisect, grid};
use crate::proposal::{Trial, smallest};
use crate::range::{FARTHEST_BACK, FARTHEST_OUT, STEP};
use crate::{Change, Clearance, Fault, Governing, Lever, Rig, governing, solve};

/// What a wanted clear reach asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Reaching {
    /// The least lean with it in every case, as set and where the frame comes to rest, rad.
    pub lean: f64,
    /// What governs there, all else as it is; [`crate::limits_at`] has the rest.
    pub governing: Governing,
    /// The guy, counted from 0, that holds the frame there, and the least setback (m) of its anchor, from where it is
    /// outward, at which all that is assessed holds there; `None` where none within ten metres does, or no guy works.
    pub setback: Option<(u8, f64)>,
}

impl Reaching {
    /// Of a rig, for so much clear reach (m) in front of its edge. `None` for a rig that has no edge, and where no lean
    /// between 30° back and 80° out has it.
    ///
    /// # Errors
    ///
    /// As [`crate::solve`] at the rig's own lean.
    pub fn of(rig: &Rig, wanted: f64) -> Result<Option<Self>, Fault> {
        solve(rig)?;
        let reaches =
            |lean: f64| Clearance::least(rig, lean).is_some_and(|least| least.clear_reach >= wanted);
        let Some(first) = grid(FARTHEST_BACK, FARTHEST_OUT, STEP).find(|lean| reaches(*lean)) else {
            return Ok(None);
        };
        let lean = if first > FARTHEST_BACK { bisect(first, first - STEP, 1e-9, reaches).0 } else { first };
        let there = Rig { lean, ..rig.clone() };
        let governing = governing(&there, lean)?;
        // The guy of the case that governs.
        let found = solve(&Rig { case: governing.case, ..there.clone() })?;
        let setback = found.forces().and_then(|forces| forces.working_guy).and_then(|guy| {
            let lever = Lever::Setback(guy);
            if governing.holds() {
                return Some((guy, lever.get(&there)?));
            }
            let outward = Trial { lever, pace: 0.25, directions: &[1.0] };
            match smallest(&there, &outward, 40.0)? {
                (Change::Set { to, .. }, _) => Some((guy, to)),
                _ => None,
            }
        });
        Ok(Some(Self { lean, governing, setback }))
    }
}
