//! Luffing: changing the lean by a guy with the load on.

use crate::numeric::grid;
use crate::range::STEP;
use crate::{Fault, Rig, simple_advantage, solve, solve_at};

/// What it takes to bring a loaded frame from its lean to another by hauling in or paying out a guy.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Luffing {
    /// How much of the guy comes in, m; negative where it is paid out.
    pub comes_in: f64,
    /// The greatest tension of the guy on the way, N: 0 for one that stays slack.
    pub tension: f64,
    /// The lean at which it has that, rad.
    pub at: f64,
    /// Whether the guy goes slack or comes taut on the way, so that another holds the frame on part of it: at the balance
    /// lean. Both have to be tended.
    pub changes_sides: bool,
}

impl Luffing {
    /// Of a guy, counted from 0, to a lean (rad), in the rig's present case: looked at every quarter of a degree on the
    /// way, both ends included. `None` where no such guy is rigged and where the frame tips on the way.
    ///
    /// The line is taken to run with the head: that the load rises or sinks with it is left out, as is what the legs rub
    /// on at their feet.
    ///
    /// # Errors
    ///
    /// As [`solve_at`] at either lean.
    pub fn of(rig: &Rig, guy: u8, to: f64) -> Result<Option<Self>, Fault> {
        let number = usize::from(guy);
        let (start, end) = (solve(rig)?, solve_at(rig, to)?);
        if !rig.guys.get(number).is_some_and(|guy| guy.rigged) {
            return Ok(None);
        }
        let long = |solution: &crate::Solution| solution.guy_length.get(number).copied().unwrap_or(0.0);
        let (mut tension, mut at) = (0.0, rig.lean);
        let (mut slack, mut taut) = (false, false);
        for lean in grid(rig.lean, to, if to < rig.lean { -STEP } else { STEP }) {
            // Between two leans at which a line has a length it may have none.
            let Ok(solution) = solve_at(rig, lean) else { return Ok(None) };
            let Some(here) = solution.forces().and_then(|forces| forces.guys.get(number)) else {
                return Ok(None);
            };
            slack |= here.tension == 0.0;
            taut |= here.tension > 0.0;
            if here.tension > tension {
                (tension, at) = (here.tension, lean);
            }
        }
        let comes_in = long(&start) - long(&end);
        Ok(Some(Self { comes_in, tension, at, changes_sides: slack && taut }))
    }

    /// The pull (N) with which hands hold back a simple `parts`:1 system of pulleys of `efficiency` while the guy is
    /// paid out: what the pulleys rub away helps them. What they pull to haul it in, [`crate::Haul::against`] says.
    #[must_use]
    pub fn holds_back(&self, parts: u8, efficiency: f64) -> f64 {
        self.tension / simple_advantage(parts, 1.0 / efficiency)
    }
}
