//! Why a question cannot be drawn, and why an answer cannot be marked.

use outlean_rig::{Fault, Tip};

use crate::{DrawError, MarkError, Misordered, Unclear, VaryError};

/// Why no question could be drawn: always a mistake of the template's author.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Undrawn {
    /// An estimate cannot.
    Estimate(DrawError),
    /// What varies makes no sense.
    Vary(VaryError),
    /// The steps cannot be put in order, or need not be.
    Steps(Misordered),
    /// Too few entries in a list, or too many.
    Count {
        /// What the list is of.
        of: &'static str,
        /// How many there are.
        count: usize,
        /// How few there may be.
        least: usize,
        /// How many there may be.
        most: usize,
    },
    /// More faults at the least than at the most, or more than there are.
    FaultsAsked {
        /// At the least.
        least: usize,
        /// At the most.
        most: usize,
        /// How many there are.
        count: usize,
    },
    /// With no fault put in, the item of this number (from 0) is not sound.
    Unsound(usize),
    /// The fault of this number (from 0) makes no item unsound.
    ShowsNothing(usize),
    /// The fault of this number (from 0) sets what cannot be set on this rig: the key.
    CannotSet(usize, String),
    /// None of the many rigs drawn made a question.
    NoneFits {
        /// How many were drawn.
        drawn: u32,
        /// Why the last of them did not.
        last: Unsuited,
    },
}

/// Why a drawn rig makes no question. Numbers count entries of the template from 0.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Unsuited {
    /// It cannot be computed.
    Impossible(Fault),
    /// The frame tips, and no claim is about that.
    Tips(Tip),
    /// It has nothing at this key, which is to be moved.
    Absent(String),
    /// The claim of this number says nothing clear of it.
    Claim(usize, Unclear),
    /// A gap in the text of this number cannot be filled.
    Text(usize, Unclear),
    /// Two texts read alike.
    Alike(usize, usize),
    /// Of the statements so many hold, and one should.
    NotOne(usize),
    /// No statement holds.
    NoneHolds,
    /// Every statement holds.
    AllHold,
    /// A fault of those put in is hidden by the others.
    Hidden(usize),
    /// Every item is unsound.
    AllUnsound,
    /// The conditions hold from the start.
    HoldsAlready,
    /// Moved as far as it may be, no setting was found at which the conditions hold.
    OutOfReach,
}

/// Why a response could not be marked. Nothing is lost: the learner may answer again.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Unmarked {
    /// An estimate cannot be marked.
    Estimate(MarkError),
    /// The response is one to a question of another kind.
    OtherKind,
    /// Nothing is chosen.
    Nothing,
    /// More than one statement is chosen where one is to be.
    MoreThanOne(usize),
    /// A place that the list does not have.
    NoSuchPlace {
        /// The place, from 0.
        place: usize,
        /// How many there are.
        places: usize,
    },
    /// A place that is named twice.
    Twice(usize),
    /// Not every step is in the order.
    Missing {
        /// How many are.
        given: usize,
        /// How many there are.
        wanted: usize,
    },
}
