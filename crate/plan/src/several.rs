//! Several: whether more than one guy holds the frame one way.

use outlean_rig::{Fault, Rig, Role, solve, stands_by};
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
    /// As [`solve`] in any of its cases.
    pub fn of(rig: &Rig) -> Result<Self, Fault> {
        let mut most = Self::No;
        for case in rig.cases() {
            let there = Rig { case, ..rig.clone() };
            let found = solve(&there)?;
            let works = found.forces().map_or(0, |forces| {
                forces.guys.iter().filter(|guy| matches!(guy.role, Role::Working)).count()
            });
            let here = match (stands_by(&there, &found), works) {
                (true, _) => Self::StandBy,
                (false, 0 | 1) => Self::No,
                (false, _) => Self::Together,
            };
            most = most.max(here);
        }
        Ok(most)
    }
}
