//! Several: whether more than one guy holds the frame one way.

use crate::demand::in_each_case;
use outlean_rig::{Fault, Rig, Role, stands_by};
use serde::Serialize;

/// Whether more than one guy holds the frame one way, in any case.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Several {
    /// One holds it.
    No,
    /// Two splayed to either side hold it together.
    Together,
    /// Another could hold in place of those that work.
    StandBy,
}

impl Several {
    /// Of a rig.
    ///
    /// # Errors
    ///
    /// As [`outlean_rig::solve`] in any of its cases.
    pub fn of(rig: &Rig) -> Result<Self, Fault> {
        let mut most = Self::No;
        in_each_case(rig, &mut |there, solution| {
            let works = solution.forces().map_or(0, |forces| {
                forces.guys.iter().filter(|guy| matches!(guy.role, Role::Working)).count()
            });
            let here = match (stands_by(there, solution), works) {
                (true, _) => Self::StandBy,
                (false, 0 | 1) => Self::No,
                (false, _) => Self::Together,
            };
            most = most.max(here);
        })?;
        Ok(most)
    }
}
