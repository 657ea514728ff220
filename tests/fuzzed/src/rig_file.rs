//! Any text as a rig file: read, complained of, solved. A rig that is read can be solved, and comes back by its keys; what is
//! wrong stands in the text and is told in words.

use crate::spoken::words;
use outlean_rig::Rig;
use outlean_rigfile::{Severity, entries_of, read, rig_of};

/// How often a rig may be said by its keys until it is said alike: paces on feet that are not square round.
const TURNS: usize = 3;

pub fn held(text: &str) {
    let (file, problems) = read(text);
    for problem in &problems {
        assert!(text.get(problem.span.clone()).is_some(), "{:?}", problem.span);
        let said = problem.said(words());
        assert!(!said.message.is_empty() && !said.message.starts_with("problem."), "{problem:?}");
    }
    let wrong = problems.iter().any(|problem| problem.severity == Severity::Error);
    assert_eq!(file.is_some(), !wrong);
    let Some(file) = file else { return };
    let solution = outlean_rig::solve(&file.rig).expect("a rig that was read has been solved once");
    assert!(solution.resultant.tipping_moment.is_finite());
    comes_back(&file.rig);
}

/// What is said of a rig by its keys is a rig, and one that is said the same way.
pub fn comes_back(rig: &Rig) {
    let mut now = said_again(rig);
    for _ in 0..TURNS {
        let again = said_again(&now);
        if again == now {
            return;
        }
        now = again;
    }
    let near = said_again(&now);
    let pairs = entries_of(&near).into_iter().zip(entries_of(&now));
    for ((key, again), (_, once)) in pairs {
        if let (outlean_rigfile::Value::Number(again), outlean_rigfile::Value::Number(once)) = (again, once) {
            assert!((again - once).abs() <= 1e-9 * once.abs().max(1.0), "{key}: {once}, then {again}");
        }
    }
}

fn said_again(rig: &Rig) -> Rig {
    let entries = entries_of(rig);
    let given: Vec<_> = entries.iter().map(|(key, value)| (key.as_str(), *value)).collect();
    rig_of(&given).unwrap_or_else(|why| panic!("what is said of a rig is none: {why:?}"))
}
