//! Frames whose guys stretch: where the head goes under load, and the load at which it runs away.
//!
//! Model results: the ropes are linear, the anchors and the ground do not give, the feet stay where they are, the
//! weight of ropes is left out. The legs push and pull, guys only pull, haul lines stay aimed at their points, load
//! lines keep their direction, pulleys hang on their slings along the pull of their lines. Displacements may be large.
//!
//! The frame is described by how far it turns about its foot line and by the compression of its legs, which give
//! little. For each turn there is just one load in balance, so that the path of a growing load is walked by the turn, and
//! goes on through the greatest load that can be borne: the limit point, where the frame runs away.

mod check;
mod least;
mod node;
mod outcome;
mod path;
mod pose;
mod remedy;
mod rope;
mod shared;
mod spring;

pub(crate) use check::stability_ratio;
pub use check::{EXTRA_LEAN, StretchCheck, StretchChecked, WANTED_MARGIN, stretch_checks};
pub use least::least_share;
pub use outcome::{Margin, Outcome, Stretched, margin, stretched};
pub(crate) use outcome::{bears, leans};
pub use path::{FARTHEST_JUMP, GREATEST_MULTIPLE};
pub use remedy::{Cure, MOST_ROPES, Remedy, remedies};
pub use rope::{DataSheet, Rope};
pub use shared::{Shared, shared};

use crate::{Fault, Field, MAX_GUYS, Rig};
use arrayvec::ArrayVec;

/// What a frame's parts give, and what its lean is the lean of.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Stretch {
    /// Axial stiffness EA of each leg, N.
    pub leg_stiffness: f64,
    /// The ropes, in the order of [`Rig::guys`]; a guy without one is a fault.
    pub ropes: ArrayVec<Rope, MAX_GUYS>,
    /// When the frame has the lean that the rig says.
    pub lean_is: LeanIs,
}

/// When a frame has the lean that its rig says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum LeanIs {
    /// As set before loading: it stands there on the weight of its legs. Of guys that pull against one another what
    /// one was given the other follows from balance, as in [`crate::solve`] without load; knots and anchors give
    /// when the load comes.
    SetBefore,
    /// As it stands under load: the tensions are those of [`crate::solve`]. Guys that are slack then play no part, and
    /// knots and anchors have given.
    #[default]
    UnderLoad,
    /// As its guys were cut: each would have the pretension that it was given were the head there, whether or not that
    /// balances. The head settles from there. How some independent cases say it; no rig file does.
    Cut,
}

/// Stiffness of a leg whose give is of no account, N.
pub const STIFF_LEG: f64 = 1e11;

impl Stretch {
    /// What a rig says of how its guys stretch, on legs that do not give; `None` where that of a rigged guy is not
    /// known: stretch is then not assessed.
    #[must_use]
    pub fn of(rig: &Rig) -> Option<Self> {
        // One that is not rigged holds its place in the list, and nothing else.
        let none = Rope { stiffness: STIFF_LEG, give: 0.0 };
        let mut ropes = ArrayVec::new();
        for guy in &rig.guys {
            ropes.push(if guy.rigged { guy.sheet.rope()? } else { none });
        }
        Some(Self { leg_stiffness: STIFF_LEG, ropes, lean_is: rig.lean_is })
    }

    /// Checks it for a rig, and the rig.
    fn check(&self, rig: &Rig) -> Result<(), Fault> {
        rig.check()?;
        Field::LegStiffness.check(self.leg_stiffness)?;
        for (number, rope) in (0_u8..).zip(&self.ropes) {
            rope.check(number)?;
        }
        if self.ropes.len() < rig.guys.len() {
            // The first guy that has none; there are no more than fit.
            let number = u8::try_from(self.ropes.len()).unwrap_or(u8::MAX);
            Field::RopeStiffness(number).check(f64::NAN)?;
        }
        Ok(())
    }
}
