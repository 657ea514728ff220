//! The prose of a text in Markdown: what is read as sentences, and where each letter of it stands in the file.

use pulldown_cmark::{CodeBlockKind, Event, HeadingLevel, Options, Parser, Tag, TagEnd};
use std::ops::Range;
use toml::de::{DeTable, DeValue};

/// Fields of a question or of a build that are prose.
const ASKED: [&str; 6] = ["asks", "because", "explanation", "hint", "hold", "says"];

/// The heading of a list of sources: titles, not sentences.
const SOURCES: &str = "Sources";

/// A part of a text that has a grade of its own.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Part {
    /// Its name, to be told by.
    pub name: String,
    /// Where it begins: its heading, in bytes of the file.
    pub at: Range<usize>,
}

/// A paragraph, an entry of a list, a cell, a field of a question.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Passage {
    /// The part that it belongs to.
    pub part: Part,
    /// Whether it counts for the grade of its part: cells of tables and notes of who leads do not.
    pub counts: bool,
    /// What it says, without marks.
    pub text: String,
    /// From where in the text, where in the file it stands.
    from: Vec<(usize, usize)>,
}

impl Passage {
    /// Where in the file a byte of the text stands.
    pub fn source_of(&self, at: usize) -> usize {
        let (text, file) = self.from.iter().rev().find(|(text, _)| *text <= at).copied().unwrap_or_default();
        file + (at - text)
    }
}

/// What a run of events is inside of.
#[derive(Clone, Copy, PartialEq)]
enum Inside {
    Prose,
    Heading,
    Cell,
    /// Front matter, code, figures.
    Nothing,
    Notes,
    Question,
    Build,
}

/// All prose of a lesson, or of another text in Markdown.
pub fn passages(source: &str) -> Vec<Passage> {
    let mut reader = Reader {
        part: Part { name: "the beginning".to_owned(), at: 0..0 },
        questions: Part { name: "what is asked".to_owned(), at: 0..0 },
        sources: false,
        all: Vec::new(),
        text: String::new(),
        from: Vec::new(),
    };
    reader.read(source, 0, true);
    reader.all
}

struct Reader {
    part: Part,
    questions: Part,
    /// Whether this part lists sources.
    sources: bool,
    all: Vec<Passage>,
    text: String,
    from: Vec<(usize, usize)>,
}

impl Reader {
    /// Reads Markdown that stands at `offset` of the file.
    fn read(&mut self, source: &str, offset: usize, counts: bool) {
        let options = Options::ENABLE_TABLES | Options::ENABLE_PLUSES_DELIMITED_METADATA_BLOCKS;
        let mut inside = Inside::Prose;
        let mut heading = 0..0;
        for (event, at) in Parser::new_ext(source, options).into_offset_iter() {
            let at = at.start + offset..at.end + offset;
            match event {
                Event::Start(Tag::MetadataBlock(_)) => inside = Inside::Nothing,
                Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(kind))) => {
                    inside = match kind.as_ref() {
                        "notes" => Inside::Notes,
                        "build" => Inside::Build,
                        "estimate" | "choose" | "order" | "faults" | "set" => Inside::Question,
                        _ => Inside::Nothing,
                    };
                }
                Event::Start(Tag::CodeBlock(_)) => inside = Inside::Nothing,
                Event::Start(Tag::Heading { level, .. }) => {
                    inside = Inside::Heading;
                    heading = if level == HeadingLevel::H2 { at } else { 0..0 };
                }
                Event::Start(Tag::TableCell) => inside = Inside::Cell,
                Event::Text(text) if inside == Inside::Notes => self.read(&text, at.start, false),
                Event::Text(text) if inside == Inside::Question => {
                    self.fields(&text, at.start, self.questions.clone())
                }
                Event::Text(text) if inside == Inside::Build => {
                    self.fields(&text, at.start, self.part.clone())
                }
                Event::Text(text) | Event::Code(text) if inside != Inside::Nothing => {
                    self.from.push((self.text.len(), at.start));
                    self.text.push_str(&text);
                }
                Event::SoftBreak | Event::HardBreak => {
                    self.from.push((self.text.len(), at.start));
                    self.text.push(' ');
                }
                Event::End(TagEnd::Heading(_)) => {
                    let name = core::mem::take(&mut self.text);
                    self.from.clear();
                    if !heading.is_empty() {
                        self.sources = name == SOURCES;
                        self.part = Part { name: format!("the section \"{name}\""), at: heading.clone() };
                    }
                    inside = Inside::Prose;
                }
                Event::End(TagEnd::TableCell) => {
                    self.flush(false);
                    inside = Inside::Prose;
                }
                Event::End(TagEnd::CodeBlock | TagEnd::MetadataBlock(_)) => inside = Inside::Prose,
                Event::End(TagEnd::Paragraph | TagEnd::Item) | Event::Start(Tag::List(_)) => {
                    self.flush(counts)
                }
                _ => {}
            }
        }
        self.flush(counts);
    }

    fn flush(&mut self, counts: bool) {
        let (text, from) = (core::mem::take(&mut self.text), core::mem::take(&mut self.from));
        if !text.trim().is_empty() && !self.sources {
            self.all.push(Passage { part: self.part.clone(), counts, text, from });
        }
    }

    /// The fields of a block that are prose, of which `part` they are.
    fn fields(&mut self, toml: &str, offset: usize, part: Part) {
        let (tree, _) = DeTable::parse_recoverable(toml);
        self.table(tree.get_ref(), offset, &part);
    }

    fn table(&mut self, table: &DeTable<'_>, offset: usize, part: &Part) {
        for (key, value) in table {
            match value.get_ref() {
                DeValue::String(text) if ASKED.contains(&key.get_ref().as_ref()) => {
                    // Behind the quotation mark.
                    let from = vec![(0, value.span().start + 1 + offset)];
                    let (part, text) = (part.clone(), text.to_string());
                    self.all.push(Passage { part, counts: true, text, from });
                }
                DeValue::Array(list) => {
                    for each in list {
                        if let DeValue::Table(table) = each.get_ref() {
                            self.table(table, offset, part);
                        }
                    }
                }
                _ => {}
            }
        }
    }
}
