//! Takes a guy out of a rig file, or adds one, and leaves every other byte as it was.

use super::edit::{
    EditError, heading_at_the_end, last_of, line_end, line_start, parsed, spliced, without, written,
};
use super::walk::walk;
use core::ops::Range;
use outlean_rig::MAX_GUYS;
use std::collections::BTreeMap;
use toml::Spanned;
use toml::de::DeValue;

/// How many guys a file has, those of which nothing is said yet among them; at most as many as a rig may have.
#[must_use]
pub fn guys_in(text: &str) -> usize {
    walk(text).0.guys
}

/// `text` with one guy more after all there are, of which nothing is said yet, and its number.
///
/// # Errors
///
/// Text that is no TOML, or no place for it: as many guys as a rig may have.
///
/// ```
/// use outlean_rigfile::{edit, with_guy};
/// let (text, number) = with_guy("[[guy]] # aft\nsetback = '6 m'\n").unwrap();
/// let text = edit(&text, &format!("guy.{number}.ahead"), Some("5 m")).unwrap();
/// assert_eq!(text, "[[guy]] # aft\nsetback = '6 m'\n\n[[guy]]\nahead = \"5 m\"\n");
/// ```
pub fn with_guy(text: &str) -> Result<(String, usize), EditError> {
    let tree = parsed(text)?;
    let count = guys_in(text);
    let there = tree.get_ref().get("guy");
    let (at, what) = match there.map(|guys| (guys.span(), guys.get_ref())) {
        Some((span, DeValue::Array(guys))) if !headed(text, &span) => {
            // In brackets, after the last that stands there; a comma may stand there already.
            let inside = span.start + 1..span.end.saturating_sub(1);
            let after_last = guys.last().map_or(inside.start, |last| last.span().end);
            let rest = text.get(after_last..inside.end).unwrap_or_default();
            let comma = !guys.is_empty() && !rest.trim_start().starts_with(',');
            (inside.end, if comma { ", { }" } else { " { }" }.to_owned())
        }
        Some((_, DeValue::Array(_))) | None => (text.len(), heading_at_the_end(text, "[[guy]]")),
        Some(_) => return Err(EditError::NoPlace),
    };
    let made = spliced(text, at..at, &what).filter(|_| count < MAX_GUYS).ok_or(EditError::NoPlace)?;
    let same = written(&made)? == written(text)? && guys_in(&made) == count + 1;
    if same { Ok((made, count)) } else { Err(EditError::NoPlace) }
}

/// `text` without the guy of that number, counted from 0: from its heading to the end of its last line, with the empty lines
/// before it and what is written beside its lines. Those after it move up by one.
///
/// # Errors
///
/// Text that is no TOML, or no such guy.
///
/// ```
/// use outlean_rigfile::without_guy;
/// let text = "[[guy]]\nsetback = '6 m'\n\n[[guy]] # fore\nahead = '5 m' # taped\n\n[limits] # ours\n";
/// assert_eq!(without_guy(text, 1).unwrap(), "[[guy]]\nsetback = '6 m'\n\n[limits] # ours\n");
/// ```
pub fn without_guy(text: &str, number: usize) -> Result<String, EditError> {
    let tree = parsed(text)?;
    let Some(DeValue::Array(guys)) = tree.get_ref().get("guy").map(Spanned::get_ref) else {
        return Err(EditError::NoPlace);
    };
    let guy = guys.get(number).ok_or(EditError::NoPlace)?;
    let made = if headed(text, &guy.span()) {
        let last = match guy.get_ref() {
            DeValue::Table(table) => last_of(text, table),
            _ => None,
        };
        let start = before_empty_lines(text, line_start(text, guy.span().start));
        spliced(text, start..line_end(text, last.unwrap_or(guy.span().end)), "")
    } else {
        without(text, guy.span(), true)
    };
    let made = made.ok_or(EditError::NoPlace)?;
    let mut expected = BTreeMap::new();
    for (key, value) in written(text)? {
        match guy_of(&key) {
            Some((guy, _)) if guy == number => None,
            Some((guy, name)) if guy > number => expected.insert(format!("guy.{}.{name}", guy - 1), value),
            _ => expected.insert(key, value),
        };
    }
    let mut said = written(&made)?;
    // One that was one too many before is read afterwards.
    let too_many = format!("guy.{}.", MAX_GUYS - 1);
    for all in [&mut expected, &mut said] {
        all.retain(|key, _| !key.starts_with(&too_many));
    }
    if said == expected { Ok(made) } else { Err(EditError::NoPlace) }
}

/// The number and the name of a key of a guy.
fn guy_of(key: &str) -> Option<(usize, &str)> {
    let (number, name) = key.strip_prefix("guy.")?.split_once('.')?;
    Some((number.parse().ok()?, name))
}

/// Whether what stands there is under a heading of its own.
fn headed(text: &str, span: &Range<usize>) -> bool {
    text.get(span.start..).is_some_and(|text| text.starts_with("[["))
}

/// Where the empty lines begin that end at `at`.
fn before_empty_lines(text: &str, at: usize) -> usize {
    let before = text.get(..at).unwrap_or_default();
    let kept = before.trim_end_matches([' ', '\t', '\r', '\n']);
    if kept.is_empty() { 0 } else { line_end(text, kept.len()) }
}
