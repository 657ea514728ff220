//! The page of the glossary: each term with what it means, its symbol and unit, what else is heard, and where it stands.

use super::{Glossary, Term, Use};
use crate::lesson::{Lesson, inline};
use crate::markup::escaped;
use crate::page::Shell;

/// The way from a page of its own to this one.
const HERE: &str = "";

impl Glossary {
    /// The page. `uses` are those of each lesson, in their order.
    pub fn page(&self, shell: &Shell, lessons: &[(String, Lesson)], uses: &[Vec<Use>]) -> String {
        let say = |key: &str| escaped(shell.words.say(key));
        let mut body = format!("<p>{}</p>\n", say("glossary_how"));
        if self.terms.is_empty() {
            body = format!("<p>{}</p>\n", say("glossary_empty"));
        } else {
            body.push_str("<dl class=\"glossary\">\n");
            for (place, term) in self.terms.iter().enumerate() {
                let (says, _) = self.linked(&inline::html(&term.says), HERE, Some(place));
                body.push_str(&format!(
                    "<div>\n<dt id=\"{}\">{}{}</dt>\n<dd>{says}</dd>\n",
                    escaped(&term.anchor()),
                    escaped(&term.term),
                    measure(term)
                ));
                for line in
                    [heard(term, shell), places(place, term, shell, lessons, uses)].into_iter().flatten()
                {
                    body.push_str(&format!("<dd class=\"besides\">{line}</dd>\n"));
                }
                body.push_str("</div>\n");
            }
            body.push_str("</dl>\n");
        }
        shell.page("../", "glossary", &body)
    }
}

/// Symbol and unit, as HTML; nothing where there is neither.
fn measure(term: &Term) -> String {
    let symbol = term.symbol.as_ref().map(|symbol| format!("<var>{}</var>", escaped(symbol)));
    let all: Vec<String> = symbol.into_iter().chain(term.unit.as_deref().map(escaped)).collect();
    if all.is_empty() { String::new() } else { format!(" <span>{}</span>", all.join(", ")) }
}

/// What else is heard, as HTML.
fn heard(term: &Term, shell: &Shell) -> Option<String> {
    let also = term.also.join(", ");
    (!also.is_empty()).then(|| escaped(&shell.words.fill("glossary_also", &[("words", &also)])))
}

/// Where it is taught and where else it is used, as HTML.
fn places(
    place: usize,
    term: &Term,
    shell: &Shell,
    lessons: &[(String, Lesson)],
    uses: &[Vec<Use>],
) -> Option<String> {
    let first =
        |uses: &Vec<Use>| uses.iter().find(|each| each.term == place).map(|each| each.section.clone());
    let mut all: Vec<(&String, &Lesson, Option<String>)> =
        lessons.iter().zip(uses).map(|((name, lesson), uses)| (name, lesson, first(uses))).collect();
    let taught = match &term.taught {
        Some(name) => all.iter().position(|(each, ..)| *each == name),
        None => all.iter().position(|(.., section)| section.is_some()),
    }?;
    let link = |(name, lesson, section): &(&String, &Lesson, Option<String>)| {
        let anchor =
            section.as_ref().filter(|section| !section.is_empty()).map(|section| format!("#{section}"));
        let way = format!("../{name}/{}", anchor.unwrap_or_default());
        format!("<a href=\"{}\">{}</a>", escaped(&way), escaped(&lesson.title))
    };
    let said = |key: &str, links: &str| escaped(shell.words.say(key)).replace("{lessons}", links);
    let mut line = said("glossary_taught", &link(&all.remove(taught)));
    let others: Vec<String> = all.iter().filter(|(.., section)| section.is_some()).map(link).collect();
    if !others.is_empty() {
        line.push(' ');
        line.push_str(&said("glossary_used", &others.join(", ")));
    }
    Some(line)
}
