//! Questions drawn by seed, marked, and worked out on the learner's own numbers.
//!
//! An author writes an [`EstimateTemplate`]: a rig, what varies, what is asked, which slips are likely. A seed
//! [`draw`]s a [`Question`] from it; [`mark`] says what a typed answer is and what it would have meant on the
//! rig; [`worked`] is the way to the answer and [`causes`] what it comes from. The same seed gives the same
//! question and the same mark on every machine.
//!
//! Every number here is the core's (`outlean_rig`), in SI. Nothing here is a sentence: what is to be said is a
//! [`Sentence`], a key with what fills its gaps. No pictures, no page, no files, no clock.
#![deny(missing_docs)]

mod asked;
mod causes;
mod draw;
mod expr;
mod mark;
mod mathml;
mod measure;
mod mirror;
mod plain;
mod response;
mod sentence;
mod slip;
mod step;
mod steps;
mod symbol;
mod template;
mod vary;

pub use asked::{ASKED, asked, asking};
pub use causes::{Cause, Share, causes};
pub use draw::{DrawError, Question, Unfit, answered_in, draw};
pub use expr::{Expr, Function};
pub use mark::{MarkError, Marked, Verdict, WouldBe, mark};
pub use mathml::mathml;
pub use measure::Measure;
pub use outlean_rig::Generator;
pub use plain::plain;
pub use response::Unreadable;
pub use sentence::{Fill, Sentence, With, part as part_asked};
pub use slip::{Slip, SlipKind};
pub use step::{Given, Step, Worked};
pub use steps::worked;
pub use symbol::Symbol;
pub use template::{EstimateTemplate, Tolerance};
pub use vary::{Span, Vary, VaryError};
