//! The index of sources: what lessons, questions and the program itself rest on. `sources.toml` beside the lessons says what
//! a source is called in full, and by which words lessons name it; what is not in it stands in the index as it is written.
//!
//! ```toml
//! [[source]]
//! title = "US Army, FM 5-125, *Rigging*, 1995"
//! named = ["FM 5-125"]      # words by which lessons name it
//! cited = ["fm5125"]        # keys by which the program cites it
//! kind = "published"        # or "practice", "reckoned", "ours"
//! ```

mod find;
mod page;
mod program;

pub use page::page;

use crate::lesson::block::Source as Text;
use crate::lesson::table::near_or;
use crate::lesson::{Complaint, inline};
use std::ops::Range;
use toml::de::DeTable;

/// What kind of ground a source is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Somebody published it.
    Published,
    /// Taught widely, without one source that could be named.
    Practice,
    /// It follows by mechanics or geometry.
    Reckoned,
    /// This course or its program says so.
    Ours,
}

impl Kind {
    const ALL: [(&str, Self); 4] = [
        ("published", Self::Published),
        ("practice", Self::Practice),
        ("reckoned", Self::Reckoned),
        ("ours", Self::Ours),
    ];
}

/// A source.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Work {
    /// What it is, in full, a line of Markdown.
    pub title: String,
    /// What kind of ground it is.
    pub kind: Kind,
    /// Words by which lessons name it, in small letters.
    named: Vec<String>,
    /// Keys by which the program cites it.
    cited: Vec<String>,
}

/// The sources of a course, in the order in which they are listed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sources(Vec<Work>);

/// Reads a list of sources, with every complaint about it.
///
/// # Errors
///
/// All complaints, in the order in which they stand.
pub fn read(text: &str) -> Result<Sources, Vec<Complaint>> {
    let (mut wanted, mut complaints) = (Vec::new(), Vec::new());
    let mut source = Text::of_tables(text, &mut wanted, &mut complaints);
    let tree = source.tree();
    let mut table = source.table(tree.get_ref(), 0..0);
    let tables = table.tables("source");
    table.done();
    let known = program::keys();
    let mut works: Vec<Work> = Vec::new();
    for (table, at) in tables {
        let Some((work, places)) = work(&mut source, table, at, &known) else { continue };
        for (name, span) in places {
            let taken = |other: &&Work| other.named.contains(&name) || other.cited.contains(&name);
            if let Some(other) = works.iter().find(taken) {
                let message = format!("`{name}` is the name of `{}` and of `{}`", other.title, work.title);
                source.complain(span, message, Some("a name stands for one source".into()));
            }
        }
        works.push(work);
    }
    complaints.sort_by_key(|complaint| complaint.span.start);
    if complaints.is_empty() { Ok(Sources(works)) } else { Err(complaints) }
}

/// Names and keys of a source, each with where it is written.
type Names = Vec<(String, Range<usize>)>;

/// A source, and where its names are written.
fn work(
    source: &mut Text<'_, '_>,
    table: &DeTable<'_>,
    at: Range<usize>,
    known: &[String],
) -> Option<(Work, Names)> {
    let mut table = source.table(table, at.clone());
    let title = table.words("title", "who published it, its title, edition and place");
    let named = table.any("named", "words by which lessons name it, such as named = [\"FM 5-125\"]");
    let cited = table.any("cited", "keys by which the program cites it, such as cited = [\"fm5125\"]");
    let kinds = "one of published, practice, reckoned, ours";
    let kind = table.words("kind", kinds);
    let kind = kind.and_then(|(word, span)| {
        let found = Kind::ALL.into_iter().find(|(each, _)| *each == word);
        if found.is_none() {
            table.complain(span, format!("`{word}` is no kind of source"), kinds);
        }
        found.map(|(_, kind)| kind)
    });
    for (key, span) in cited.iter().flatten().filter(|(key, _)| !known.contains(key)) {
        let hint =
            near_or(key, known.iter().map(String::as_str), || format!("it cites {}", known.join(", ")));
        table.complain(span.clone(), format!("the program cites no `{key}`"), hint);
    }
    let named: Vec<_> = named?.into_iter().map(|(name, span)| (name.trim().to_lowercase(), span)).collect();
    for (_, span) in named.iter().filter(|(name, _)| name.is_empty()) {
        table.complain(span.clone(), "a name is empty", "write the words by which lessons name it");
    }
    let cited = cited?;
    if named.is_empty() && cited.is_empty() {
        table.complain(
            at,
            "nothing names this source",
            "write `named`, or `cited` where the program cites it",
        );
    }
    table.done();
    let (title, kind) = (title?, kind?);
    if !inline::check(source, &title.0, &title.1) {
        return None;
    }
    let texts = |list: &[(String, _)]| list.iter().map(|(text, _)| text.clone()).collect();
    let work = Work { title: title.0, kind, named: texts(&named), cited: texts(&cited) };
    Some((work, named.into_iter().chain(cited).collect()))
}

#[cfg(test)]
mod tests {
    use super::*;

    const TWO: &str = "[[source]]\ntitle = \"FM 5-125, *Rigging*\"\nnamed = [\"FM 5-125\"]\ncited = [\"fm5125\"]\nkind = \"published\"\n\n[[source]]\ntitle = \"Custom\"\nnamed = [\"common practice\"]\nkind = \"practice\"\n";

    #[test]
    fn sources_are_read_as_they_are_listed() {
        let Sources(works) = read(TWO).unwrap();
        assert_eq!(works.iter().map(|work| work.kind).collect::<Vec<_>>(), [Kind::Published, Kind::Practice]);
        assert_eq!((works[0].named[0].as_str(), works[0].cited[0].as_str()), ("fm 5-125", "fm5125"));
    }

    #[test]
    fn what_is_wrong_is_told_with_its_place_and_what_is_allowed() {
        for (from, to, place, message, hint) in [
            (
                "\"practice\"",
                "\"custom\"",
                "\"custom\"",
                "`custom` is no kind of source",
                "one of published, practice, reckoned, ours",
            ),
            ("fm5125", "fm5152", "\"fm5152\"", "the program cites no `fm5152`", "did you mean `fm5125`?"),
            (
                "\"common practice\"",
                "\"FM 5-125\"",
                "\"FM 5-125\"",
                "`fm 5-125` is the name of `FM 5-125, *Rigging*` and of `Custom`",
                "a name stands for one source",
            ),
            (
                "named = [\"common",
                "nmed = [\"common",
                "nmed",
                "`nmed` is not known here",
                "did you mean `named`?",
            ),
            (
                "*Rigging*",
                "<b>",
                "<b>",
                "raw HTML is not taken",
                "write it in Markdown, or escape < as \\\\<",
            ),
            (
                "\"FM 5-125\"]",
                "\" \"]",
                "\" \"",
                "a name is empty",
                "write the words by which lessons name it",
            ),
        ] {
            let text = TWO.replace(from, to);
            let told = read(&text).unwrap_err();
            let told = told
                .iter()
                .find(|each| each.message == message)
                .unwrap_or_else(|| panic!("{message}: {told:?}"));
            assert_eq!(
                (text.get(told.span.clone()), told.hint.as_deref()),
                (text.rfind(place).map(|at| &text[at..at + place.len()]), Some(hint))
            );
        }
    }
}
