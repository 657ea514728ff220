//! The course is whole: what every lesson must have is there, and there is enough of it that a refresher never runs dry.

#![expect(clippy::expect_used, clippy::panic, reason = "a test that cannot read its files has failed")]

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

const KINDS: [&str; 5] = ["estimate", "choose", "order", "faults", "set"];

/// A lesson as its author wrote it.
struct Written {
    name: String,
    text: String,
}

impl Written {
    /// The blocks of a kind.
    fn blocks<'a>(&'a self, kind: &str) -> impl Iterator<Item = &'a str> + use<'a> {
        let start = format!("\n```{kind}\n");
        let after: Vec<&str> = self.text.split(&start).skip(1).collect();
        after.into_iter().filter_map(|rest| rest.split("\n```").next())
    }

    /// The sections by their headings, those below the title's.
    fn sections(&self) -> impl Iterator<Item = (&str, &str)> {
        self.text.split("\n## ").skip(1).filter_map(|section| section.split_once('\n'))
    }

    /// What a field of a block or of the front matter says.
    fn field<'a>(&self, block: &'a str, name: &str) -> Option<&'a str> {
        let start = format!("{name} = ");
        block.lines().find_map(|line| line.strip_prefix(start.as_str()))
    }

    fn minutes(&self) -> u32 {
        let written = self.field(&self.text, "minutes").and_then(|minutes| minutes.parse().ok());
        written.unwrap_or_else(|| panic!("{}: no minutes", self.name))
    }

    /// The sum of all numbers in a text.
    fn sum(text: &str) -> u32 {
        text.split(|letter: char| !letter.is_ascii_digit())
            .filter_map(|number| number.parse::<u32>().ok())
            .sum()
    }
}

fn lessons() -> Vec<Written> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../lessons");
    let mut all: Vec<Written> = fs::read_dir(folder)
        .expect("readable")
        .filter_map(|entry| {
            let path = entry.expect("readable").path();
            let text = fs::read_to_string(path.join("lesson.md")).ok()?;
            let name = path.file_name()?.to_string_lossy().into_owned();
            Some(Written { name, text })
        })
        .collect();
    all.sort_by(|a, b| a.name.cmp(&b.name));
    all
}

#[test]
fn there_are_twelve_lessons_with_questions_enough() {
    let lessons = lessons();
    assert_eq!(lessons.len(), 12);
    let (mut templates, mut slips) = (0, 0);
    for lesson in &lessons {
        let name = &lesson.name;
        let blocks: Vec<(&str, &str)> =
            KINDS.iter().flat_map(|kind| lesson.blocks(kind).map(|block| (*kind, block))).collect();
        let kinds: BTreeSet<&str> = blocks.iter().map(|(kind, _)| *kind).collect();
        assert!(blocks.len() >= 8 && kinds.len() >= 4, "{name}: {} of {kinds:?}", blocks.len());
        // None only tells: something is set, put in order or found.
        assert!(["set", "order", "faults"].iter().all(|kind| kinds.contains(kind)), "{name}: {kinds:?}");
        // Every objective is asked for.
        let asked: BTreeSet<&str> =
            blocks.iter().filter_map(|(_, block)| lesson.field(block, "objective")).collect();
        let front = lesson.text.split("+++").nth(1).expect("front matter");
        let objectives = front.lines().filter(|line| line.starts_with("  \"")).count();
        assert!(objectives >= 3 && asked.len() == objectives, "{name}: {asked:?} of {objectives}");
        templates += blocks.len();
        slips += blocks
            .iter()
            .filter_map(|(_, block)| lesson.field(block, "slips"))
            .map(|list| list.matches('"').count() / 2)
            .sum::<usize>();
    }
    assert!(templates >= 110 && slips >= 45, "{templates} templates, {slips} slips");
}

#[test]
fn every_lesson_has_what_a_lesson_must_have() {
    for lesson in lessons() {
        let name = &lesson.name;
        let headings: Vec<&str> = lesson.sections().map(|(heading, _)| heading).collect();
        for wanted in ["Predict", "What learners usually get wrong", "Cautions", "Sources"] {
            assert!(headings.contains(&wanted), "{name} has no “{wanted}”: {headings:?}");
        }
        assert!(lesson.text.contains("efore this lesson"), "{name} does not say what comes before it");
        // Predicted first: the first estimate stands before its figure.
        let estimate = lesson.text.find("\n```estimate\n").expect("an estimate");
        let figure = lesson.text.find("\n```figure\n").expect("a figure");
        assert!(estimate < figure, "{name} shows before it asks");
        // A worked example, and one with gaps after it.
        let worked = ["orked example", "orked through", "worked through"]
            .iter()
            .filter_map(|at| lesson.text.find(at))
            .min();
        let after = worked
            .and_then(|at| lesson.text.get(at..))
            .unwrap_or_else(|| panic!("{name} works nothing through"));
        let faded = after.split("\n\n").any(|part| part.starts_with("1. ") && part.matches('…').count() >= 3);
        assert!(faded, "{name} has no second example with gaps");
    }
}

#[test]
fn the_notes_say_how_long_each_part_takes_and_that_is_the_lesson_in_all() {
    for lesson in lessons() {
        let (name, minutes) = (&lesson.name, lesson.minutes());
        let notes: Vec<&str> = lesson.blocks("notes").collect();
        let timing = notes.iter().find_map(|notes| notes.split("**Timing, ").nth(1)).expect("a timing");
        let (whole, parts) = timing.split_once("**").expect("it is in bold");
        assert_eq!(Written::sum(whole), minutes, "{name}: the timing is of another length");
        let parts = parts.split("\n\n").next().unwrap_or_default();
        assert_eq!(Written::sum(parts), minutes, "{name}: its parts: {parts}");
        let each = notes.iter().flat_map(|notes| notes.lines()).filter_map(|line| {
            let (number, rest) = line.strip_prefix("**")?.split_once(" min")?;
            number.parse::<u32>().ok().filter(|_| rest.contains("**"))
        });
        // Where a lesson begins has no heading of its own, and may leave its minutes to the timing.
        let each: u32 = each.sum();
        let opening = parts
            .trim_start()
            .strip_prefix("opening ")
            .and_then(|rest| rest.split(',').next())
            .map_or(0, Written::sum);
        assert!(
            each == minutes || each + opening == minutes,
            "{name}: {each} min section by section, {minutes} in all"
        );
        let told =
            lesson.text.split("+++").nth(2).and_then(|rest| rest.split("\n```").next()).unwrap_or_default();
        assert!(told.contains(&format!("{minutes}")), "{name}: learners are told another length");
    }
}

#[test]
fn every_step_of_a_build_that_can_be_drawn_is_taught() {
    let described = include_str!("../../../lessons/README.md");
    let table =
        described.split("| `draws` |").nth(1).and_then(|rest| rest.split("\n\n").next()).expect("a table");
    let all: BTreeSet<&str> =
        table.lines().filter_map(|row| row.strip_prefix("| `")?.split('`').next()).collect();
    assert!(all.len() >= 30, "{all:?}");
    let lessons = lessons();
    let taught: BTreeSet<&str> = lessons
        .iter()
        .flat_map(|lesson| lesson.text.lines())
        .filter_map(|line| line.strip_prefix("draws = \"")?.split('"').next())
        .collect();
    assert_eq!(all, taught);
    let holds = lessons
        .iter()
        .flat_map(|lesson| lesson.text.lines())
        .filter(|line| line.starts_with("hold = "))
        .count();
    assert!(holds >= 15, "{holds} hold points");
}
