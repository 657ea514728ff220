//! The glossary of a course, `glossary.toml` beside its lessons: one word for one thing, each with what it means.
//!
//! ```toml
//! [[term]]
//! term = "aft guy"                    # as lessons write it
//! says = "Rope from the head back to a holdfast behind the feet."
//! forms = ["aft guys"]                # its other forms in lessons; left out, the regular plural
//! not = ["aft guy wire"]              # phrases in which something else is meant: these are not linked
//! also = ["back guy"]                 # what else is heard
//! symbol = "T"                        # where it has one
//! unit = "kN"
//! taught = "08-guys"                  # the lesson that teaches it; left out, the first that uses it
//! ```

mod link;
mod page;

pub use link::Use;

use crate::lesson::Complaint;
use crate::lesson::block::Source;
use crate::lesson::inline;
use crate::lesson::table::{Table, near_or};
use std::collections::BTreeMap;
use toml::de::DeTable;

/// A word of the trade.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Term {
    /// The word, or the few words.
    pub term: String,
    /// What it means, a line of Markdown.
    pub says: String,
    /// What else is heard for it.
    pub also: Vec<String>,
    /// The letter that stands for it.
    pub symbol: Option<String>,
    /// The unit that it is given in.
    pub unit: Option<String>,
    /// The lesson that teaches it, by its folder.
    pub taught: Option<String>,
}

impl Term {
    /// Its anchor in the page.
    pub fn anchor(&self) -> String {
        words_of(&self.term).map(|(_, word)| word.to_lowercase()).collect::<Vec<_>>().join("-")
    }
}

/// The terms of a course, by the alphabet, and the forms that they are found by.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Glossary {
    /// The terms.
    pub terms: Vec<Term>,
    /// Every form that a lesson may write, in small letters with one space between words, and whose it is; nobody's where
    /// something else is meant.
    forms: BTreeMap<String, Option<usize>>,
    /// How many words the longest form has.
    longest: usize,
}

/// A term with its other forms, and where it is written.
struct Entry {
    term: Term,
    forms: Vec<String>,
    not: Vec<String>,
    at: core::ops::Range<usize>,
}

/// Reads a glossary for a course of these `lessons`, with every complaint about it.
///
/// # Errors
///
/// All complaints, in the order in which they stand.
pub fn read(text: &str, lessons: &[String]) -> Result<Glossary, Vec<Complaint>> {
    let (mut wanted, mut complaints) = (Vec::new(), Vec::new());
    let mut source = Source::of_tables(text, &mut wanted, &mut complaints);
    let tree = source.tree();
    let mut table = source.table(tree.get_ref(), 0..0);
    let tables = table.tables("term");
    table.done();
    let mut entries: Vec<Entry> =
        tables.into_iter().filter_map(|(table, at)| entry(&mut source, table, at, lessons)).collect();
    entries.sort_by_key(|entry| entry.term.term.to_lowercase());
    let mut glossary = Glossary::default();
    for Entry { term, forms, not, at } in entries {
        let whose = glossary.terms.len();
        for phrase in not {
            let phrase = plain(&phrase);
            glossary.longest = glossary.longest.max(phrase.split(' ').count());
            glossary.forms.entry(phrase).or_insert(None);
        }
        for form in core::iter::once(term.term.clone()).chain(forms) {
            let form = plain(&form);
            if let Some(other) = glossary.forms.get(&form).and_then(|at| glossary.terms.get((*at)?)) {
                let message = format!("`{form}` is a form of `{}` and of `{}`", other.term, term.term);
                source.complain(
                    at.clone(),
                    message,
                    Some("a form that lessons write belongs to one term".into()),
                );
            } else {
                glossary.longest = glossary.longest.max(form.split(' ').count());
                glossary.forms.insert(form, Some(whose));
            }
        }
        glossary.terms.push(term);
    }
    complaints.sort_by_key(|complaint| complaint.span.start);
    if complaints.is_empty() { Ok(glossary) } else { Err(complaints) }
}

fn entry(
    source: &mut Source<'_, '_>,
    table: &DeTable<'_>,
    at: core::ops::Range<usize>,
    lessons: &[String],
) -> Option<Entry> {
    let mut table: Table<'_, '_> = source.table(table, at);
    let term = table.words("term", "the word as lessons write it, such as term = \"aft guy\"");
    let says = table.words("says", "what it means, in a sentence or two");
    let regular = !table.has("forms");
    let forms = table.any("forms", "its other forms that lessons write, such as forms = [\"guyed\"]");
    let not = table.any("not", "phrases in which something else is meant, such as not = [\"for a moment\"]");
    let also = table.any("also", "what else is heard for it, such as also = [\"back guy\"]");
    let symbol = table.maybe("symbol", "the letter that stands for it, such as symbol = \"T\"");
    let unit = table.maybe("unit", "the unit that it is given in, such as unit = \"kN\"");
    let taught =
        table.maybe("taught", "the folder of the lesson that teaches it, such as taught = \"08-guys\"");
    if let Some((name, span)) = &taught
        && !lessons.contains(name)
    {
        let hint = near_or(name, lessons.iter().map(String::as_str), || {
            format!("the lessons are {}; left out, it is the first that uses the term", lessons.join(", "))
        });
        table.complain(span.clone(), format!("there is no lesson `{name}`"), hint);
    }
    for (text, span) in term.iter().chain(forms.iter().flatten()).chain(not.iter().flatten()) {
        if words_of(text).next().is_none() {
            table.complain(
                span.clone(),
                format!("`{text}` has no letter to find it by"),
                "write a word of lessons",
            );
        }
    }
    table.done();
    let ((term, at), says) = (term?, says?);
    let texts = |list: Vec<(String, _)>| -> Vec<String> { list.into_iter().map(|(text, _)| text).collect() };
    let forms = if regular { vec![plural(&term)] } else { texts(forms?) };
    let plain = inline::check(source, &says.0, &says.1);
    let term = Term {
        term,
        says: says.0,
        also: texts(also?),
        symbol: symbol.map(|(text, _)| text),
        unit: unit.map(|(text, _)| text),
        taught: taught.map(|(text, _)| text),
    };
    plain.then_some(Entry { term, forms, not: texts(not?), at })
}

/// The words of a text, each with where it begins: letters and digits, with hyphens between them.
fn words_of(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let of_word = |letter: char| letter.is_alphanumeric() || letter == '-';
    let mut rest = 0;
    core::iter::from_fn(move || {
        let begin = rest + text.get(rest..)?.find(of_word)?;
        let word = text.get(begin..)?;
        let word = word.get(..word.find(|letter| !of_word(letter)).unwrap_or(word.len()))?;
        rest = begin + word.len();
        Some((begin, word))
    })
    .filter(|(_, word)| word.contains(char::is_alphanumeric))
}

/// A form as it is looked up: small letters, one space between words.
fn plain(form: &str) -> String {
    words_of(form).map(|(_, word)| word.to_lowercase()).collect::<Vec<_>>().join(" ")
}

/// The regular plural of the last word.
fn plural(term: &str) -> String {
    let vowel = |letter: char| "aeiou".contains(letter);
    match term.strip_suffix('y') {
        Some(stem) if !stem.ends_with(vowel) => format!("{stem}ies"),
        _ if ["s", "x", "ch", "sh"].iter().any(|end| term.ends_with(end)) => format!("{term}es"),
        _ => format!("{term}s"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TWO: &str = "[[term]]\nterm = \"guy\"\nsays = \"A rope.\"\n\n[[term]]\nterm = \"aft guy\"\nsays = \"A rope *back*.\"\nforms = [\"aft guys\", \"guyed aft\"]\nalso = [\"tail\"]\nsymbol = \"T\"\nunit = \"kN\"\ntaught = \"08-guys\"\n";

    fn complaints(text: &str) -> Vec<(String, String, String)> {
        let all = read(text, &["08-guys".to_owned()]).err().unwrap_or_default();
        let told =
            |each: Complaint| (each.message, text[each.span].to_owned(), each.hint.unwrap_or_default());
        all.into_iter().map(told).collect()
    }

    #[test]
    fn terms_are_read_by_the_alphabet() {
        let read = read(TWO, &["08-guys".to_owned()]).unwrap();
        assert_eq!(read.terms.iter().map(Term::anchor).collect::<Vec<_>>(), ["aft-guy", "guy"]);
        let forms: Vec<&str> = read.forms.keys().map(String::as_str).collect();
        assert_eq!(forms, ["aft guy", "aft guys", "guy", "guyed aft", "guys"]);
        assert_eq!(read.longest, 2);
        assert_eq!(read.terms[0].also, ["tail"]);
    }

    #[test]
    fn plurals_are_regular() {
        for (one, many) in [
            ("guy", "guys"),
            ("pulley", "pulleys"),
            ("belay", "belays"),
            ("foot tie", "foot ties"),
            ("lashing", "lashings"),
            ("crutch", "crutches"),
            ("apex", "apexes"),
            ("safety", "safeties"),
        ] {
            assert_eq!(plural(one), many);
        }
    }

    #[test]
    fn what_is_wrong_is_told_with_its_place_and_what_is_allowed() {
        let wrong = TWO
            .replace("08-guys", "08-guy")
            .replace("also", "als")
            .replace("term = \"guy\"\nsays = \"A rope.\"", "term = \"guy\"\nsays = \"\"");
        assert_eq!(
            complaints(&wrong),
            [
                ("`says` is empty".into(), "\"\"".into(), "what it means, in a sentence or two".into()),
                ("`als` is not known here".into(), "als".into(), "did you mean `also`?".into()),
                ("there is no lesson `08-guy`".into(), "\"08-guy\"".into(), "did you mean `08-guys`?".into()),
            ]
        );
        let twice = TWO.replace("guyed aft", "guys");
        assert!(complaints(&twice)[0].0.starts_with("`guys` is a form of"), "{:?}", complaints(&twice));
        for (from, to, message) in [
            ("A rope.", "<b>", "raw HTML is not taken"),
            ("\"guy\"", "\"…\"", "`…` has no letter to find it by"),
            ("[[term]]\nterm = \"guy\"", "[[trem]]\nterm = \"guy\"", "`trem` is not known here"),
            ("term = \"guy\"\n", "", "`term` is missing"),
        ] {
            let told = complaints(&TWO.replacen(from, to, 1));
            assert!(told.iter().any(|(said, ..)| said == message), "{message}: {told:?}");
        }
    }
}
