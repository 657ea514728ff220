//! Any text as a lesson: read, complained of. No panic, no hang; every complaint has a place in the text and something to
//! do about it, and what is read can be drawn, answered and marked.
#![no_main]

use libfuzzer_sys::fuzz_target;

#[allow(dead_code, reason = "a part of the native program, as it stands")]
#[path = "../../../crate/outlean/src/lesson/mod.rs"]
mod lesson;
#[allow(dead_code, reason = "as above")]
#[path = "../../../crate/outlean/src/words.rs"]
mod words;

fuzz_target!(|text: &str| {
    let rig = outlean_rigfile::read(include_str!("../../../crate/outlean/new-lesson/rig.toml")).0;
    let rig = rig.expect("the rig of a new lesson is right").rig;
    // Two seeds, not 200: the fuzzer's time is for other texts.
    match lesson::tried(text, &|name| (name == "rig.toml").then(|| rig.clone()), 2) {
        Ok(lesson) => {
            for block in &lesson.body {
                let lesson::Block::Question(block) = block else { continue };
                let drawn = block.template.draw(1).expect("it was tried on this seed");
                assert!(drawn.mark(&drawn.answer()).expect("an answer can be marked").right());
            }
        }
        Err(complaints) => {
            assert!(!complaints.is_empty());
            for complaint in complaints {
                assert!(complaint.span.start <= complaint.span.end && complaint.span.end <= text.len());
                assert!(!complaint.message.is_empty());
                assert!(complaint.hint.is_some_and(|hint| !hint.is_empty()));
            }
        }
    }
});
