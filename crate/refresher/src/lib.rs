//! When what is due again, for the pages that ask: the refresher's and the record's. A module of its own, so that a lesson
//! does not load it. Only numbers and names cross; the rules are those of `outlean_course`, the day is passed in.

use outlean_course::{Attempt, Card, LENGTH, PASS, Score, due, outcome, pick, standings};
use wasm_bindgen::prelude::*;

/// The allocator, as in crate/widget.
#[cfg(target_arch = "wasm32")]
#[global_allocator]
static ALLOCATOR: rlsf::SmallGlobalTlsf = rlsf::SmallGlobalTlsf::new();

/// A learner's answers against what a course asks.
#[wasm_bindgen]
#[derive(Default)]
pub struct Refresher {
    cards: Vec<Card>,
    /// All answers, those of this refresher last.
    attempts: Vec<Attempt>,
    /// How many of them are this refresher's.
    answered: usize,
}

#[wasm_bindgen]
impl Refresher {
    /// No course and no answers yet.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Refresher {
        Self::default()
    }

    /// How many questions a refresher has.
    pub fn length() -> u32 {
        LENGTH as u32
    }

    /// The share right with which it is passed.
    pub fn pass() -> f64 {
        PASS
    }

    /// Adds a question of the course and the name of its objective, in the order of the course.
    pub fn card(&mut self, question: &str, objective: &str) {
        self.cards.push(Card { question: question.into(), objective: objective.into() });
    }

    /// Adds an answer that was kept: the question, whole seconds since 1970, seed, share right.
    pub fn kept(&mut self, question: &str, time: f64, seed: f64, share: f64) {
        let before = self.attempts.len() - self.answered;
        self.attempts.insert(before, attempt(question, time, seed, share));
    }

    /// Adds an answer of this refresher.
    pub fn answered(&mut self, question: &str, time: f64, seed: f64, share: f64) {
        self.attempts.push(attempt(question, time, seed, share));
        self.answered += 1;
    }

    /// What to ask on `today`, whole days since 1970: pairs of a card's place and the seed to draw its question by.
    pub fn pick(&self, today: u32, seed: u32) -> Vec<u32> {
        let picked = pick(&self.attempts, &self.cards, today.into(), LENGTH, seed.into());
        let place = |question: &str| self.cards.iter().position(|card| card.question == question);
        let pairs = picked.questions.iter().filter_map(|asked| {
            let place = place(&asked.question)?;
            Some([place as u32, asked.seed as u32])
        });
        pairs.flatten().collect()
    }

    /// How many answers are dated after `today`: the clock was wrong, then or now.
    pub fn ahead(&self, today: u32) -> u32 {
        self.standings(today).map(|standing| standing.ahead).fold(0, u32::saturating_add)
    }

    /// How many objectives are due on `today`.
    pub fn due(&self, today: u32) -> u32 {
        self.standings(today).filter(|standing| standing.is_due(today.into())).count() as u32
    }

    /// The day on which the first objective is due, in the past where one is overdue; 0 where nothing was answered.
    pub fn next(&self, today: u32) -> u32 {
        due(&self.attempts, &self.cards, today.into()).map_or(0, |day| u32::try_from(day).unwrap_or(u32::MAX))
    }

    /// What came of this refresher, which ends on `today`.
    pub fn end(&self, today: u32) -> Outcome {
        let (_, answered) = self.attempts.split_at(self.attempts.len() - self.answered);
        let end = outcome(answered, &self.attempts, &self.cards, today.into(), PASS);
        let place = |objective: &String| self.cards.iter().position(|card| card.objective == *objective);
        Outcome {
            share: end.share,
            passed: end.passed,
            next: u32::try_from(end.next).unwrap_or(u32::MAX),
            back_to: end.back_to.iter().filter_map(place).map(|place| place as u32).collect(),
        }
    }
}

impl Refresher {
    fn standings(&self, today: u32) -> impl Iterator<Item = outlean_course::Standing> {
        standings(&self.attempts, &self.cards, today.into()).into_iter().map(|(_, standing)| standing)
    }
}

/// What came of a refresher.
#[wasm_bindgen]
pub struct Outcome {
    /// The mean of its marks.
    pub share: f64,
    /// Whether that is enough.
    pub passed: bool,
    /// The day on which the next is due, whole days since 1970.
    pub next: u32,
    back_to: Vec<u32>,
}

#[wasm_bindgen]
impl Outcome {
    /// What to go back to: of each objective below the mark the place of its first card, in the order of the course.
    pub fn back_to(&self) -> Vec<u32> {
        self.back_to.clone()
    }
}

fn attempt(question: &str, time: f64, seed: f64, share: f64) -> Attempt {
    Attempt {
        time: time as u64,
        lesson: String::new(),
        question: question.into(),
        lesson_version: String::new(),
        seed: seed as u64,
        response: String::new(),
        mark: Score { share, verdict: String::new() },
        seconds: None,
        hints: None,
        objective: String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use outlean_course::DAY;

    const TODAY: u32 = 20_000;

    fn noon(day: u32) -> f64 {
        f64::from(day) * DAY as f64 + 43_200.0
    }

    fn course() -> Refresher {
        let mut refresher = Refresher::new();
        for (question, objective) in [("a", "one"), ("b", "one"), ("c", "two"), ("d", "three")] {
            refresher.card(question, objective);
        }
        refresher
    }

    #[test]
    fn what_is_picked_is_what_the_course_picks() {
        let mut refresher = course();
        refresher.kept("a", noon(TODAY - 2), 5.0, 0.0);
        refresher.kept("d", noon(TODAY - 1), 5.0, 1.0);
        let asked = pick(&refresher.attempts, &refresher.cards, TODAY.into(), LENGTH, 9).questions;
        let picked = refresher.pick(TODAY, 9);
        let (names, seeds): (Vec<&str>, Vec<u64>) = picked
            .chunks(2)
            .filter_map(|pair| {
                Some((*["a", "b", "c", "d"].get(*pair.first()? as usize)?, u64::from(*pair.get(1)?)))
            })
            .unzip();
        assert_eq!(names, asked.iter().map(|asked| asked.question.as_str()).collect::<Vec<_>>());
        assert_eq!(seeds, asked.iter().map(|asked| asked.seed).collect::<Vec<_>>());
        assert_eq!(
            names.first(),
            Some(&"b"),
            "the weak objective first, with the question asked longest ago"
        );
    }

    #[test]
    fn only_what_was_asked_in_it_says_how_it_went() {
        let mut refresher = course();
        refresher.answered("c", noon(TODAY), 1.0, 0.0);
        refresher.kept("a", noon(TODAY - 9), 1.0, 0.0);
        refresher.answered("d", noon(TODAY), 1.0, 1.0);
        let end = refresher.end(TODAY);
        assert_eq!((end.share, end.passed, end.back_to(), end.next), (0.5, false, vec![2], TODAY + 1));
        assert_eq!(refresher.due(TODAY), 1, "objective one has been due for days");
        assert_eq!(refresher.next(TODAY), TODAY - 8);
    }

    #[test]
    fn a_clock_that_was_ahead_is_counted_and_nothing_answered_is_due_never() {
        let mut refresher = course();
        assert_eq!((refresher.next(TODAY), refresher.due(TODAY), refresher.ahead(TODAY)), (0, 0, 0));
        refresher.kept("a", noon(TODAY + 40), 1.0, 1.0);
        assert_eq!((refresher.next(TODAY), refresher.ahead(TODAY)), (TODAY + 1, 1));
    }
}
