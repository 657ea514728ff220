//! One answer to one question, as it is kept.

/// Seconds of a day.
pub const DAY: u64 = 86_400;

/// Who answered: a name or a number, as the learner wrote it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(transparent)]
pub struct Learner(pub String);

/// What an answer was worth.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Score {
    /// From 0, nothing of it right, to 1, all of it.
    pub share: f64,
    /// What it was found to be, in small letters: `right`, `near`, `slip`…
    pub verdict: String,
}

/// One answer to one question. Nothing in it is ever changed.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Attempt {
    /// When it was given: whole seconds since 1970 began, UTC, by the clock of the machine that it was given on.
    pub time: u64,
    /// The folder of the lesson.
    pub lesson: String,
    /// The name of the question's template.
    pub question: String,
    /// The hash of what the lesson said; empty where it is not known.
    pub lesson_version: String,
    /// The seed that the question was drawn by.
    pub seed: u64,
    /// What was answered, untouched.
    pub response: String,
    /// What that was worth.
    pub mark: Score,
    /// Seconds from question to answer; `None` where it is not known.
    pub seconds: Option<u32>,
    /// Hints that were looked at; `None` where it is not known.
    pub hints: Option<u32>,
    /// The objective that the question is about; empty where it is not known.
    pub objective: String,
}

impl Attempt {
    /// The day it was given on, in whole days since 1970 began.
    #[must_use]
    pub const fn day(&self) -> u64 {
        self.time / DAY
    }
}
