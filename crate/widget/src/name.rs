//! What parts are called in the page.

use crate::state::State;
use outlean_picture::Words;
use outlean_rig::Part;

/// The name of a part, as it stands inside a sentence.
pub fn part_name(state: &State, part: Part, words: &Words) -> String {
    outlean_picture::part_name(words, state.rig(), &state.solution().layout, part)
}

/// With its first letter large.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    // The tables of all letters there are would be a twentieth of the page's program.
    let large = |letter: char| match letter {
        'à'..='ö' | 'ø'..='þ' => char::from_u32(letter as u32 - 32).unwrap_or(letter),
        other => other.to_ascii_uppercase(),
    };
    letters.next().map_or_else(String::new, |first| core::iter::once(large(first)).chain(letters).collect())
}
