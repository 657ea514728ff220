//! Any text as a plan that is opened; the first line says what is done on its page, `key=value` after `key=value`. The page never
//! holds anything but what is said: text goes back step by step, and what it answers is JSON.

use crate::spoken;
use outlean_planner::Planner;
use std::cell::RefCell;

/// Most entries that are made.
const MOST_MADE: usize = 4;

thread_local! {
    /// One page for all texts, as it would be: to give it its words takes longer than most plans.
    static PAGE: RefCell<Planner> = RefCell::new({
        let words: Vec<String> =
            spoken::pairs().iter().flat_map(|(key, word)| [key.clone(), word.clone()]).collect();
        Planner::new(words.clone(), words)
    });
}

pub fn held(text: &str) {
    let Some((made, text)) = text.split_once('\n') else { return };
    PAGE.with_borrow_mut(|planner| opened(planner, made, text));
}

fn opened(planner: &mut Planner, made: &str, text: &str) {
    while planner.step(true) {}
    planner.open(text);
    for (key, value) in made.split('&').filter_map(|entry| entry.split_once('=')).take(MOST_MADE) {
        let before = planner.text();
        if !planner.set(key, value) {
            assert_eq!(planner.text(), before, "refused and changed");
        }
        planner.rest();
    }
    is_json(&planner.form());
    let answer = is_json(&planner.answer());
    let problems = answer.get("problems").and_then(|problems| problems.as_array()).expect("a list");
    assert!(problems.iter().all(|problem| problem.get("message").is_some_and(|said| said != "")));
    let plan = answer.get("advice").is_some_and(serde_json::Value::is_string);
    for picture in [planner.side(400.0, 300.0, false), planner.ground(180.0, 100.0, true)] {
        assert!(
            picture.is_empty()
                || (plan && picture.starts_with("<svg") && picture.trim_end().ends_with("</svg>"))
        );
    }
    if plan && planner.propose(0) {
        assert!(is_json(&planner.answer()).get("advice").is_some_and(serde_json::Value::is_string));
    }
    let last = planner.text();
    let mut back = 0;
    while planner.step(true) {
        back += 1;
    }
    assert_eq!(planner.text(), planner.start());
    for _ in 0..back {
        assert!(planner.step(false));
    }
    assert_eq!(planner.text(), last);
}

fn is_json(text: &str) -> serde_json::Value {
    serde_json::from_str(text).unwrap_or_else(|why| panic!("{why}: {text}"))
}
