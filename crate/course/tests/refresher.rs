//! When an objective is due again, what a refresher asks, what comes of it.

use outlean_course::{
    Attempt, Card, DAY, INTERVALS, PASS, Score, Standing, outcome, passes, pick, standing, standings,
};
use proptest::prelude::*;
use std::collections::BTreeSet;

const OBJECTIVES: usize = 6;
const EACH: usize = 4;

/// A course of six objectives with four questions each.
fn cards() -> Vec<Card> {
    let card = |at: usize| Card {
        question: format!("q{}-{}", at / EACH, at % EACH),
        objective: format!("objective {}", at / EACH),
    };
    (0..OBJECTIVES * EACH).map(card).collect()
}

fn attempt(day: u64, second: u64, question: &str, share: f64) -> Attempt {
    Attempt {
        time: day * DAY + second,
        lesson: "l".into(),
        question: question.into(),
        lesson_version: String::new(),
        seed: 1,
        response: String::new(),
        mark: Score { share, verdict: "x".into() },
        seconds: None,
        hints: None,
        objective: String::new(),
    }
}

fn objective_of(question: &str) -> usize {
    usize::from(question.as_bytes().get(1).map_or(0, |digit| digit - b'0'))
}

/// Asks a refresher on a day and answers it as somebody who cannot do objectives 1 and 4.
fn sit(record: &mut Vec<Attempt>, day: u64, count: usize) -> Vec<Attempt> {
    let asked = pick(record, &cards(), day, count, day);
    let answered: Vec<Attempt> = asked
        .questions
        .iter()
        .zip(0..)
        .map(|(asked, at)| {
            let weak = [1, 4].contains(&objective_of(&asked.question));
            attempt(day, at, &asked.question, if weak { 0.0 } else { 1.0 })
        })
        .collect();
    record.extend(answered.clone());
    answered
}

#[test]
fn weak_in_two_objectives_and_back_after_six_months() {
    let mut record = Vec::new();
    let start = 20_000;
    let first = sit(&mut record, start, 12);
    assert_eq!(first.len(), 12);
    let end = outcome(&first, &record, &cards(), start, PASS);
    assert_eq!(end.back_to, ["objective 1", "objective 4"]);
    assert!(!end.passed);
    assert_eq!(end.next, start + 1, "what was wrong is due tomorrow");
    for day in [1, 2, 5, 13] {
        sit(&mut record, start + day, 6);
    }
    // Half a year later.
    let day = start + 195;
    let again = pick(&record, &cards(), day, 8, 3);
    let about: Vec<usize> = again.questions.iter().map(|asked| objective_of(&asked.question)).collect();
    assert_eq!(about[..4], [1, 1, 4, 4], "the weak ones first, two of each: {about:?}");
    assert_eq!(again.questions.len(), 8);
    assert_eq!(
        about.iter().collect::<BTreeSet<_>>().len(),
        6,
        "and all others, which are due too: {about:?}"
    );
}

#[test]
fn the_boxes() {
    let mut known = Standing::default();
    let mut day = 100;
    for (at, interval) in INTERVALS.into_iter().enumerate() {
        known = known.after(1.0, day);
        assert_eq!((usize::from(known.level), known.due), (at + 1, day + interval));
        let crammed = known.clone().after(1.0, known.due - 1);
        assert_eq!((crammed.level, crammed.due), (known.level, known.due), "cramming wins no time");
        day = known.due;
    }
    assert_eq!(known.clone().after(1.0, day).due, day + 180, "the last box is the last");
    let near = known.clone().after(0.5, day);
    assert_eq!((near.level, near.due), (6, day + 180));
    let wrong = known.after(0.0, day - 50);
    assert_eq!((wrong.level, wrong.due), (1, day - 49), "wrong counts on any day");
    let mended = wrong.after(1.0, day - 50);
    assert_eq!((mended.level, mended.due), (1, day - 49), "but not mended on the same");
}

#[test]
fn a_clock_that_was_wrong_is_told_and_does_no_harm() {
    let record =
        [attempt(500, 0, "q0-0", 1.0), attempt(9_000, 0, "q0-1", 1.0), attempt(9_001, 0, "q1-0", 0.0)];
    let today = 501;
    let picked = pick(&record, &cards(), today, 24, 1);
    assert_eq!(picked.ahead, 2);
    assert_eq!(picked.questions.len(), 24);
    for (_, standing) in standings(&record, &cards(), today) {
        assert!(standing.due <= today + 180 && standing.last <= today, "{standing:?}");
    }
}

fn records() -> impl Strategy<Value = Vec<Attempt>> {
    let one = (0..400_u64, 0..100_u64, 0..OBJECTIVES, 0..EACH, prop_oneof![Just(0.0), Just(0.5), Just(1.0)]);
    prop::collection::vec(
        one.prop_map(|(day, second, o, q, share)| attempt(day, second, &format!("q{o}-{q}"), share)),
        0..60,
    )
}

proptest! {
    #[test]
    fn a_refresher((record, today, count, seed) in (records(), 0..420_u64, 0..30_usize, any::<u64>())) {
        let cards = cards();
        let picked = pick(&record, &cards, today, count, seed);
        prop_assert_eq!(&picked, &pick(&record, &cards, today, count, seed));
        let mut turned = record.clone();
        turned.reverse();
        prop_assert_eq!(&picked, &pick(&turned, &cards, today, count, seed), "the order of the file is nothing");
        prop_assert_eq!(picked.questions.len(), count.min(cards.len()));
        let names: BTreeSet<&str> = picked.questions.iter().map(|asked| asked.question.as_str()).collect();
        prop_assert_eq!(names.len(), picked.questions.len());
        prop_assert!(picked.questions.iter().all(|asked| asked.seed < 1_000_000));
        // What is due comes before what is new, and that before the rest.
        let of = |question: &str| {
            let name = format!("objective {}", objective_of(question));
            let all = standings(&record, &cards, today);
            let standing = all.into_iter().find(|(known, _)| *known == name).unwrap().1;
            if standing.is_due(today) { 0 } else if standing.level == 0 { 1 } else { 2 }
        };
        let groups: Vec<i32> = picked.questions.iter().map(|asked| of(&asked.question)).collect();
        prop_assert!(groups.is_sorted(), "{:?}", groups);
    }

    #[test]
    fn a_standing((record, today) in (records(), 0..500_u64)) {
        let stands = standing(&record, today);
        let mut turned = record.clone();
        turned.reverse();
        prop_assert_eq!(&stands, &standing(&turned, today));
        prop_assert_eq!(stands.attempts as usize, record.len());
        prop_assert_eq!(stands.level == 0, record.is_empty());
        if let Some(last) = record.iter().map(|each| each.day().min(today)).max() {
            prop_assert!(stands.due > 0 && stands.due <= last + 180);
            prop_assert_eq!(stands.last, last);
            // One more right answer on its day is never asked again sooner; a wrong one always the next day.
            let day = stands.due.max(today);
            prop_assert!(stands.clone().after(1.0, day).due >= day + stands.interval());
            prop_assert_eq!(stands.after(0.0, day).due, day + 1);
        }
    }

    #[test]
    fn the_next_one_is_never_today_and_never_beyond_half_a_year((record, today) in (records(), 0..500_u64)) {
        let end = outcome(&record, &record, &cards(), today, PASS);
        prop_assert!(end.next > today && end.next <= today + 180);
        prop_assert_eq!(end.passed, !record.is_empty() && passes(end.share, PASS));
        let none = outcome(&[], &record, &cards(), today, PASS);
        prop_assert!(!none.passed && none.back_to.is_empty());
    }
}

#[test]
fn the_mark_itself_passes_however_it_is_summed() {
    let cards: Vec<Card> =
        (0..12).map(|at| Card { question: format!("q{at}"), objective: "one".into() }).collect();
    let sat = |marks: [f64; 12]| -> Vec<Attempt> {
        (0..).zip(marks).map(|(at, share)| attempt(20_000, at, &format!("q{at}"), share)).collect()
    };
    let mut marks = [1.0; 12];
    marks[9..].copy_from_slice(&[0.6, 0.0, 0.0]);
    let record = sat(marks);
    let end = outcome(&record, &record, &cards, 20_000, PASS);
    assert!(end.share < PASS, "{}: the sum of this is a little less", end.share);
    assert!(end.passed && end.back_to.is_empty(), "{end:?}");
    marks[9] = 0.59;
    let record = sat(marks);
    let end = outcome(&record, &record, &cards, 20_000, PASS);
    assert_eq!((end.passed, end.back_to), (false, vec!["one".to_owned()]));
}
