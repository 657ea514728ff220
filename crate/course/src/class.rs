//! Many learners side by side, by objective.

use crate::{Attempt, Learner, PASS, passes};
use std::collections::{BTreeMap, BTreeSet};

/// A class table.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Class {
    /// The objectives in order of the alphabet: the columns. An empty one stands for attempts whose objective is not known.
    pub objectives: Vec<String>,
    /// The learners in order of the alphabet.
    pub learners: Vec<Row>,
}

/// A learner in a class table.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Row {
    /// Who.
    pub learner: Learner,
    /// As many as there are objectives, in their order; `None` where nothing was answered.
    pub cells: Vec<Option<Cell>>,
}

/// What a learner answered about one objective.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Cell {
    /// How many answers.
    pub attempts: u32,
    /// The mean of their marks, 0 to 1.
    pub share: f64,
    /// When the last was given: seconds since 1970 began.
    pub last: u64,
}

impl Cell {
    /// The share in whole per cent, a half as the next above, as people read it; one that does not pass stands below the pass
    /// mark, however near it comes, as on the class page (www/share.js).
    #[must_use]
    pub fn percent(&self) -> u32 {
        let whole = |share: f64| (share * 100.0 + 0.5) as u32;
        let near = whole(self.share);
        if passes(self.share, PASS) { near } else { near.min(whole(PASS).saturating_sub(1)) }
    }
}

/// The table of all these learners' attempts. A learner may come more than once.
#[must_use]
pub fn class(records: &[(&Learner, &[Attempt])]) -> Class {
    let objectives: BTreeSet<&str> = records
        .iter()
        .flat_map(|(_, attempts)| attempts.iter().map(|attempt| attempt.objective.as_str()))
        .collect();
    let mut of: BTreeMap<&Learner, Vec<&Attempt>> = BTreeMap::new();
    for (learner, attempts) in records {
        of.entry(learner).or_default().extend(attempts.iter());
    }
    let learners = of
        .into_iter()
        .map(|(learner, attempts)| {
            let cells = objectives.iter().map(|objective| cell(&attempts, objective)).collect();
            Row { learner: learner.clone(), cells }
        })
        .collect();
    Class { objectives: objectives.into_iter().map(str::to_owned).collect(), learners }
}

fn cell(attempts: &[&Attempt], objective: &str) -> Option<Cell> {
    let about = || attempts.iter().filter(|attempt| attempt.objective == objective);
    let last = about().map(|attempt| attempt.time).max()?;
    let count = about().count();
    let share = about().map(|attempt| attempt.mark.share).sum::<f64>() / count as f64;
    Some(Cell { attempts: u32::try_from(count).unwrap_or(u32::MAX), share, last })
}
