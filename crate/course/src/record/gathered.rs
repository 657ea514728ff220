//! The records of a class: one of each learner, in however many files they come.

use super::{Reason, Record};
use crate::{Class, Learner, class};
use std::collections::BTreeMap;

/// Records taken in one by one, those of the same learner put together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Gathered(BTreeMap<Learner, Record>);

impl Gathered {
    /// Puts a record to what is known of its learner. In whatever order they come the result is the same, and one that
    /// comes twice counts once. Gives why parts of it stand aside: what did before, and what contradicts what is known.
    pub fn add(&mut self, record: Record) -> Vec<Reason> {
        let learner = record.learner.clone();
        let known = self.0.remove(&learner);
        let before = known.as_ref().map_or(Vec::new(), |known| known.aside.clone());
        let stood = record.aside.clone();
        let whole = match known {
            // The learner is the same: they always go together.
            Some(known) => known.merged(record).ok(),
            None => Some(record),
        };
        let after = whole.iter().flat_map(|whole| &whole.aside);
        let new = after.filter(|each| !before.contains(each) && !stood.contains(each));
        let told = stood.iter().chain(new).map(|each| each.why.clone()).collect();
        self.0.extend(whole.map(|whole| (learner, whole)));
        told
    }

    /// One record of each learner, in order of the alphabet.
    pub fn records(&self) -> impl Iterator<Item = &Record> {
        self.0.values()
    }

    /// What they come to, by objective.
    #[must_use]
    pub fn table(&self) -> Class {
        let given: Vec<_> =
            self.records().map(|record| (&record.learner, record.attempts.as_slice())).collect();
        class(&given)
    }
}
