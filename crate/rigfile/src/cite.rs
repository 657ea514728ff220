//! Sources and the names of values as people read them.

use crate::Words;
use core::fmt::Debug;
use outlean_rig::strength::{Citation, Seen};

/// "Title, 2018, Table 4A; second hand", in `words`.
#[must_use]
pub fn cited(citation: Citation, words: &Words) -> String {
    let Citation { source, seen } = citation;
    let mut said = words.say(&format!("source.{}", key_of_variant(&source))).to_owned();
    if let Some(year) = source.year() {
        said = words.fill("source.edition", &[("title", &said), ("year", &year.to_string())]);
    }
    if !source.place().is_empty() {
        said = words.fill("source.place", &[("title", &said), ("place", source.place())]);
    }
    match seen {
        Seen::Read | Seen::NotPublished => said,
        Seen::SecondHand => words.fill("source.second_hand", &[("title", &said)]),
        Seen::Memory => words.fill("source.memory", &[("title", &said)]),
    }
}

/// The name of a variant without fields as it stands in keys and in JSON: `NdsTable4A` is `nds_table4_a`.
#[must_use]
pub fn key_of_variant(variant: &impl Debug) -> String {
    let mut key = String::new();
    for letter in format!("{variant:?}").chars() {
        if letter.is_ascii_uppercase() && !key.is_empty() {
            key.push('_');
        }
        key.push(letter.to_ascii_lowercase());
    }
    key
}

#[cfg(test)]
mod tests {
    use super::*;
    use outlean_rig::strength::{CheckRule, Source, Symbol};

    /// As JSON has it.
    fn in_json(variant: &impl serde::Serialize) -> String {
        serde_json::to_value(variant).unwrap().as_str().unwrap().to_owned()
    }

    #[test]
    fn keys_are_as_in_json() {
        for source in [Source::NdsTable4A, Source::Navedtra14251, Source::DoeStd1090, Source::OurChoice] {
            assert_eq!(key_of_variant(&source), in_json(&source));
        }
        for symbol in [Symbol::CMc, Symbol::Fc0k, Symbol::E05, Symbol::LambdaRel, Symbol::FcStar] {
            assert_eq!(key_of_variant(&symbol), in_json(&symbol));
        }
        assert_eq!(key_of_variant(&CheckRule::En1995Column), in_json(&CheckRule::En1995Column));
    }

    #[test]
    fn a_source_says_how_it_was_seen() {
        let words = Words::new(
            [
                ("source.nds", "Wood"),
                ("source.edition", "{title}, {year}"),
                ("source.place", "{title}, {place}"),
                ("source.second_hand", "{title}; second hand"),
            ]
            .map(|(key, said)| (key.to_owned(), said.to_owned())),
        );
        let said = cited(Citation::second_hand(Source::Nds), &words);
        assert_eq!(said, "Wood, 2018, 3.7.1, 3.9-3, 15.4-1; second hand");
    }
}
