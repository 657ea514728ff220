//! A plan that a crew can build from: what governs, by how much, how surely, what to change, where to put what.
//!
//! Everything here is worked out from a [`outlean_rig::Rig`] by the core; this crate puts it in the order in which a job
//! is done. Words come by key from a [`Voice`]; dates and names are passed in.
#![deny(missing_docs)]

mod advice;
mod as_built;
mod change;
mod compare;
mod crew;
mod cure;
mod demand;
mod ground_plan;
mod inspection;
mod lesson;
mod materials;
mod measured;
mod pacing;
mod plan;
mod range;
mod rule;
mod say;
mod scattered;
mod several;
mod spread;
mod steps;
mod stretching;
mod verdict;
mod voice;

pub use advice::Advice;
pub use as_built::{Measure, REACH, Test, measures};
pub use change::{change_said, governing_said, proposal_said};
pub use compare::{Difference, MOST_VARIANTS, Reading, Stated, Variant, differences, variant};
pub use crew::{Crew, Luffed, Team};
pub use cure::remedy_said;
pub use demand::{Demand, demands, holdfasts, lifts};
pub use ground_plan::{GroundPlan, ground_plan};
pub use inspection::Inspected;
use inspection::inspection;
pub use lesson::lesson_of;
pub use materials::materials_said;
pub use measured::{Compared, Effect, Measured, Other};
pub use pacing::{Mark, Pace, pacing};
pub use plan::{DRAWS, Given, Plan, SEED};
pub use range::range_said;
pub use rule::rule_said;
pub use say::{Line, Saying, Section, compared_said};
pub use scattered::{Source, Surely};
pub use several::Several;
pub use spread::spread_picture;
pub use steps::{Hold, Numbered, Step};
pub use stretching::Stretching;
pub use verdict::{Held, LeftOut, Verdict};
pub use voice::{Voice, guys};
