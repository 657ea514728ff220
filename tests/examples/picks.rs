//! `picks [COUNT [FIRST_SEED]]`: random courses with random answers to them, and what a refresher of each asks, as JSON.
//!
//! Prints a list with one to a line: `cards`, pairs of a question and its objective; `kept` and `answered`, answers before and
//! in this refresher, each question, time, seed, share right; `today` and `seed`; and in `picked` all that the native program
//! says of them. Numbers are the shortest that parse back to the same bits. COUNT is 1000 unless given, FIRST_SEED 0.

use outlean_course::{Attempt, Card, DAY, LENGTH, PASS, Score, due, outcome, pick, standings};
use outlean_tests::random::Draw;
use serde_json::{Value, json};
use std::io::{BufWriter, Write};
use std::process::ExitCode;

fn main() -> ExitCode {
    let mut numbers = [1000, 0];
    for (place, word) in std::env::args().skip(1).enumerate() {
        match (numbers.get_mut(place), word.parse::<u64>()) {
            (Some(number), Ok(value)) => *number = value,
            _ => {
                eprintln!("`{word}` is not expected; usage: picks [COUNT [FIRST_SEED]], whole numbers");
                return ExitCode::from(2);
            }
        }
    }
    let [count, first] = numbers;
    let mut out = BufWriter::new(std::io::stdout().lock());
    let mut print = || -> std::io::Result<()> {
        for seed in first..first.saturating_add(count) {
            out.write_all(if seed == first { b"[" } else { b",\n" })?;
            serde_json::to_writer(&mut out, &vector(seed))?;
        }
        out.write_all(if count == 0 { b"[]\n" } else { b"]\n" })?;
        out.flush()
    };
    match print() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

/// A course of up to forty objectives with up to three questions each, and answers over about two years.
fn vector(seed: u64) -> Value {
    let mut draw = Draw::new(seed);
    let objectives = 1 + draw.one_of(40);
    let mut cards = Vec::new();
    for objective in 0..objectives {
        for _ in 0..=draw.one_of(3) {
            // One in forty stands for two objectives: its name is drawn again.
            let number = if draw.chance(0.025) { draw.one_of(10) } else { cards.len() as u32 };
            cards.push(Card { question: format!("q{number}"), objective: format!("o{objective}") });
        }
    }
    let today = 20_000 + draw.one_of(3000);
    // Some learners know much, some little.
    let able = draw.unit();
    let answer = |from: u32, days: u32, draw: &mut Draw| {
        let place = draw.one_of(cards.len() as u32 + 1) as usize;
        // One that the course does not have, now and then.
        let question = cards.get(place).map_or("gone".to_owned(), |card| card.question.clone());
        let share = match draw.one_of(4) {
            0 => [0.0, 0.5, 0.8, 1.0 / 3.0, 2.0 / 3.0].get(draw.one_of(5) as usize).copied().unwrap_or(0.0),
            1 => draw.unit(),
            _ => f64::from(u8::from(draw.chance(able))),
        };
        let day = u64::from(from + draw.one_of(days));
        // Several a day at times, and the same second.
        let time = day * DAY + u64::from(draw.one_of(4)) * 20_000;
        Attempt {
            time,
            lesson: String::new(),
            question,
            lesson_version: String::new(),
            seed: draw.one_of(1_000_000).into(),
            response: String::new(),
            mark: Score { share, verdict: String::new() },
            seconds: None,
            hints: None,
            objective: String::new(),
        }
    };
    // Dated up to twenty days after today where the clock was wrong, in one record of four.
    let days = if draw.chance(0.25) { 720 } else { 700 };
    let kept: Vec<Attempt> = (0..draw.one_of(160)).map(|_| answer(today - 699, days, &mut draw)).collect();
    let answered: Vec<Attempt> = (0..draw.one_of(13)).map(|_| answer(today, 1, &mut draw)).collect();
    let by = draw.one_of(u32::MAX);

    let all: Vec<Attempt> = kept.iter().chain(&answered).cloned().collect();
    let day = u64::from(today);
    let asked = pick(&all, &cards, day, LENGTH, by.into());
    let end = outcome(&answered, &all, &cards, day, PASS);
    let standings = standings(&all, &cards, day);
    let of = |attempts: &[Attempt]| -> Vec<Value> {
        attempts.iter().map(|each| json!([each.question, each.time, each.seed, each.mark.share])).collect()
    };
    json!({
        "cards": cards.iter().map(|card| [&card.question, &card.objective]).collect::<Vec<_>>(),
        "kept": of(&kept),
        "answered": of(&answered),
        "today": today,
        "seed": by,
        "picked": {
            "questions": asked.questions.iter().map(|asked| json!([asked.question, asked.seed])).collect::<Vec<_>>(),
            "ahead": asked.ahead,
            "due": standings.iter().filter(|(_, standing)| standing.is_due(day)).count(),
            "next": due(&all, &cards, day).unwrap_or(0),
            "share": end.share,
            "passed": end.passed,
            "back_to": end.back_to,
            "after": end.next,
        },
    })
}
