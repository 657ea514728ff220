//! What can be done to a figure, and what that changed: the one way in for pointer, keyboard, attribute, link
//! and restore alike.

use outlean_rig::{Fault, Rig};
use outlean_rigfile::Units;

/// Something done to a figure. Values are in SI.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// A handle or a key was taken: a halt at the end of the range is over.
    Grab,
    /// A field is set to a value.
    Set {
        /// Key of the field table.
        key: String,
        /// Value, SI.
        value: f64,
    },
    /// A field is set to the whole step of its slider nearest to a value.
    SetStepped {
        /// Key of the field table.
        key: String,
        /// Value, SI.
        value: f64,
    },
    /// A field is moved by so many of its steps.
    Step {
        /// Key of the field table.
        key: String,
        /// Steps, signed.
        steps: f64,
    },
    /// A choice is made.
    Choose {
        /// Key of the choice.
        key: String,
        /// Its word, as in rig files.
        word: String,
    },
    /// Units are switched.
    Units {
        /// To these.
        units: Units,
    },
    /// The sweep starts or goes on.
    Play,
    /// It pauses.
    Pause,
    /// The sweep's pace.
    Pace {
        /// Slow or usual.
        slow: bool,
    },
    /// Motion is reduced, or not, as the reader's system says.
    Motion {
        /// Whether it is.
        reduced: bool,
    },
    /// Forces are hidden: a prediction is asked first.
    Veil,
    /// Forces are shown.
    Reveal,
    /// Another rig, which is then the one that `Reset` returns to.
    Load {
        /// The rig.
        rig: Box<Rig>,
    },
    /// Another rig, as a step that can be taken back: from a link.
    Show {
        /// The rig.
        rig: Box<Rig>,
    },
    /// Back to the rig that was loaded.
    Reset,
    /// The last step is taken back.
    Undo,
    /// What was taken back is done again.
    Redo,
    /// Time passes.
    Tick {
        /// Milliseconds since the last tick.
        ms: f64,
    },
}

/// What an action changed. Drawing, table and announcement are views of the state; this says which to renew.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Change {
    /// The lean, and with it every force.
    pub lean: bool,
    /// The rig: curves and working range too.
    pub rig: bool,
    /// The units.
    pub units: bool,
    /// Whether forces are shown.
    pub veil: bool,
    /// Whether something moves by itself.
    pub motion: bool,
    /// The lean was halted at an end of the working range.
    pub halted: bool,
    /// The frame began to tip.
    pub tips: bool,
    /// Why nothing was changed, if so: the rig is as it was.
    pub fault: Option<Fault>,
}

impl Change {
    /// Whether anything must be drawn again.
    #[must_use]
    pub const fn any(&self) -> bool {
        self.lean || self.rig || self.units || self.veil || self.motion
    }

    /// The same as flags in one number for the page: lean 1, rig 2, units 4, veil 8, motion 16, halted 32, tips 64,
    /// fault 128.
    #[must_use]
    pub fn flags(&self) -> u32 {
        [
            self.lean,
            self.rig,
            self.units,
            self.veil,
            self.motion,
            self.halted,
            self.tips,
            self.fault.is_some(),
        ]
        .iter()
        .enumerate()
        .map(|(bit, set)| u32::from(*set) << bit)
        .sum()
    }
}

impl Action {
    /// The action of that kind: `key`, `value` and `word` as it needs them. `None` for a kind that is not known. A
    /// rig is loaded otherwise.
    #[must_use]
    pub fn of(kind: &str, key: &str, value: f64, word: &str) -> Option<Self> {
        let key = key.to_owned();
        Some(match kind {
            "grab" => Self::Grab,
            "set" => Self::Set { key, value },
            "set_stepped" => Self::SetStepped { key, value },
            "step" => Self::Step { key, steps: value },
            "choose" => Self::Choose { key, word: word.to_owned() },
            "units" => Self::Units { units: units(word) },
            "play" => Self::Play,
            "pause" => Self::Pause,
            "pace" => Self::Pace { slow: word == "slow" },
            "motion" => Self::Motion { reduced: word == "reduced" },
            "veil" => Self::Veil,
            "reveal" => Self::Reveal,
            "reset" => Self::Reset,
            "undo" => Self::Undo,
            "redo" => Self::Redo,
            "tick" => Self::Tick { ms: value },
            _ => return None,
        })
    }
}

/// The units of that name; metric for any other.
#[must_use]
pub fn units(name: &str) -> Units {
    if name == "us" { Units::Us } else { Units::Metric }
}
