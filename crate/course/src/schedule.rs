//! When an objective is due again: boxes with whole-day intervals.
//!
//! After S. Leitner, "So lernt man lernen" (Herder, Freiburg 1972; from memory): what was known moves up a box and is
//! asked after a longer time, what was not goes back to the first. The intervals are ours: about two and a half times the one
//! before, up to half a year, since skill on a rope is refreshed yearly or half-yearly (common practice).

use crate::{Attempt, Card};

/// Days until what is in a box is asked again, from the first box on.
pub const INTERVALS: [u64; 6] = [1, 3, 8, 20, 60, 180];

/// How many of the latest marks say how well an objective is known.
const LATEST: usize = 5;

/// How an objective stands with a learner.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Standing {
    /// The box that it is in, from 1; 0 while it was never answered.
    pub level: u8,
    /// The day it is due; 0 while it was never answered.
    pub due: u64,
    /// The latest marks, at most five, oldest first.
    pub latest: Vec<f64>,
    /// Answers so far.
    pub attempts: u32,
    /// The day of the last of them.
    pub last: u64,
    /// Answers dated after today. They count as today's.
    pub ahead: u32,
}

impl Standing {
    /// Days from an answer to when this is due again.
    #[must_use]
    pub fn interval(&self) -> u64 {
        let at = usize::from(self.level).saturating_sub(1);
        INTERVALS.get(at).or(INTERVALS.last()).copied().unwrap_or(1)
    }

    /// Whether it is to be asked: answered before, and its day has come.
    #[must_use]
    pub const fn is_due(&self, today: u64) -> bool {
        self.level > 0 && self.due <= today
    }

    /// The mean of the latest marks; 1 where there are none.
    #[must_use]
    pub fn share(&self) -> f64 {
        if self.latest.is_empty() {
            return 1.0;
        }
        self.latest.iter().sum::<f64>() / self.latest.len() as f64
    }

    /// How it stands after an answer on `day` worth `share`.
    ///
    /// Less than half sends it to the first box, whenever that is. New, it goes into the first box. Due, right (1) moves it up a
    /// box and half or more leaves it in its box; either way for the box's interval from `day` on. Before its day half or
    /// more changes neither box nor day, so that cramming wins no time.
    #[must_use]
    pub fn after(mut self, share: f64, day: u64) -> Self {
        let first = self.level == 0;
        if share < 0.5 {
            self.level = 1;
            self.due = day.saturating_add(self.interval());
        } else if first || self.is_due(day) {
            let up = u8::from(share >= 1.0 || first);
            self.level = (self.level + up).min(INTERVALS.len() as u8);
            self.due = day.saturating_add(self.interval());
        }
        if self.latest.len() == LATEST {
            self.latest.remove(0);
        }
        self.latest.push(share);
        self.attempts = self.attempts.saturating_add(1);
        self.last = self.last.max(day);
        self
    }
}

/// How an objective stands on `today`, after these attempts at it, in whatever order they are.
///
/// A clock that was wrong dates some after today: those count as today's, and [`Standing::ahead`] says how many.
#[must_use]
pub fn standing<'a>(attempts: impl IntoIterator<Item = &'a Attempt>, today: u64) -> Standing {
    let mut all: Vec<&Attempt> = attempts.into_iter().collect();
    let name = |attempt: &Attempt| (attempt.time, attempt.question.clone(), attempt.seed);
    all.sort_by(|a, b| name(a).cmp(&name(b)).then(a.mark.share.total_cmp(&b.mark.share)));
    let mut standing = Standing::default();
    for attempt in all {
        standing.ahead += u32::from(attempt.day() > today);
        standing = standing.after(attempt.mark.share, attempt.day().min(today));
    }
    standing
}

/// How every objective of the course stands, in the order in which the cards name them. An attempt belongs to the
/// objective that the course now gives its question; one at a question that the course no longer has counts nowhere.
#[must_use]
pub fn standings<'a>(attempts: &[Attempt], cards: &'a [Card], today: u64) -> Vec<(&'a str, Standing)> {
    let mut all: Vec<(&str, Standing)> = Vec::new();
    for card in cards {
        let objective = card.objective.as_str();
        if all.iter().all(|(known, _)| *known != objective) {
            let about = |attempt: &&Attempt| {
                cards.iter().any(|card| card.objective == objective && card.question == attempt.question)
            };
            all.push((objective, standing(attempts.iter().filter(about), today)));
        }
    }
    all
}
