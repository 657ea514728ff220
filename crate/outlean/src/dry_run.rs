//! A dry run of the refresher over the whole course: somebody studies it, is weak in two objectives, stays away for six months,
//! comes back, and is asked those first. Every answer is given to a question that was drawn, and marked as in a page.

use crate::course;
use crate::lesson::{Block, objective_anchor};
use outlean_course::{
    Attempt, Card, DAY, Drawn, LENGTH, PASS, Response, Score, Template, due, outcome, pick, standings,
};
use outlean_rigfile::Units;
use std::collections::BTreeMap;
use std::path::Path;

/// The course as a refresher sees it.
struct Whole {
    cards: Vec<Card>,
    templates: BTreeMap<String, (String, Template)>,
}

impl Whole {
    fn read() -> Self {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../lessons");
        let Ok(course) = course::read(&[folder]) else { panic!("the lessons cannot be read") };
        assert_eq!(course.errors, 0, "{}", course.said);
        let mut whole = Self { cards: Vec::new(), templates: BTreeMap::new() };
        for (name, lesson) in course.lessons {
            for block in lesson.body {
                let (template, about) = match block {
                    Block::Estimate(block) => (Template::Estimate(block.template), block.about),
                    Block::Question(block) => (block.template, block.about),
                    Block::Html(_) | Block::Figure { .. } | Block::Build(_) => continue,
                };
                let question = template.id().to_owned();
                let number = usize::try_from(about.objective).expect("a small number");
                // As www/due.js names it.
                let objective = format!("../{name}/#{}", objective_anchor(number));
                whole.cards.push(Card { question: question.clone(), objective });
                whole.templates.insert(question, (name.clone(), template));
            }
        }
        whole
    }

    /// The objectives, in the order of the course.
    fn objectives(&self) -> Vec<&str> {
        let mut all: Vec<&str> = Vec::new();
        for card in &self.cards {
            if all.last() != Some(&card.objective.as_str()) && !all.contains(&card.objective.as_str()) {
                all.push(&card.objective);
            }
        }
        all
    }

    /// How many questions an objective has.
    fn questions(&self, objective: &str) -> usize {
        self.cards.iter().filter(|card| card.objective == objective).count()
    }

    fn objective(&self, question: &str) -> &str {
        let card = self.cards.iter().find(|card| card.question == question);
        card.map_or("", |card| card.objective.as_str())
    }

    /// What the learner answers: what is right, but as wrong as it can be in a weak objective.
    fn answered(&self, question: &str, seed: u64, time: u64, weak: &[&str]) -> Attempt {
        let (lesson, template) = self.templates.get(question).expect("what is asked is in the course");
        let drawn = template.draw(seed).unwrap_or_else(|why| panic!("{question} of seed {seed}: {why:?}"));
        let objective = self.objective(question);
        let is_weak = weak.contains(&objective);
        let response = if is_weak { wrong(&drawn) } else { drawn.answer() };
        let mark = drawn.mark(&response).unwrap_or_else(|why| panic!("{question} of seed {seed}: {why:?}"));
        assert_eq!(mark.right(), !is_weak, "{question} of seed {seed}: {response:?}");
        assert!(!is_weak || mark.share() < PASS, "{question} of seed {seed}: {}", mark.share());
        Attempt {
            time,
            lesson: lesson.clone(),
            question: question.to_owned(),
            lesson_version: String::new(),
            seed,
            response: String::new(),
            mark: Score { share: mark.share(), verdict: mark.verdict().to_owned() },
            seconds: None,
            hints: None,
            objective: String::new(),
        }
    }

    /// A refresher on a day: what was asked, and how it was answered.
    fn sit(&self, record: &mut Vec<Attempt>, day: u64, weak: &[&str]) -> Vec<Attempt> {
        let picked = pick(record, &self.cards, day, LENGTH, day);
        assert_eq!(picked.questions.len(), LENGTH);
        let asked = picked.questions.iter().zip(0..);
        let answers =
            asked.map(|(asked, at)| self.answered(&asked.question, asked.seed, day * DAY + at, weak));
        let answers: Vec<Attempt> = answers.collect();
        record.extend(answers.iter().cloned());
        answers
    }
}

/// As wrong as it can be put.
fn wrong(drawn: &Drawn) -> Response {
    let but = |count: usize, right: Vec<usize>| (0..count).filter(|place| !right.contains(place)).collect();
    match (drawn, drawn.answer()) {
        // Nothing here weighs or measures so much.
        (Drawn::Estimate(_), _) => Response::Estimate("987654".to_owned(), Units::Metric),
        (Drawn::Choose(choose), Response::Choose(right)) => {
            // Of one that is to be picked another, of several all the others.
            let mut others: Vec<usize> = but(choose.options.len(), right);
            others.truncate(if choose.one { 1 } else { others.len() });
            Response::Choose(others)
        }
        (Drawn::Order(_), Response::Order(mut right)) => {
            right.reverse();
            Response::Order(right)
        }
        (Drawn::Faults(faults), Response::Faults(right)) => Response::Faults(but(faults.items.len(), right)),
        // It is left as it was.
        (Drawn::Set(set), _) => Response::Set(Box::new(set.rig.clone())),
        (_, right) => right,
    }
}

#[test]
fn who_is_weak_in_two_objectives_and_returns_after_six_months_is_asked_those_first() {
    let whole = Whole::read();
    let objectives = whole.objectives();
    let count = objectives.len();
    assert!(count >= 27, "{count} objectives");
    // Two neighbours, and two far apart.
    for (one, other) in [(3, 4), (count / 4, count - 1)] {
        let weak = [one, other].map(|at| objectives.get(at).copied().expect("it is there"));
        let mut record = Vec::new();
        // The course is studied, a lesson a day, every question once.
        let begun = 20_000;
        let mut days: Vec<&str> = Vec::new();
        for (at, card) in (0_u64..).zip(&whole.cards) {
            let lesson = whole.templates.get(&card.question).map_or("", |(lesson, _)| lesson);
            if !days.contains(&lesson) {
                days.push(lesson);
            }
            let day = begun + days.len() as u64;
            record.push(whole.answered(&card.question, at, day * DAY + at, &weak));
        }
        // And refreshed a few times while it is new.
        let mut last = begun + days.len() as u64;
        for wait in [1, 3, 8] {
            last += wait;
            let sat = whole.sit(&mut record, last, &weak);
            let told = outcome(&sat, &record, &whole.cards, last, PASS);
            let mut asked: Vec<&str> =
                objectives.iter().copied().filter(|each| weak.contains(each)).collect();
            asked.retain(|each| sat.iter().any(|attempt| whole.objective(&attempt.question) == *each));
            assert_eq!(told.back_to, asked, "what to go back to is what was weak and asked");
            assert!(told.next > last);
        }
        // Six months later everything is due.
        let back = last + 183;
        assert!(due(&record, &whole.cards, back).is_some_and(|day| day <= back));
        let standing = standings(&record, &whole.cards, back);
        assert!(standing.iter().all(|(_, standing)| standing.is_due(back)));
        for seed in 0..20 {
            let picked = pick(&record, &whole.cards, back, LENGTH, seed);
            let about: Vec<&str> =
                picked.questions.iter().map(|asked| whole.objective(&asked.question)).collect();
            // Two questions of each, where it has two.
            let wanted: Vec<&str> =
                weak.iter().flat_map(|each| vec![*each; whole.questions(each).min(2)]).collect();
            let (first, rest) = about.split_at(wanted.len());
            let mut first: Vec<&str> = first.to_vec();
            first.sort_by_key(|objective| objectives.iter().position(|each| each == objective));
            assert_eq!(first, wanted, "seed {seed}: {about:?}");
            let others = rest.iter().filter(|objective| !weak.contains(objective)).count();
            assert!(others >= 6, "the rest of the course is asked as well: {about:?}");
        }
        // Back in practice, all is answered, and what was weak is not due later than what was not.
        let sat = whole.sit(&mut record, back, &[]);
        let told = outcome(&sat, &record, &whole.cards, back, PASS);
        assert!(told.passed && told.back_to.is_empty());
        let of = |objective: &str| {
            let all = standings(&record, &whole.cards, back);
            all.into_iter()
                .find(|(each, _)| *each == objective)
                .map(|(_, standing)| standing)
                .expect("it is there")
        };
        for objective in weak {
            let others = sat
                .iter()
                .map(|attempt| whole.objective(&attempt.question))
                .filter(|each| !weak.contains(each));
            for other in others {
                assert!(of(objective).due <= of(other).due, "{objective} is due before {other}");
            }
        }
    }
}
