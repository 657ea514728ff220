//! The wrong file is the test: each file in `tests/wrong` must give exactly the problems beside it in `.txt`,
//! each with its place, the words marked and the hint. `OUTLEAN_BLESS=1` writes them anew, to be read by eye.

#![expect(clippy::expect_used, reason = "a test that cannot read its files has failed")]

use outlean_rigfile::{JOB, JOB_TEXTS, LEAN_AGAIN, Severity, What, Words, choices, fields, read};
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

fn words() -> Words {
    let text = include_str!("../../../www/strings/en/native.json");
    serde_json::from_str(text).expect("the string file is a flat map")
}

fn files(folder: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests").join(folder);
    let mut files: Vec<_> = fs::read_dir(folder)
        .expect("the folder is there")
        .map(|entry| entry.expect("readable").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "toml"))
        .collect();
    files.sort();
    assert!(!files.is_empty());
    files
}

/// Every problem of `text`: line:column, severity, message, the text marked, the hint.
fn problems(text: &str) -> String {
    let (file, problems) = read(text);
    let mut all = String::new();
    for problem in &problems {
        let before = &text[..problem.span.start];
        let line = before.matches('\n').count() + 1;
        let column = before.rsplit('\n').next().unwrap_or_default().chars().count() + 1;
        let level = if problem.severity == Severity::Error { "error" } else { "warning" };
        let said = problem.said(&words());
        writeln!(all, "{line}:{column} {level}: {}", said.message).expect("strings take text");
        let marked = text[problem.span.clone()].replace('\n', "⏎");
        if !marked.is_empty() {
            writeln!(all, "    at: {marked}").expect("strings take text");
        }
        if let Some(hint) = said.hint {
            writeln!(all, "  hint: {hint}").expect("strings take text");
        }
    }
    let verdict = if file.is_some() { "there is a rig" } else { "there is no rig" };
    writeln!(all, "{verdict}").expect("strings take text");
    all
}

#[test]
fn every_wrong_file_is_told_what_is_wrong_with_it() {
    let mut differing = Vec::new();
    for path in files("wrong") {
        let found = problems(&fs::read_to_string(&path).expect("readable"));
        let beside = path.with_extension("txt");
        if std::env::var_os("OUTLEAN_BLESS").is_some() {
            fs::write(&beside, &found).expect("writable");
        }
        let wanted = fs::read_to_string(&beside).unwrap_or_default();
        if found != wanted {
            differing.push(format!("{}\n--- wanted\n{wanted}--- found\n{found}", path.display()));
        }
    }
    assert!(differing.is_empty(), "{}", differing.join("\n"));
}

#[test]
fn no_right_file_is_found_fault_with() {
    for path in files("right") {
        let found = problems(&fs::read_to_string(&path).expect("readable"));
        assert_eq!(found, "there is a rig\n", "{}", path.display());
    }
}

/// The specification's own file shows every key, `parts` beside a path that has none.
#[test]
fn the_file_shown_in_the_documentation_is_right() {
    let source = include_str!("../src/file/mod.rs");
    let block = source.split("```").find_map(|block| block.strip_prefix("toml\n")).expect("it shows a file");
    let shown: String = block.lines().map(|line| format!("{}\n", line.trim_start_matches("//!"))).collect();
    let (file, problems) = read(&shown);
    assert!(file.is_some());
    let keys: Vec<_> = problems
        .iter()
        .map(|problem| match &problem.what {
            What::Unused { key, .. } => key.as_str(),
            other => panic!("{other:?}"),
        })
        .collect();
    assert_eq!(keys, ["line.parts"]);
}

#[test]
fn no_problem_is_without_words() {
    for path in files("wrong") {
        let found = problems(&fs::read_to_string(&path).expect("readable"));
        // A key without words is shown itself, and a place that nothing fills stays.
        for sign in ["problem.", " a.", "dimension.", "example.", "{key", "{w", "{n", "{m", "{l", "{v"] {
            assert!(!found.contains(sign), "{}: {sign} in\n{found}", path.display());
        }
    }
}

#[test]
fn every_field_and_choice_has_a_meaning_in_words() {
    let words = words();
    let job = || JOB.iter().map(|field| field.key).chain(JOB_TEXTS).chain([LEAN_AGAIN]);
    let rows = fields().count() + choices().count() + job().count();
    for key in fields().map(|field| field.key).chain(choices().map(|choice| choice.key)) {
        let meaning = format!("field.{key}");
        assert!(words.get(&meaning).is_some(), "{meaning}");
    }
    for key in job() {
        assert!(words.get(&format!("field.{key}")).is_some(), "{key}");
    }
    assert_eq!(words.keys().filter(|key| key.starts_with("field.")).count(), rows);
}
