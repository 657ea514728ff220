//! What every question says of itself: objective, level, hint, explanation, source.

use super::block::Source;
use super::inline;
use super::table::Table;
use outlean_course::About;
use std::ops::Range;

/// What was read, with where its texts stand.
pub struct Read {
    about: About,
    texts: Vec<(String, Range<usize>)>,
}

/// Reads the fields that every question has; `objectives` is how many the lesson has.
pub fn read(table: &mut Table<'_, '_>, objectives: Option<usize>) -> Option<Read> {
    let most = objectives.and_then(|count| u32::try_from(count).ok()).unwrap_or(u32::MAX - 1).max(1);
    let objective = table.count(
        "objective",
        1..most + 1,
        "the number of the objective that it is for, counted from 1 in the front matter",
    );
    let level = table.count("level", 1..4, "1 to know, 2 to apply, 3 to judge");
    let hint =
        table.words("hint", "what helps who is stuck, such as hint = \"Take moments about the feet.\"");
    let explanation = table.words("explanation", "why it is so, shown after the mark");
    let source = table.words(
        "source",
        "where the rule comes from: title, edition and place; or source = \"common practice\"",
    );
    let (hint, explanation, source) = (hint?, explanation?, source?);
    let about = About {
        objective: objective?,
        level: u8::try_from(level?).ok()?,
        hint: hint.0.clone(),
        explanation: explanation.0.clone(),
        source: source.0.clone(),
    };
    Some(Read { about, texts: vec![hint, explanation, source] })
}

impl Read {
    /// The fields, if nothing in their texts could run.
    pub fn checked(self, source: &mut Source<'_, '_>) -> Option<About> {
        let fine: Vec<bool> =
            self.texts.iter().map(|(text, span)| inline::check(source, text, span)).collect();
        fine.iter().all(|fine| *fine).then_some(self.about)
    }
}
