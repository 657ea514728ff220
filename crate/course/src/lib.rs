//! Questions drawn by seed, marked, and worked out on the learner's own numbers.
//!
//! An author writes a [`Template`] of one of five kinds. A seed draws a question from it ([`Template::draw`]),
//! [`Drawn::mark`] says what a response is worth. The same seed gives the same question and the same mark on every
//! machine. No answer is ever typed in: the core computes it from the rig, by [`Claim`]s where it is not a number.
//!
//! Of an estimate: [`draw`] takes a rig, what varies, what is asked, which slips are likely; [`mark`] says what a typed
//! answer is and what it would have meant on the rig; [`worked`] is the way to the answer and [`causes`] what it comes
//! from.
//!
//! An answer is kept as an [`Attempt`]; a [`Standing`] says when an objective is due again, [`pick`] draws a refresher
//! from what is due, [`class`] sets many learners side by side. Time is passed in, in seconds or days since 1970.
//!
//! Every number here is the core's (`outlean_rig`), in SI. Nothing here is a sentence: what is to be said is a
//! [`Sentence`], a key with what fills its gaps. No pictures, no page, no files, no clock.
#![deny(missing_docs)]

mod about;
mod asked;
mod attempt;
mod causes;
mod choose;
mod claim;
mod class;
mod date;
mod digest;
mod draw;
mod expr;
mod failing;
mod faults;
mod kind;
mod mark;
mod mathml;
mod measure;
mod mirror;
mod order;
mod plain;
#[cfg(feature = "records")]
mod record;
mod refresher;
mod response;
mod schedule;
mod sentence;
mod set;
mod shuffle;
mod slip;
mod step;
mod steps;
mod symbol;
mod template;
mod text;
mod ticks;
mod tried;
mod vary;

pub use about::About;
pub use asked::{ASKED, asked, asking};
pub use attempt::{Attempt, DAY, Learner, Score};
pub use causes::{Cause, Share, causes};
pub use choose::{Choice, Choose, ChooseMark, ChooseTemplate, Ground, Statement};
pub use claim::{
    Atom, CLEAR, Claim, Comparison, End, Ender, Misread, Operand, Sides, Term, Truth, Unclear, Way, Why,
};
pub use class::{Cell, Class, Row, class};
pub use date::{date, moment};
pub use draw::{DrawError, Question, Unfit, answered_in, draw};
pub use expr::{Expr, Function};
pub use failing::{Undrawn, Unmarked, Unsuited};
pub use faults::{Faults, FaultsMark, FaultsTemplate, Item, Planted, Put, ReadOff};
pub use kind::{Drawn, Mark, Response, Template};
pub use mark::{MarkError, Marked, Verdict, WouldBe, mark};
pub use mathml::mathml;
pub use measure::Measure;
pub use order::{BuildStep, Misordered, Order, OrderMark, OrderTemplate, TooEarly};
pub use outlean_rig::Generator;
pub use plain::plain;
#[cfg(feature = "records")]
pub use record::{
    Allowed as AllowedInRecord, Aside, FORMAT, Gathered, MOST_IN_NAME, MOST_IN_OBJECTIVE, OtherLearner,
    RECORD_BYTES, Reason, Record, Unread, VERSION, class_csv, csv, read as read_record,
};
pub use refresher::{Asked, Card, LENGTH, Outcome, PASS, Picked, due, outcome, passes, pick};
pub use response::Unreadable;
pub use schedule::{INTERVALS, Standing, standing, standings};
pub use sentence::{Fill, Sentence, With, part as part_asked};
pub use set::{CONTROLS, Condition, ConditionMark, Set, SetMark, SetTemplate};
pub use slip::{Slip, SlipKind};
pub use step::{Given, Step, Worked};
pub use steps::worked;
pub use symbol::Symbol;
pub use template::{EstimateTemplate, Tolerance};
pub use text::{BadGap, Filled, Piece, Text, shown};
pub use ticks::Tick;
pub use tried::{Flaw, Flawed};
pub use vary::{Span, Vary, VaryError};
