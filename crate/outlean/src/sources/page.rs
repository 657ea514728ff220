//! The page of the index: each source with where it is used, by lesson and by the program, and how it is known.

use super::find::{Marks, parts, plain};
use super::program::{self, Taken};
use super::{Kind, Sources, Work};
use crate::lesson::{Block, Lesson, TITLE, inline};
use crate::markup::{escaped, id_of};
use crate::page::Shell;
use crate::words::words;
use outlean_course::{About, Statement, Template};
use outlean_rig::strength::{Seen, Source};
use std::collections::BTreeMap;

/// A place in a lesson that names a source.
#[derive(Clone, PartialEq, Eq)]
struct Place {
    anchor: String,
    says: String,
    asked: bool,
}

/// What is listed of one source.
#[derive(Default)]
struct Entry {
    marks: Marks,
    /// By the place of the lesson in the course.
    places: BTreeMap<usize, Vec<Place>>,
}

impl Entry {
    fn add(&mut self, lesson: usize, place: &Place, marks: Marks) {
        self.marks = self.marks.and(marks);
        let places = self.places.entry(lesson).or_default();
        if !places.contains(place) {
            places.push(place.clone());
        }
    }
}

/// What the lessons name: the listed sources, and what is named that is none of them, as it is written.
#[derive(Default)]
struct Named {
    listed: BTreeMap<usize, Entry>,
    others: BTreeMap<String, Entry>,
}

/// The page.
pub fn page(sources: &Sources, shell: &Shell, lessons: &[(String, Lesson)]) -> String {
    let say = |key: &str| escaped(shell.words.say(key));
    let mut named = Named::default();
    for (number, (_, lesson)) in lessons.iter().enumerate() {
        named.of(sources, number, lesson);
    }
    let taken = program::taken();
    let cited = |work: &Work| -> Vec<&Taken> {
        taken.iter().filter(|taken| work.cited.contains(&program::key(taken.citation))).collect()
    };
    // What the program cites and nobody listed.
    let unlisted: Vec<Work> = program::keys()
        .into_iter()
        .filter(|key| sources.0.iter().all(|work| !work.cited.contains(key)))
        .filter_map(|key| taken.iter().find(|taken| program::key(taken.citation) == key))
        .map(of_program)
        .collect();
    let mut body = format!("<p>{}</p>\n", say("sources_how"));
    for (word, kind) in Kind::ALL {
        let mut all = String::new();
        let none = Entry::default();
        for (number, work) in sources.0.iter().enumerate().filter(|(_, work)| work.kind == kind) {
            let entry = named.listed.get(&number).unwrap_or(&none);
            all.push_str(&listed(work, entry, &cited(work), lessons, shell));
        }
        for work in unlisted.iter().filter(|work| work.kind == kind) {
            all.push_str(&listed(work, &none, &cited(work), lessons, shell));
        }
        body.push_str(&group(word, &all, shell));
    }
    let as_written: String = named
        .others
        .iter()
        .map(|(said, entry)| {
            let lines = places(entry, lessons, shell);
            format!("<div>\n<dt>{}</dt>\n{lines}</div>\n", inline::html(said))
        })
        .collect();
    body.push_str(&group("written", &as_written, shell));
    shell.page("../", "sources", &body)
}

/// A heading, what it means, and what stands below it; nothing where nothing does.
fn group(word: &str, entries: &str, shell: &Shell) -> String {
    let say = |key: &str| escaped(shell.words.say(&format!("{key}.{word}")));
    if entries.is_empty() {
        return String::new();
    }
    let (heading, about) = (say("sources_kind"), say("sources_about"));
    format!("<h2 id=\"{word}\">{heading}</h2>\n<p>{about}</p>\n<dl class=\"glossary\">\n{entries}</dl>\n")
}

/// A source that the program cites, by its own words.
fn of_program(taken: &Taken) -> Work {
    let key = program::key(taken.citation);
    let title = words().say(&format!("source.{key}")).to_owned();
    let year = taken.citation.source.year().map(|year| format!(", {year}")).unwrap_or_default();
    let kind = match taken.citation.source {
        Source::CommonPractice => Kind::Practice,
        Source::Stated | Source::OurChoice => Kind::Ours,
        _ => Kind::Published,
    };
    Work { title: format!("{title}{year}"), kind, named: Vec::new(), cited: vec![key] }
}

fn listed(
    work: &Work,
    entry: &Entry,
    cited: &[&Taken],
    lessons: &[(String, Lesson)],
    shell: &Shell,
) -> String {
    let seen = |seen: Seen| cited.iter().any(|taken| taken.citation.seen == seen);
    let marks = entry.marks.and(Marks { second_hand: seen(Seen::SecondHand), memory: seen(Seen::Memory) });
    let marked = [(marks.second_hand, "second_hand"), (marks.memory, "memory")];
    let marked: Vec<String> = marked
        .into_iter()
        .filter(|(is, _)| *is)
        .map(|(_, key)| escaped(shell.words.say(&format!("sources_seen.{key}"))))
        .collect();
    let marks =
        if marked.is_empty() { String::new() } else { format!(" <span>{}</span>", marked.join("; ")) };
    let name = work.named.first().or(work.cited.first()).map(String::as_str).unwrap_or_default();
    let slug: Vec<&str> =
        name.split(|letter: char| !letter.is_alphanumeric()).filter(|part| !part.is_empty()).collect();
    let (title, lines) = (inline::html(&work.title), places(entry, lessons, shell));
    let program = in_program(cited, shell);
    let unused = if lines.is_empty() && program.is_empty() {
        format!("<dd class=\"besides\">{}</dd>\n", escaped(shell.words.say("sources_unused")))
    } else {
        String::new()
    };
    format!("<div>\n<dt id=\"of-{}\">{title}{marks}</dt>\n{lines}{program}{unused}</div>\n", slug.join("-"))
}

/// A line for each lesson that names it.
fn places(entry: &Entry, lessons: &[(String, Lesson)], shell: &Shell) -> String {
    let line = |(number, places): (&usize, &Vec<Place>)| {
        let (name, lesson) = lessons.get(*number)?;
        let links = |asked: bool| -> Vec<String> {
            let link = |place: &Place| {
                let (way, says) = (escaped(&format!("../{name}/#{}", place.anchor)), escaped(&place.says));
                format!("<a href=\"{way}\">{says}</a>")
            };
            places.iter().filter(|place| place.asked == asked).map(link).collect()
        };
        let (told, asked) = (links(false), links(true));
        let asked = if asked.is_empty() {
            None
        } else {
            Some(format!("{} {}", escaped(shell.words.say("sources_questions")), asked.join(", ")))
        };
        let all: Vec<String> = told.into_iter().chain(asked).collect();
        Some(format!("<dd class=\"besides\"><em>{}</em>: {}</dd>\n", escaped(&lesson.title), all.join(", ")))
    };
    entry.places.iter().filter_map(line).collect()
}

/// What the program takes from it, a line for each sort of thing and each way in which it was seen.
fn in_program(cited: &[&Taken], shell: &Shell) -> String {
    let mut lines: Vec<(String, Vec<&str>)> = Vec::new();
    for taken in cited {
        let sort = shell.words.say(&format!("sources_use.{}", taken.sort)).to_owned();
        let seen = match taken.citation.seen {
            Seen::Read | Seen::NotPublished => None,
            Seen::SecondHand => Some("second_hand"),
            Seen::Memory => Some("memory"),
        };
        let place = taken.citation.source.place();
        let place = Some(place).filter(|place| !place.is_empty());
        let seen = seen.map(|key| shell.words.say(&format!("sources_seen.{key}")).to_owned());
        let notes: Vec<&str> = place.into_iter().chain(seen.as_deref()).collect();
        let head = if notes.is_empty() { sort } else { format!("{sort} ({})", notes.join("; ")) };
        match lines.iter_mut().find(|(known, _)| *known == head) {
            Some((_, all)) => {
                if !all.contains(&taken.which.as_str()) {
                    all.push(&taken.which);
                }
            }
            None => lines.push((head, vec![&taken.which])),
        }
    }
    let line = |(head, all): &(String, Vec<&str>)| {
        let said = shell.words.fill("sources_program", &[("what", head), ("which", &all.join("; "))]);
        format!("<dd class=\"besides\">{}</dd>\n", escaped(&said))
    };
    lines.iter().map(line).collect()
}

impl Named {
    /// Adds what a lesson names.
    fn of(&mut self, sources: &Sources, number: usize, lesson: &Lesson) {
        let mut section = Place { anchor: TITLE.to_owned(), says: lesson.title.clone(), asked: false };
        for block in &lesson.body {
            match block {
                Block::Html(html) => {
                    let mut parts = html.split("<h2");
                    self.told(sources, number, &section, parts.next().unwrap_or_default());
                    for part in parts {
                        let (heading, rest) = part.split_once("</h2>").unwrap_or((part, ""));
                        let anchor = id_of(heading).unwrap_or(TITLE).to_owned();
                        let says = plain(&format!("<h2{heading}"));
                        section = Place { anchor, says, asked: false };
                        self.told(sources, number, &section, rest);
                    }
                }
                Block::Figure { .. } | Block::Build(_) => {}
                Block::Estimate(block) => self.asked(sources, number, &block.template.id, &block.about, &[]),
                Block::Question(block) => {
                    let facts: Vec<&str> = match &block.template {
                        Template::Choose(choose) => {
                            choose.statements.iter().filter_map(Statement::source).collect()
                        }
                        _ => Vec::new(),
                    };
                    self.asked(sources, number, block.template.id(), &block.about, &facts);
                }
            }
        }
    }

    /// Text of a lesson. Where it lists its sources each of them counts; elsewhere those that somebody published, and custom.
    fn told(&mut self, sources: &Sources, number: usize, section: &Place, html: &str) {
        if section.anchor == "sources" {
            for item in html.split("<li>").skip(1).filter_map(|rest| rest.split("</li>").next()) {
                self.add(sources, number, section, plain(item).trim());
            }
            return;
        }
        for (work, marks) in parts(html).flat_map(|part| sources.named_in(&part)) {
            if sources.0.get(work).is_some_and(|work| matches!(work.kind, Kind::Published | Kind::Practice)) {
                self.listed.entry(work).or_default().add(number, section, marks);
            }
        }
    }

    /// A question's own source, and those of the facts in it.
    fn asked(&mut self, sources: &Sources, number: usize, id: &str, about: &About, facts: &[&str]) {
        let place = Place { anchor: id.to_owned(), says: id.replace('-', " "), asked: true };
        for text in core::iter::once(about.source.as_str()).chain(facts.iter().copied()) {
            self.add(sources, number, &place, text);
        }
    }

    fn add(&mut self, sources: &Sources, number: usize, place: &Place, text: &str) {
        let found = sources.named_in(text);
        if found.is_empty() {
            self.others.entry(text.to_owned()).or_default().add(number, place, Marks::default());
        }
        for (work, marks) in found {
            self.listed.entry(work).or_default().add(number, place, marks);
        }
    }
}
