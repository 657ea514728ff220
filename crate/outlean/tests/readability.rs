//! The lessons are read easily: no sentence is too long, no section too hard. `outlean check` warns of both, with file and line.

#![expect(clippy::expect_used, reason = "a test that cannot read its files has failed")]

use std::fs;
use std::path::Path;
use std::process::Command;

/// What `outlean check` says of lessons.
fn checked(lessons: &Path) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_outlean"))
        .arg("check")
        .arg(lessons)
        .output()
        .expect("the program runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stderr).expect("text")
}

#[test]
fn the_lessons_are_easily_read() {
    let said = checked(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../lessons"));
    let hard: Vec<&str> = said
        .split("\n\n")
        .filter(|warning| warning.contains("this sentence has") || warning.contains("reads at grade"))
        .collect();
    assert!(hard.is_empty(), "{}", hard.join("\n\n"));
}

#[test]
fn a_hard_sentence_is_a_warning_with_its_line() {
    let lesson = Path::new(env!("CARGO_TARGET_TMPDIR")).join("readability/01-long");
    fs::create_dir_all(&lesson).expect("the folder can be made");
    let text = include_str!("../new-lesson/lesson.md").replace("NAME", "long");
    let line = text.lines().count() + 2;
    fs::write(lesson.join("lesson.md"), format!("{text}\nIt goes{}.\n", " on".repeat(60))).expect("writable");
    fs::write(lesson.join("rig.toml"), include_str!("../new-lesson/rig.toml")).expect("writable");
    let said = checked(&lesson);
    for part in ["warning: this sentence has 62 words", &format!("01-long/lesson.md:{line}:1"), "at most 30"]
    {
        assert!(said.contains(part), "{part} in\n{said}");
    }
}
