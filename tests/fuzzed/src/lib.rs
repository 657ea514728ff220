//! What is held of every input that comes from outside, one function an input: the fuzz targets call it on what they make up,
//! `tests/replay.rs` on what they kept. It panics where something is amiss.

#![allow(clippy::expect_used, clippy::panic, reason = "what is amiss is told by a panic")]

mod answer;
mod class;
mod edit;
mod figure;
#[allow(dead_code, unused_imports, reason = "a part of the native program, as it stands")]
#[path = "../../../crate/outlean/src/lesson/mod.rs"]
mod lesson;
mod lessons;
mod link;
mod plan;
mod record;
mod rig_file;
mod solver;
mod spoken;
#[allow(dead_code, reason = "as above")]
#[path = "../../../crate/outlean/src/words.rs"]
mod words;

/// Something from outside, as bytes.
pub type Target = (&'static str, fn(&[u8]));

/// Every target, by its name.
pub const TARGETS: [Target; 10] = [
    ("answer", answer),
    ("class", class),
    ("edit", edit),
    ("figure", figure),
    ("lesson", lesson),
    ("link", link),
    ("plan", plan),
    ("record", record),
    ("rig_file", rig_file),
    ("solver", solver),
];

/// Answers and entries of a form as they are typed.
pub fn answer(data: &[u8]) {
    text(data, answer::held);
}

/// Records of a class, file after file.
pub fn class(data: &[u8]) {
    text(data, class::held);
}

/// Values written into a rig file.
pub fn edit(data: &[u8]) {
    text(data, edit::held);
}

/// What is done to a figure, in any order.
pub fn figure(data: &[u8]) {
    text(data, figure::held);
}

/// A lesson or its translation.
pub fn lesson(data: &[u8]) {
    text(data, lessons::held);
}

/// The rig in an address.
pub fn link(data: &[u8]) {
    text(data, link::held);
}

/// A plan, opened and written on.
pub fn plan(data: &[u8]) {
    text(data, plan::held);
}

/// A learner's record.
pub fn record(data: &[u8]) {
    text(data, record::held);
}

/// A rig file.
pub fn rig_file(data: &[u8]) {
    text(data, rig_file::held);
}

/// Any numbers in any rig.
pub fn solver(data: &[u8]) {
    solver::held(data);
}

/// Files that are no text are refused before they are read.
fn text(data: &[u8], held: impl Fn(&str)) {
    if let Ok(text) = core::str::from_utf8(data) {
        held(text);
    }
}
