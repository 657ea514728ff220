//! The accessibility statement. Its text is `pages/accessibility.md`; what it says of criteria is taken from the list beside the
//! tests, so that it never says more than is shown there.

use crate::page::Shell;
use crate::text_page;

const TEXT: &str = include_str!("../pages/accessibility.md");
/// Criterion by criterion, how it is met and by what that is shown.
const CRITERIA: &str = include_str!("../../../tests/accessibility.md");
/// How the list says that nobody tried a thing.
const UNTRIED: &str = "*not tried*";

/// The page.
pub fn page(shell: &Shell) -> String {
    shell.page("../", "accessibility", &text_page::body(TEXT, gap))
}

/// What a gap is filled with.
fn gap(name: &str) -> Option<String> {
    Some(match name {
        "date" => CRITERIA.split_once("Last gone through on ")?.1.split_once('.')?.0.to_owned(),
        "criteria" => listed().count().to_string(),
        "untried" => untried().join(", "),
        _ => return None,
    })
}

/// The rows of the list: what each is about, and all of it.
fn rows() -> impl Iterator<Item = (&'static str, &'static str)> {
    let row = |line: &'static str| Some((line.strip_prefix("| ")?.split_once(" | ")?.0, line));
    CRITERIA
        .lines()
        .filter_map(row)
        .filter(|(about, _)| about.starts_with(|first: char| first.is_ascii_digit()))
}

/// The numbers of all criteria in the list.
fn listed() -> impl Iterator<Item = String> {
    rows().flat_map(|(about, _)| numbers(about))
}

/// Those of which the list says that something was not tried.
fn untried() -> Vec<String> {
    rows().filter(|(_, row)| row.contains(UNTRIED)).flat_map(|(about, _)| numbers(about)).collect()
}

/// The numbers of criteria that a row begins with: `1.1.1 Name`, `3.2.1, 3.2.2 Names`, or `1.2.1–1.2.5 Names` for all between.
fn numbers(about: &str) -> Vec<String> {
    let number = |word: &&str| word.starts_with(|first: char| first.is_ascii_digit());
    let one = |word: &str| match word.split_once('–') {
        Some((first, last)) => {
            let (guideline, from) = first.rsplit_once('.').unwrap_or((first, ""));
            let to = last.rsplit('.').next().unwrap_or_default();
            let (from, to) = (from.parse::<u32>().unwrap_or(1), to.parse::<u32>().unwrap_or(0));
            (from..=to).map(|each| format!("{guideline}.{each}")).collect()
        }
        None => vec![word.to_owned()],
    };
    about.split([' ', ',']).filter(|word| !word.is_empty()).take_while(number).flat_map(one).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    /// WCAG 2.2, W3C Recommendation of 5 October 2023 (*from memory*): what is left of levels A and AA since 4.1.1 was taken out.
    const A: &str = "1.1.1 1.2.1 1.2.2 1.2.3 1.3.1 1.3.2 1.3.3 1.4.1 1.4.2 2.1.1 2.1.2 2.1.4 2.2.1 2.2.2 2.3.1 2.4.1 2.4.2 2.4.3 \
        2.4.4 2.5.1 2.5.2 2.5.3 2.5.4 3.1.1 3.2.1 3.2.2 3.2.6 3.3.1 3.3.2 3.3.7 4.1.2";
    const AA: &str = "1.2.4 1.2.5 1.3.4 1.3.5 1.4.3 1.4.4 1.4.5 1.4.10 1.4.11 1.4.12 1.4.13 2.4.5 2.4.6 2.4.7 2.4.11 2.5.7 2.5.8 \
        3.1.2 3.2.3 3.2.4 3.3.3 3.3.4 3.3.8 4.1.3";

    #[test]
    fn every_criterion_of_both_levels_is_in_the_list_once() {
        let wanted: BTreeSet<String> = A.split(' ').chain(AA.split(' ')).map(str::to_owned).collect();
        assert_eq!(wanted.len(), 55);
        assert_eq!(listed().count(), wanted.len());
        assert_eq!(listed().collect::<BTreeSet<_>>(), wanted);
    }

    #[test]
    fn every_gap_is_filled_and_what_was_not_tried_is_said() {
        let text = text_page::body(TEXT, gap);
        assert!(!text.contains(['{', '}']), "{text}");
        assert!(!untried().is_empty() && text.contains(&untried().join(", ")));
        // Where this is no longer so the list says it first.
        let list = CRITERIA.contains("Nobody who uses a screen reader every day");
        assert_eq!(list, text.contains("Nobody who uses a screen reader every day"));
        assert!(gap("date").is_some_and(|date| date.ends_with(|last: char| last.is_ascii_digit())));
    }

    #[test]
    fn it_reads_as_easily_as_a_lesson() {
        assert_eq!(crate::reading::hard(TEXT), []);
    }
}
