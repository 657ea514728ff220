//! What a part may carry: timber, cordage, hardware, holdfasts, ground. Every strength has a [`Source`] that says
//! how it is known; what is not known is `None`, never a guess.
//!
//! Each noun here gives a [`Capacity`]; [`crate::checks`] holds it against what the part carries. The steps on the way
//! are put down as [`Value`]s only where someone asks for them ([`crate::worked`]).

mod capacity;
mod cordage;
mod gear;
mod hardware;
mod holdfast;
mod knot;
mod lashing;
mod rule;
mod sling;
mod source;
mod symbol;
pub mod timber;
mod worked;

pub use capacity::{Basis, Capacity};
pub use cordage::{Cordage, RopeClass};
pub use gear::{Gear, OFFERED_FACTORS};
pub use hardware::{Hardware, HardwareClass};
pub use holdfast::{BRACKET_1_1_1, Holdfast, HoldfastKind, Soil};
pub use knot::Knot;
pub use lashing::{Gap, LASHINGS_ASKED, Laid, Lashing, LashingAsked, LashingRope};
pub use rule::CheckRule;
pub use sling::{Sling, leg_factor};
pub use source::{Citation, Seen, Source};
pub use symbol::Symbol;
pub use worked::{MAX_VALUES, Value, Worked};

pub(crate) use worked::Notes;

/// Newtons in a pound-force, exact by the definitions of pound and standard gravity: for sources that give it.
pub(crate) const LBF: f64 = 4.448_221_615_260_5;
