//! The records of a class: one of each learner, in however many files they come, as many as a table can be made of.

use super::{Allowed, Reason, Record};
use crate::{Class, Learner, class};
use std::collections::{BTreeMap, BTreeSet};

/// Most learners of a class.
const MOST_LEARNERS: usize = 500;
/// Most answers of all of them.
const MOST_ANSWERS: usize = 200_000;
/// Most objectives that these are about.
const MOST_OBJECTIVES: usize = 1_000;

/// Records taken in one by one, those of the same learner put together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Gathered(BTreeMap<Learner, Record>);

impl Gathered {
    /// Puts a record to what is known of its learner. In whatever order they come the result is the same, and one that
    /// comes twice counts once. Gives why parts of it stand aside: what did before, and what contradicts what is known.
    ///
    /// # Errors
    ///
    /// The bound of a class that it is beyond: nothing of it is taken. 500 learners, 200,000 answers, 1,000 objectives.
    pub fn add(&mut self, record: Record) -> Result<Vec<Reason>, Reason> {
        let learner = record.learner.clone();
        let known = self.0.get(&learner).cloned();
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
        if let Some(whole) = whole {
            self.has_room(&learner, &whole)?;
            self.0.insert(learner, whole);
        }
        Ok(told)
    }

    /// Whether a class may have what it has with `whole` as the record of `learner`.
    fn has_room(&self, learner: &Learner, whole: &Record) -> Result<(), Reason> {
        let all =
            || self.0.iter().filter(|(known, _)| *known != learner).map(|(_, record)| record).chain([whole]);
        let objectives =
            || all().flat_map(|record| &record.attempts).map(|attempt| attempt.objective.as_str());
        for (field, count, most) in [
            ("learners", all().count(), MOST_LEARNERS),
            ("attempts", all().map(|record| record.attempts.len()).sum(), MOST_ANSWERS),
            ("objectives", objectives().collect::<BTreeSet<_>>().len(), MOST_OBJECTIVES),
        ] {
            if count > most {
                return Err(Reason::new(field, &count.to_string(), Allowed::Items(most as u64)));
            }
        }
        Ok(())
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
