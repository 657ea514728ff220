//! Claims and texts with gaps in a block, and what is wrong with them.

use super::block::Source;
use super::inline;
use crate::words::of_questions;
use outlean_course::{Claim, Ender, Misread, Text, Why};
use outlean_rig::Dimension;
use outlean_rigfile::{Problem, Severity, What};
use std::ops::Range;

/// The claim that the text written at `span` makes; a complaint where it makes none.
pub fn claim(source: &mut Source<'_, '_>, (text, span): &(String, Range<usize>)) -> Option<Claim> {
    match Claim::read(text) {
        Ok(claim) => Some(claim),
        Err(Misread { at, why }) => {
            let place = source.within(span, text, &at);
            let (message, hint) = said(&why, text.get(at).unwrap_or_default());
            source.complain(place, message, Some(hint));
            None
        }
    }
}

/// A claim as its learner reads it: signs in words, fields by what they are called.
pub fn spoken(claim: &str) -> String {
    const SIGNS: [(&str, &str); 7] = [
        (">=", " is at least "),
        ("≥", " is at least "),
        ("<=", " is at most "),
        ("≤", " is at most "),
        (">", " is more than "),
        ("<", " is less than "),
        ("=", " is "),
    ];
    let said = SIGNS.iter().fold(claim.to_owned(), |said, (sign, words)| said.replace(sign, words));
    let named = |word| of_questions().get(&format!("claim.{word}")).unwrap_or(word);
    let said = said.split_whitespace().map(named).collect::<Vec<_>>().join(" ");
    let mut letters = said.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The text with gaps that is written at `span`; a complaint where nothing fills one.
pub fn text(source: &mut Source<'_, '_>, (text, span): &(String, Range<usize>)) -> Option<Text> {
    let plain = inline::plain(source, text, span);
    match Text::read(text) {
        Ok(text) => plain.then_some(text),
        Err(bad) => {
            let place = source.within(span, text, &bad.at);
            let name = text.get(bad.at.clone()).unwrap_or_default();
            let (message, hint) = match (bad.closed, &bad.nearest) {
                (false, _) => ("the gap is not closed".to_owned(), "write }} after it".replace("}}", "}")),
                (true, Some(near)) => (nothing_fills(name), did_you_mean(near)),
                (true, None) => (
                    nothing_fills(name),
                    "write the key of a field or choice, or a reading, between { and }".to_owned(),
                ),
            };
            source.complain(place, message, Some(hint));
            None
        }
    }
}

fn nothing_fills(name: &str) -> String {
    format!("nothing fills the gap `{name}`")
}

fn did_you_mean(near: &str) -> String {
    format!("did you mean `{near}`?")
}

/// What is wrong with `part` of a claim, and what to write.
fn said(why: &Why, part: &str) -> (String, String) {
    const FORMS: &str = "a claim is such as `tension of the aft guy <= 1.5 kN`, `reach rises with lean`, \
        `within the working range`, `the frame stands`, `the aft guy works` or `the aft holdfast governs`";
    let forms = || FORMS.to_owned();
    match why {
        Why::Empty => ("the claim is empty".into(), forms()),
        Why::NoForm { nearest } => {
            (format!("`{part}` is no claim"), nearest.map_or_else(forms, did_you_mean))
        }
        Why::TwoSigns => (
            format!("a second `{part}` stands in the claim"),
            "make two claims of it, each with one sign".into(),
        ),
        Why::NoSide => ("nothing stands on this side of the claim".into(), forms()),
        Why::Unknown { nearest } => (
            format!("`{part}` is neither a reading nor a field"),
            nearest.as_ref().map_or_else(
                || {
                    "readings are such as `reach` or `tension of the aft guy`, fields such as `aft.setback`"
                        .into()
                },
                |near| did_you_mean(near),
            ),
        ),
        Why::NoSuchPart { nearest } => {
            let all = || Ender::ALL.map(|(name, _)| name).join(", ");
            (
                format!("`{part}` cannot end a working range"),
                nearest.map_or_else(|| format!("one of: {}", all()), did_you_mean),
            )
        }
        Why::NoField { nearest } => (
            format!("there is no field `{part}`"),
            nearest.map_or_else(|| "write a key such as `lean` or `aft.setback`".into(), did_you_mean),
        ),
        Why::Factor => (
            format!("`{}` is no factor", part.trim()),
            "write a number above nothing, such as `1.5 × height of the head`".into(),
        ),
        Why::Number(error, wanted) => {
            let what = What::BadQuantity { key: "claim".into(), error: error.clone(), wanted: *wanted };
            let problem = Problem { severity: Severity::Error, span: 0..0, what };
            let told = problem.said(crate::words::words());
            (told.message, told.hint.unwrap_or_default())
        }
        Why::Dimensions(left, right) => (
            format!("{} cannot be compared with {}", named(*left), named(*right)),
            "both sides must be of one kind".into(),
        ),
        Why::OnlyNumbers => (
            "the claim holds always or never: it speaks only of numbers".into(),
            "put a reading or a field on one side".into(),
        ),
    }
}

fn named(dimension: Dimension) -> &'static str {
    match dimension {
        Dimension::Length => "a length",
        Dimension::Area => "an area",
        Dimension::Angle => "an angle",
        Dimension::Mass => "a mass",
        Dimension::Force => "a force",
        Dimension::ForcePerLength => "a weight per length",
        Dimension::Ratio => "a ratio",
        Dimension::Pressure => "a pressure",
        Dimension::Moment => "a moment",
        Dimension::Count => "a count",
    }
}

#[cfg(test)]
mod tests {
    use super::spoken;

    #[test]
    fn a_claim_is_read_without_keys_and_signs() {
        for (written, read) in [
            ("aft.setback<=6 m", "The setback of the aft guy is at most 6 m"),
            (
                "1.5 × height of the head ≤ aft.setback",
                "1.5 × height of the head is at most the setback of the aft guy",
            ),
            ("within the working range", "Within the working range"),
            ("tension of the aft guy rises with lean", "Tension of the aft guy rises with the lean"),
        ] {
            assert_eq!(spoken(written), read);
        }
    }
}
