//! A refresher: mixed questions from the whole course, what is overdue first, and what comes of them.

use crate::{Attempt, Generator, Standing, standings};

/// How many questions a refresher has, where nothing else is asked for.
pub const LENGTH: usize = 12;
/// The share right with which a refresher, or an objective in it, is passed.
pub const PASS: f64 = 0.8;

/// Whether a mean of marks, 0 to 1, is enough for a pass mark, 0 to 1. The mean is held against it to four places, as a learning
/// system is told it (www/lms-state.js): a mean that is the mark but for rounding passes.
#[must_use]
pub fn passes(share: f64, pass: f64) -> bool {
    (share * 1e4).round() / 1e4 >= pass
}

/// A question that the course has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Card {
    /// The name of its template.
    pub question: String,
    /// What it is about.
    pub objective: String,
}

/// A question to ask.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    /// The name of its template.
    pub question: String,
    /// The seed to draw it by, below a million.
    pub seed: u64,
}

/// What a refresher asks.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Picked {
    /// The questions in order, no template twice. Fewer than were asked for only where the course has no more.
    pub questions: Vec<Asked>,
    /// Attempts dated after today, from a clock that was wrong.
    pub ahead: u32,
}

/// What to ask on `today`, `count` questions at most: the same for the same record, day and seed on every machine.
///
/// First what is due, the weakest first and, of equally weak ones, the longest due; every objective in turn, one that
/// stands below the pass mark with two questions a turn. Then, if there is room, objectives never asked, in the order
/// of the course. Then what is due next. Of an objective's questions the one asked longest ago comes first.
#[must_use]
pub fn pick(attempts: &[Attempt], cards: &[Card], today: u64, count: usize, seed: u64) -> Picked {
    let mut generator = Generator::new(seed, "refresher");
    let all = standings(attempts, cards, today);
    let ahead = all.iter().fold(0_u32, |sum, (_, standing)| sum.saturating_add(standing.ahead));
    let mut ranked: Vec<(usize, &(&str, Standing))> = all.iter().enumerate().collect();
    let group = |standing: &Standing| match standing {
        due if due.is_due(today) => 0_u8,
        new if new.level == 0 => 1,
        _ => 2,
    };
    ranked.sort_by(|(a_at, (_, a)), (b_at, (_, b))| {
        let group_first = group(a).cmp(&group(b));
        group_first.then(a.share().total_cmp(&b.share())).then(a.due.cmp(&b.due)).then(a_at.cmp(b_at))
    });
    let mut questions: Vec<Asked> = Vec::new();
    for wanted in 0..=2 {
        let of_group = ranked.iter().filter(|(_, (_, standing))| group(standing) == wanted);
        let mut stacks: Vec<(usize, Vec<&str>)> = of_group
            .map(|(_, (objective, standing))| {
                let turn = if passes(standing.share(), PASS) { 1 } else { 2 };
                (turn, stack(attempts, cards, objective, &mut generator))
            })
            .collect();
        while questions.len() < count && stacks.iter().any(|(_, stack)| !stack.is_empty()) {
            for (turn, stack) in &mut stacks {
                for _ in 0..*turn {
                    if questions.len() < count
                        && let Some(question) = stack.pop()
                    {
                        let seed = generator.below(1_000_000).into();
                        questions.push(Asked { question: question.to_owned(), seed });
                    }
                }
            }
        }
    }
    Picked { questions, ahead }
}

/// The questions of an objective, the one asked longest ago last; by chance where they were asked on the same day.
fn stack<'a>(
    attempts: &[Attempt],
    cards: &'a [Card],
    objective: &str,
    generator: &mut Generator,
) -> Vec<&'a str> {
    let mut names: Vec<&str> = Vec::new();
    for card in cards.iter().filter(|card| card.objective == objective) {
        if !names.contains(&card.question.as_str()) {
            names.push(&card.question);
        }
    }
    let mut stack: Vec<(Option<u64>, u32, &str)> = names
        .into_iter()
        .map(|name| {
            let days = attempts.iter().filter(|attempt| attempt.question == name).map(Attempt::day);
            (days.max(), generator.below(u32::MAX), name)
        })
        .collect();
    stack.sort_unstable_by(|a, b| b.cmp(a));
    stack.into_iter().map(|(_, _, name)| name).collect()
}

/// The day on which the first objective is due, in the past where one is overdue; `None` where nothing was answered.
#[must_use]
pub fn due(attempts: &[Attempt], cards: &[Card], today: u64) -> Option<u64> {
    let all = standings(attempts, cards, today);
    all.iter().filter(|(_, standing)| standing.level > 0).map(|(_, standing)| standing.due).min()
}

/// What came of a refresher.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// The mean of its marks; 0 where nothing was answered.
    pub share: f64,
    /// Whether that is enough.
    pub passed: bool,
    /// The objectives below the pass mark in it, in the order of the course: what to go back to.
    pub back_to: Vec<String>,
    /// The day the next refresher is due: when the first objective is, but not before tomorrow.
    pub next: u64,
}

/// What came of a refresher that ended on `today`. `answered` are its attempts, `attempts` all that there are, with them.
#[must_use]
pub fn outcome(answered: &[Attempt], attempts: &[Attempt], cards: &[Card], today: u64, pass: f64) -> Outcome {
    let mean = |marks: &[f64]| {
        if marks.is_empty() { 0.0 } else { marks.iter().sum::<f64>() / marks.len() as f64 }
    };
    let marks = |objective: Option<&str>| -> Vec<f64> {
        let about = |attempt: &&Attempt| {
            objective.is_none_or(|objective| {
                cards.iter().any(|card| card.objective == objective && card.question == attempt.question)
            })
        };
        answered.iter().filter(about).map(|attempt| attempt.mark.share).collect()
    };
    let share = mean(&marks(None));
    let all = standings(attempts, cards, today);
    let below = |objective: &str| {
        let marks = marks(Some(objective));
        !marks.is_empty() && !passes(mean(&marks), pass)
    };
    let tomorrow = today.saturating_add(1);
    Outcome {
        share,
        passed: !answered.is_empty() && passes(share, pass),
        back_to: all.iter().map(|(name, _)| *name).filter(|name| below(name)).map(str::to_owned).collect(),
        next: due(attempts, cards, today).unwrap_or(tomorrow).max(tomorrow),
    }
}
