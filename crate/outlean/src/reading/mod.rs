//! How easily a lesson reads: how long its sentences are, and the grade of its sections after R. Flesch and J. P. Kincaid
//! (Kincaid and others, "Derivation of new readability formulas", US Navy, Research Branch Report 8-75, 1975; from memory).
//!
//! A long sentence or a hard section is a warning to its author: where, how long, what is asked for.

mod count;
mod prose;

pub use prose::{Part, Passage, passages};

use crate::lesson::Complaint;
use count::{sentences, syllables, words};
use std::ops::Range;

/// The most words of a sentence.
pub const LONGEST: usize = 30;
/// The highest grade of a section: years at school.
pub const HARDEST: f64 = 6.0;
/// Of fewer words than these a grade says nothing.
const LEAST: usize = 100;

/// What makes up the grade of a section.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tally {
    words: usize,
    sentences: usize,
    syllables: usize,
}

impl Tally {
    fn add(&mut self, text: &str) {
        for sentence in sentences(text) {
            let words: Vec<&str> = words(text.get(sentence).unwrap_or_default()).collect();
            if !words.is_empty() {
                self.sentences += 1;
                self.words += words.len();
                self.syllables += words.iter().map(|word| syllables(word)).sum::<usize>();
            }
        }
    }

    /// The grade; `None` of too few words.
    pub fn grade(&self) -> Option<f64> {
        let (words, sentences, syllables) = (self.words as f64, self.sentences as f64, self.syllables as f64);
        (self.words >= LEAST).then(|| 0.39 * words / sentences + 11.8 * syllables / words - 15.59)
    }
}

/// The parts of a text with their tallies, in order: its sections by their headings, and its questions together.
pub fn tallies(passages: &[Passage]) -> Vec<(&Part, Tally)> {
    let mut all: Vec<(&Part, Tally)> = Vec::new();
    for Passage { part, text, .. } in passages.iter().filter(|passage| passage.counts) {
        match all.iter_mut().find(|(known, _)| *known == part) {
            Some((_, tally)) => tally.add(text),
            None => {
                let mut tally = Tally::default();
                tally.add(text);
                all.push((part, tally));
            }
        }
    }
    all
}

/// What is hard to read in a lesson or another text in Markdown: sentences that are too long, sections that are too hard.
pub fn hard(source: &str) -> Vec<Complaint> {
    let passages = passages(source);
    let mut all = Vec::new();
    for passage in &passages {
        for sentence in sentences(&passage.text) {
            let count = words(passage.text.get(sentence.clone()).unwrap_or_default()).count();
            if count > LONGEST {
                all.push(Complaint {
                    span: passage.place(&sentence),
                    message: format!("this sentence has {count} words"),
                    hint: Some(format!("at most {LONGEST}: make two of it")),
                });
            }
        }
    }
    for (part, tally) in tallies(&passages) {
        if let Some(grade) = tally.grade().filter(|grade| *grade > HARDEST) {
            all.push(Complaint {
                span: part.at.clone(),
                message: format!("{} reads at grade {grade:.1}", part.name),
                hint: Some(format!("at most {HARDEST}: shorter sentences, shorter words")),
            });
        }
    }
    all.sort_by_key(|complaint| complaint.span.start);
    all
}

/// Where a sentence of a passage stands.
impl Passage {
    fn place(&self, sentence: &Range<usize>) -> Range<usize> {
        self.source_of(sentence.start)..self.source_of(sentence.end.saturating_sub(1)) + 1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(text: &str) -> Vec<(String, String)> {
        hard(text).into_iter().map(|each| (each.message, text[each.span].to_owned())).collect()
    }

    #[test]
    fn a_long_sentence_is_told_with_its_place() {
        let long = format!("It *goes*{}.", " on".repeat(LONGEST - 1));
        let wanted = [(format!("this sentence has {} words", LONGEST + 1), long.clone())];
        assert_eq!(told(&format!("Short. {long} Short.")), wanted);
        assert_eq!(told(&format!("Short. {} Short.", long.replacen(" on", "", 1))), []);
        // In a list, a table, notes and a question as well.
        for text in [
            format!("- a\n- {long}\n"),
            format!("| a | b |\n|---|---|\n| c | {long} |\n"),
            format!("```notes\n{long}\n```\n"),
            format!("```choose\nid = \"x\"\n[[statement]]\nsays = \"{long}\"\n```\n"),
            format!("```build\nname = \"x\"\n[[step]]\nhold = \"{long}\"\n```\n"),
        ] {
            assert_eq!(told(&text), wanted, "{text}");
        }
        // Titles of books are as long as they are.
        assert_eq!(told(&format!("## Sources\n\n- {long}\n")), []);
        assert_eq!(told(&format!("```\n{long}\n```\n\n```figure\nname = \"{long}\"\n```\n")), []);
    }

    #[test]
    fn authors_are_told_the_limits() {
        let told =
            include_str!("../../../../lessons/README.md").split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(told.contains(&format!("more than {LONGEST} words")));
        assert!(told.contains(&format!("above grade {HARDEST} of the Flesch-Kincaid formula")));
    }

    #[test]
    fn a_hard_section_is_told_by_its_heading() {
        let hard =
            "Considerable computational difficulties necessitate additional verification of everything. "
                .repeat(15);
        let text = format!("## Easy\n\nIt is so.\n\n## Hard one\n\n{hard}\n");
        let told = told(&text);
        assert_eq!(told.len(), 1);
        assert!(told[0].0.starts_with("the section \"Hard one\" reads at grade 3"), "{told:?}");
        assert_eq!(told[0].1.trim(), "## Hard one");
    }

    /// "The cat sat on the mat", a sentence that primers of the formula use: 6 words, 6 syllables, grade −1.45.
    #[test]
    fn the_grade_is_the_published_formula() {
        let mut tally = Tally::default();
        tally.add(&"The cat sat on the mat. ".repeat(20));
        let grade = tally.grade().unwrap();
        assert!(
            (grade - (0.39 * 6.0 + 11.8 - 15.59)).abs() < 1e-12 && (grade + 1.45).abs() < 1e-9,
            "{grade}"
        );
        let mut few = Tally::default();
        few.add("The cat sat.");
        assert_eq!(few.grade(), None);
    }
}
