//! Any text as a rig file: read, complained of, solved. No panic, no hang; a rig that is read can be solved, and what is
//! said of it holds only finite numbers.
#![no_main]

use libfuzzer_sys::fuzz_target;
use outlean_rigfile::{Severity, entries_of, read, rig_of};

fuzz_target!(|text: &str| {
    let (file, problems) = read(text);
    for problem in &problems {
        assert!(problem.span.start <= problem.span.end && problem.span.end <= text.len());
    }
    let wrong = problems.iter().any(|problem| problem.severity == Severity::Error);
    assert_eq!(file.is_some(), !wrong);
    let Some(file) = file else { return };
    let solution = outlean_rig::solve(&file.rig).expect("a rig that was read has been solved once");
    assert!(solution.resultant.tipping_moment.is_finite());
    let entries = entries_of(&file.rig);
    let given: Vec<_> = entries.iter().map(|(key, value)| (key.as_str(), *value)).collect();
    assert!(rig_of(&given).is_ok(), "what is said of a rig by its keys is a rig");
});
