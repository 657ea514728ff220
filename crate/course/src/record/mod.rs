//! A learner's record: a file of attempts, read with care and put together without a loss.
//!
//! It is JSON: `{"format": "outlean-record", "version": 2, "learner", "attempts": […], "aside": […]}`, an attempt with
//! the names of [`Attempt`]'s fields. What cannot be taken as an attempt is in no way dropped: it stands aside, whole,
//! with the reason.

mod csv;
mod first;
mod gathered;
mod read;
mod reason;

pub use csv::{class_csv, csv};
pub use gathered::Gathered;
pub use read::{MOST_IN_NAME, MOST_IN_OBJECTIVE, RECORD_BYTES, Unread, read};
pub use reason::{Allowed, Reason};

use crate::{Attempt, Learner};
use std::collections::BTreeMap;

/// What such a file calls itself.
pub const FORMAT: &str = "outlean-record";
/// The version that is written. Versions from 1 on are read.
pub const VERSION: u32 = 2;

/// A learner's record. Its attempts are in order of time, question and seed, no two with the same; what stands aside is
/// in order too, nothing twice.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Record {
    /// Whose it is.
    pub learner: Learner,
    /// What was answered.
    pub attempts: Vec<Attempt>,
    /// What could not be taken as an attempt.
    pub aside: Vec<Aside>,
}

/// What could not be taken as an attempt, and why.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
pub struct Aside {
    /// The JSON of it, whole.
    pub raw: String,
    /// Why it is not among the attempts.
    pub why: Reason,
}

/// Two records are of two learners: they are not one record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OtherLearner(pub Learner);

impl Record {
    /// A record of these attempts. Of two with the same time, question and seed the one whose JSON comes first in the
    /// alphabet is kept and the other stands aside: so it is the same in whatever order records are put together.
    #[must_use]
    pub fn new(learner: Learner, attempts: Vec<Attempt>, mut aside: Vec<Aside>) -> Self {
        let mut kept: BTreeMap<(u64, String, u64), (String, Attempt)> = BTreeMap::new();
        for attempt in attempts {
            let name = (attempt.time, attempt.question.clone(), attempt.seed);
            let text = json(&attempt);
            let Some((known, there)) = kept.remove(&name) else {
                kept.insert(name, (text, attempt));
                continue;
            };
            let (first, other) =
                if known <= text { ((known, there), text) } else { ((text, attempt), known) };
            if other != first.0 {
                aside.push(Aside { raw: other, why: Reason::twice(name.0) });
            }
            kept.insert(name, first);
        }
        aside.sort();
        aside.dedup();
        Self { learner, attempts: kept.into_values().map(|(_, attempt)| attempt).collect(), aside }
    }

    /// Everything in both. In whatever order many are put together the result is the same, and what is put together with
    /// itself is as it was.
    ///
    /// # Errors
    ///
    /// The other's learner, where it is another.
    pub fn merged(mut self, other: Self) -> Result<Self, OtherLearner> {
        if self.learner != other.learner {
            return Err(OtherLearner(other.learner));
        }
        self.attempts.extend(other.attempts);
        self.aside.extend(other.aside);
        Ok(Self::new(self.learner, self.attempts, self.aside))
    }

    /// The record as its file, which [`read`] reads back equal.
    #[must_use]
    pub fn file(&self) -> String {
        #[derive(serde::Serialize)]
        struct File<'a> {
            format: &'static str,
            version: u32,
            #[serde(flatten)]
            record: &'a Record,
        }
        json(&File { format: FORMAT, version: VERSION, record: self })
    }
}

/// What is written of a thing; nothing in records can fail to be written.
fn json(thing: &impl serde::Serialize) -> String {
    serde_json::to_string(thing).unwrap_or_default()
}
