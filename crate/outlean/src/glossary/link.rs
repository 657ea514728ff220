//! Words of a lesson's text made links to the glossary: the first use of each term in each section.

use super::{Glossary, plain, words_of};
use crate::markup::{escaped, id_of};

/// A term that was linked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Use {
    /// The term, by its place in the glossary.
    pub term: usize,
    /// The anchor of the section; empty before the first.
    pub section: String,
}

/// What holds no word to be linked: headings, links, code, and whatever is asked or drawn.
fn is_left_alone(tag: &str) -> bool {
    matches!(
        tag,
        "a" | "svg" | "h1" | "h2" | "h3" | "h4" | "h5" | "h6" | "code" | "pre" | "script" | "th" | "dt"
    ) || tag.starts_with("outlean-")
}

impl Glossary {
    /// HTML that was made here, with every first use of a term in a section linked to the page at `way`; and those uses. A
    /// section begins at a heading of the second rank. `own` is a term that is not linked: the one defined.
    pub fn linked(&self, html: &str, way: &str, own: Option<usize>) -> (String, Vec<Use>) {
        let (mut out, mut uses) = (String::with_capacity(html.len() * 9 / 8), Vec::new());
        let mut section = String::new();
        let mut seen: Vec<usize> = own.into_iter().collect();
        // The tag that is left alone, and how many of its name are open.
        let mut alone: Option<(String, usize)> = None;
        let mut rest = html;
        while !rest.is_empty() {
            let (text, after) = rest.split_at(rest.find('<').unwrap_or(rest.len()));
            if alone.is_none() {
                self.text(text, way, &mut seen, &mut out, |term| {
                    uses.push(Use { term, section: section.clone() });
                });
            } else {
                out.push_str(text);
            }
            let end = after.find('>').map_or(after.len(), |end| end + 1);
            let (tag, after) = after.split_at(end);
            out.push_str(tag);
            rest = after;
            let closing = tag.starts_with("</");
            let name = tag.trim_start_matches(['<', '/']);
            let name = name
                .split(|letter: char| letter != '-' && !letter.is_alphanumeric())
                .next()
                .unwrap_or_default();
            match &mut alone {
                Some((open, depth)) if open == name => {
                    *depth = if closing { *depth - 1 } else { *depth + 1 };
                    if *depth == 0 {
                        alone = None;
                    }
                }
                None if !closing && is_left_alone(name) => alone = Some((name.to_owned(), 1)),
                _ => {}
            }
            if name == "h2" && !closing {
                seen = own.into_iter().collect();
                section = id_of(tag).unwrap_or_default().to_owned();
            }
        }
        (out, uses)
    }

    /// Text between tags: the longest form that begins at a word is taken.
    fn text(
        &self,
        text: &str,
        way: &str,
        seen: &mut Vec<usize>,
        out: &mut String,
        mut found: impl FnMut(usize),
    ) {
        let words: Vec<(usize, &str)> = words_of(text).collect();
        let (mut at, mut done) = (0, 0);
        while let Some((begin, _)) = words.get(at) {
            let form = (1..=self.longest).rev().find_map(|count| {
                let (last, word) = words.get(at + count - 1)?;
                let end = last + word.len();
                let written = text.get(*begin..end)?;
                let between = |letter: char| letter.is_whitespace() || "-'’".contains(letter);
                let whole = written.chars().all(|letter| letter.is_alphanumeric() || between(letter));
                let term = self.forms.get(&plain(written)).filter(|_| whole)?;
                Some((count, end, written, *term))
            });
            at += form.map_or(1, |(count, ..)| count);
            let Some((_, end, written, Some(term))) = form else { continue };
            if !seen.contains(&term)
                && let Some(found_term) = self.terms.get(term)
            {
                seen.push(term);
                found(term);
                out.push_str(text.get(done..*begin).unwrap_or_default());
                // Written text is HTML already: letters, digits, hyphens, space.
                out.push_str(&format!(
                    "<a class=\"term\" href=\"{way}#{}\">{written}</a>",
                    escaped(&found_term.anchor())
                ));
                done = end;
            }
        }
        out.push_str(text.get(done..).unwrap_or_default());
    }
}

#[cfg(test)]
mod tests {
    use super::super::read;
    use super::*;

    fn glossary() -> Glossary {
        let term = |term: &str| format!("[[term]]\nterm = \"{term}\"\nsays = \"It.\"\n");
        let text: String = ["guy", "aft guy", "head", "run-away", "3-2-1", "head's plane"].map(term).concat();
        read(&text, &[]).unwrap()
    }

    #[test]
    fn a_phrase_that_means_something_else_is_no_use_of_the_term() {
        let text = "[[term]]\nterm = \"moment\"\nsays = \"It.\"\nnot = [\"for a moment\"]\n";
        let (out, uses) = read(text, &[]).unwrap().linked("For a\nmoment the moment", "", None);
        assert_eq!(out, "For a\nmoment the <a class=\"term\" href=\"#moment\">moment</a>");
        assert_eq!(uses.len(), 1);
    }

    fn linked(html: &str) -> String {
        glossary().linked(html, "g/", None).0.replace(" class=\"term\"", "")
    }

    #[test]
    fn whole_words_and_plurals_are_found_and_the_longest_form_wins() {
        assert_eq!(
            linked("<p>Heads and an Aft\nguy's arm, guyed, ahead, head-high, 3-2-1.</p>"),
            "<p><a href=\"g/#head\">Heads</a> and an <a href=\"g/#aft-guy\">Aft\nguy</a>'s arm, guyed, ahead, head-high, <a href=\"g/#3-2-1\">3-2-1</a>.</p>"
        );
        assert!(
            linked("the head's plane, the head's")
                .ends_with("#head-s-plane\">head's plane</a>, the <a href=\"g/#head\">head</a>'s")
        );
        assert_eq!(
            linked("aft, guy: run-away; run away"),
            "aft, <a href=\"g/#guy\">guy</a>: <a href=\"g/#run-away\">run-away</a>; run away"
        );
    }

    #[test]
    fn the_first_use_in_each_section_alone_is_a_link() {
        let html = "guy guys<h2 id=\"see\">The guy</h2><p>The <em>guy</em> and <b>guy</b></p><h3>Guy</h3><p>guy</p><h2 id=\"say\">Say</h2>guy";
        let (out, uses) = glossary().linked(html, "", None);
        assert_eq!(out.matches("<a ").count(), 3);
        assert!(out.contains("<em><a class=\"term\" href=\"#guy\">guy</a></em> and <b>guy</b>"), "{out}");
        assert_eq!(uses.iter().map(|each| each.section.as_str()).collect::<Vec<_>>(), ["", "see", "say"]);
        assert!(uses.iter().all(|each| each.term == 2), "{uses:?}");
    }

    #[test]
    fn headings_links_code_figures_and_questions_are_left_alone() {
        for html in [
            "<h3 id=\"guy\">A guy</h3>",
            "<a href=\"guy\">a <em>guy</em></a>",
            "<code>guy</code>",
            "<table><th>guy</th></table>",
            "<outlean-set id=\"guy\"><script>{\"guy\": \"guy > guy\"}</script><p>guy</p><outlean-set>guy</outlean-set>guy</outlean-set>",
            "<img alt=\"guy\">",
            "a &amp; b &lt;guyed&gt;",
            "<a href=\"guy",
        ] {
            assert_eq!(linked(html), html);
        }
        // What follows is not.
        assert_eq!(linked("<h1>guy</h1>guy"), "<h1>guy</h1><a href=\"g/#guy\">guy</a>");
        let (out, uses) = glossary().linked("guy head", "", Some(2));
        assert_eq!((out.matches("<a ").count(), uses.len()), (1, 1));
    }
}
