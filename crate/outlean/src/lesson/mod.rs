//! A lesson: Markdown with front matter in TOML between `+++` lines, and fenced blocks for figures and questions.
//!
//! Front matter: `title`, `minutes`, `objectives`. A `figure` block has `name` and `rig`; questions are blocks of the
//! kinds `estimate`, `choose`, `order`, `faults` and `set`, each described in its file; a `build` block draws steps of a
//! build. A `notes` block is Markdown for who leads the lesson, about the step that it stands in: learners never see it.
//! Everything else is CommonMark. Raw HTML is refused, and so are links that run script and pictures from elsewhere: what
//! a lesson says can run nothing.

mod about;
mod anchors;
pub mod block;
mod build;
mod choose;
mod claim;
mod estimate;
mod faults;
mod figure;
mod flaw;
pub mod inline;
mod order;
mod question;
mod set;
pub mod table;
mod vary;

pub use anchors::{Anchors, TITLE, objective as objective_anchor};
use block::Source;
pub use build::{BuildBlock, Plate};
pub use estimate::EstimateBlock;
pub use question::QuestionBlock;

use outlean_course::{About, MOST_IN_OBJECTIVE};
use outlean_rig::Rig;
use pulldown_cmark::{
    CodeBlockKind, Event, HeadingLevel, MetadataBlockKind, Options, Parser, Tag, TagEnd, html,
};
use std::ops::Range;
use table::{Table, near_or};

/// Something wrong in a lesson, and what to write instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Complaint {
    /// Where, in bytes of the file.
    pub span: Range<usize>,
    /// What is wrong.
    pub message: String,
    /// What to do about it.
    pub hint: Option<String>,
}

/// A lesson that was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Lesson {
    /// Its title.
    pub title: String,
    /// How long it takes.
    pub minutes: u32,
    /// What a learner can do after it.
    pub objectives: Vec<String>,
    /// Its parts in order.
    pub body: Vec<Block>,
    /// What is for who leads the lesson alone: the anchor of a step, and HTML made here.
    pub notes: Vec<(String, String)>,
}

/// A part of a lesson.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// Text, as HTML that was made here and holds no raw HTML of the author's. The heading of a section, `<h2`, is the first of its block.
    Html(String),
    /// A figure of a rig, by its name.
    Figure {
        /// Its name, which questions call it by.
        name: String,
        /// The rig that it begins with.
        rig: Box<Rig>,
    },
    /// Steps of a build, drawn.
    Build(BuildBlock),
    /// A question that asks for a number.
    Estimate(Box<EstimateBlock>),
    /// A question of another kind.
    Question(Box<QuestionBlock>),
}

impl Block {
    /// The name of the question, and what every question has besides; `None` where nothing is asked.
    pub fn question(&self) -> Option<(&str, &About)> {
        match self {
            Self::Html(_) | Self::Figure { .. } | Self::Build(_) => None,
            Self::Estimate(block) => Some((&block.template.id, &block.about)),
            Self::Question(block) => Some((block.template.id(), &block.about)),
        }
    }

    /// What it is called by in its lesson; text has no name.
    fn name(&self) -> &str {
        match self {
            Self::Html(_) => "",
            Self::Figure { name, .. } => name,
            Self::Build(block) => &block.name,
            Self::Estimate(_) | Self::Question(_) => self.question().map_or("", |(id, _)| id),
        }
    }
}

/// The fenced blocks of a lesson.
const BLOCKS: [&str; 8] = ["figure", "build", "estimate", "choose", "order", "faults", "set", "notes"];

/// Most bytes of a file of a lesson: five times the longest.
pub const MOST_BYTES: usize = 200_000;

/// How many seeds each template is tried on when a lesson is read.
const TRIED: u64 = 200;

/// Reads a lesson, with every complaint about it. `rig_of` finds a rig by the name of its file beside the lesson.
///
/// # Errors
///
/// All complaints, in the order in which they stand.
pub fn read(text: &str, rig_of: &dyn Fn(&str) -> Option<Rig>) -> Result<Lesson, Vec<Complaint>> {
    tried(text, rig_of, TRIED)
}

/// As [`read`], every template tried on so many seeds.
pub fn tried(text: &str, rig_of: &dyn Fn(&str) -> Option<Rig>, seeds: u64) -> Result<Lesson, Vec<Complaint>> {
    let mut reader = Reader {
        rig_of,
        seeds,
        wanted: Vec::new(),
        complaints: Vec::new(),
        front: None,
        body: Vec::new(),
        notes: Vec::new(),
        anchors: Anchors::new(),
        pending: Vec::new(),
    };
    reader.walk(text);
    reader.questions_have_figures();
    let Reader { mut complaints, front, body, notes, .. } = reader;
    if front.is_none() && complaints.is_empty() {
        let hint = "begin the file with +++, title, minutes and objectives, and +++".to_owned();
        complaints.push(Complaint {
            span: 0..0,
            message: "the lesson has no front matter".into(),
            hint: Some(hint),
        });
    }
    complaints.sort_by_key(|complaint| complaint.span.start);
    match front {
        Some((title, minutes, objectives)) if complaints.is_empty() => {
            Ok(Lesson { title, minutes, objectives, body, notes })
        }
        _ => Err(complaints),
    }
}

struct Reader<'a> {
    rig_of: &'a dyn Fn(&str) -> Option<Rig>,
    seeds: u64,
    wanted: Vec<(String, Range<usize>)>,
    complaints: Vec<Complaint>,
    front: Option<(String, u32, Vec<String>)>,
    body: Vec<Block>,
    notes: Vec<(String, String)>,
    anchors: Anchors,
    pending: Vec<Event<'a>>,
}

/// What a run of text inside a tag is for.
enum Inside {
    Text,
    Front,
    Fenced(String),
}

impl<'a> Reader<'a> {
    fn complain(&mut self, span: Range<usize>, message: impl Into<String>, hint: impl Into<String>) {
        self.complaints.push(Complaint { span, message: message.into(), hint: Some(hint.into()) });
    }

    fn walk(&mut self, text: &'a str) {
        let options = Options::ENABLE_TABLES | Options::ENABLE_PLUSES_DELIMITED_METADATA_BLOCKS;
        let mut inside = Inside::Text;
        let mut toml = String::new();
        let mut toml_at: Option<usize> = None;
        for (event, span) in Parser::new_ext(text, options).into_offset_iter() {
            match (&mut inside, event) {
                (Inside::Text, Event::Start(Tag::MetadataBlock(MetadataBlockKind::PlusesStyle))) => {
                    inside = Inside::Front
                }
                (Inside::Text, Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(kind))))
                    if BLOCKS.contains(&&*kind) =>
                {
                    inside = Inside::Fenced(kind.to_string());
                }
                (Inside::Front | Inside::Fenced(_), Event::Text(part)) => {
                    toml_at.get_or_insert(span.start);
                    toml.push_str(&part);
                }
                (Inside::Front, Event::End(TagEnd::MetadataBlock(_))) => {
                    self.front_matter(&toml, toml_at.unwrap_or(span.start));
                    (inside, toml_at) = (Inside::Text, None);
                    toml.clear();
                }
                (Inside::Fenced(kind), Event::End(TagEnd::CodeBlock)) => {
                    let kind = core::mem::take(kind);
                    self.flush();
                    self.block(&kind, &toml, toml_at.unwrap_or(span.start));
                    (inside, toml_at) = (Inside::Text, None);
                    toml.clear();
                }
                (_, event) => self.text(event, span),
            }
        }
        self.flush();
    }

    /// Ordinary Markdown: kept, if it can run nothing.
    fn text(&mut self, event: Event<'a>, span: Range<usize>) {
        match &event {
            Event::Html(_) | Event::InlineHtml(_) => {
                self.complain(span, "raw HTML is not taken", "write it in Markdown, or escape < as \\<");
                return;
            }
            Event::Start(Tag::Link { dest_url, .. }) if !is_plain_link(dest_url) => {
                self.complain(
                    span,
                    format!("the link to {dest_url} is not taken"),
                    "link to https://…, to a page of the course, or to #a-heading",
                );
            }
            Event::Start(Tag::Image { .. }) => {
                self.complain(
                    span,
                    "pictures are not taken",
                    "pictures come from the rig: use a figure block",
                );
            }
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(kind))) if !kind.is_empty() => {
                let hint = near_or(kind, BLOCKS, || {
                    "use figure, build, estimate, choose, order, faults, set or notes, or no name for plain code"
                        .to_owned()
                });
                self.complain(span, format!("`{kind}` is no block that is known"), hint);
            }
            _ => {}
        }
        self.pending.push(event);
    }

    fn flush(&mut self) {
        if self.pending.is_empty() {
            return;
        }
        self.anchors.name(&mut self.pending);
        let mut depth = 0_usize;
        let mut part = Vec::new();
        for event in core::mem::take(&mut self.pending) {
            if depth == 0 && !part.is_empty() && is_section(&event) {
                self.html(part.drain(..));
            }
            match event {
                Event::Start(_) => depth += 1,
                Event::End(_) => depth = depth.saturating_sub(1),
                _ => {}
            }
            part.push(event);
        }
        self.html(part.into_iter());
    }

    fn html(&mut self, events: impl Iterator<Item = Event<'a>>) {
        let mut out = String::new();
        html::push_html(&mut out, events);
        self.body.push(Block::Html(out));
    }

    /// Notes about the step that they stand in: Markdown, which can run no more than that of the lesson.
    fn note(&mut self, text: &str, offset: usize) {
        for (event, span) in Parser::new_ext(text, Options::ENABLE_TABLES).into_offset_iter() {
            self.text(event.into_static(), span.start + offset..span.end + offset);
        }
        let mut out = String::new();
        html::push_html(&mut out, self.pending.drain(..));
        self.notes.push((self.anchors.last().to_owned(), out));
    }

    /// Takes a name as an anchor of its own.
    fn anchor(&mut self, name: &str, span: Range<usize>) {
        if !self.anchors.take(name) {
            let message = format!("`{name}` is already the name of a heading, figure, build or question");
            self.complain(span, message, "give it another name");
        }
    }

    /// Some TOML of the lesson, to be read.
    fn source<'s>(&'s mut self, body: &'s str, offset: usize) -> Source<'s, 's> {
        let objectives = self.front.as_ref().map(|(_, _, objectives)| objectives.len());
        let Self { rig_of, seeds, wanted, complaints, .. } = self;
        Source { body, offset, rig_of: *rig_of, objectives, seeds: *seeds, wanted, complaints }
    }

    fn front_matter(&mut self, toml: &str, offset: usize) {
        let mut source = self.source(toml, offset);
        let tree = source.tree();
        let mut table = source.table(tree.get_ref(), 0..0);
        let title = table.text("title", "such as title = \"Lean and its price\"");
        let minutes = table.count("minutes", 1..601, "how long the lesson takes, such as minutes = 20");
        let objectives = table.texts("objectives", "what a learner can do after it, each in quotes");
        for (text, span) in objectives.iter().flatten() {
            table.short(text, span.clone(), "an objective", MOST_IN_OBJECTIVE);
        }
        table.done();
        let objectives = objectives.map(|all| all.into_iter().map(|(text, _)| text).collect::<Vec<_>>());
        if let (Some((title, _)), Some(minutes), Some(objectives)) = (title, minutes, objectives) {
            self.anchors.objectives(objectives.len());
            self.front = Some((title, minutes, objectives));
        }
    }

    fn block(&mut self, kind: &str, toml: &str, offset: usize) {
        if kind == "notes" {
            self.note(toml, offset);
            return;
        }
        let mut source = self.source(toml, offset);
        let block = match kind {
            "figure" => figure::read(&mut source),
            "build" => build::read(&mut source).map(Block::Build),
            "estimate" => estimate::read(&mut source).map(|block| Block::Estimate(Box::new(block))),
            _ => question::read(kind, &mut source).map(|block| Block::Question(Box::new(block))),
        };
        let Some(block) = block else { return };
        let name = block.name().to_owned();
        self.anchor(&name, offset..offset);
        if let Block::Build(block) = &block {
            for number in 1..=block.steps.len() {
                self.anchor(&format!("{name}-{number}"), offset..offset);
            }
        }
        self.body.push(block);
    }

    /// A question whose figure is not in the lesson would hold nothing back.
    fn questions_have_figures(&mut self) {
        if !self.complaints.is_empty() {
            return;
        }
        let figures: Vec<String> = self
            .body
            .iter()
            .filter_map(
                |block| if let Block::Figure { name, .. } = block { Some(name.clone()) } else { None },
            )
            .collect();
        for (wanted, span) in core::mem::take(&mut self.wanted) {
            if !figures.contains(&wanted) {
                let hint = near_or(&wanted, figures.iter().map(String::as_str), || {
                    "add a figure block of that name".to_owned()
                });
                self.complain(span, format!("the lesson has no figure `{wanted}`"), hint);
            }
        }
    }
}

/// The rig in the file that a table names.
fn rig(table: &mut Table<'_, '_>, rig_of: &dyn Fn(&str) -> Option<Rig>) -> Option<Rig> {
    let (file, span) =
        table.text("rig", "name the rig file beside the lesson, such as rig = \"rig.toml\"")?;
    let rig = rig_of(&file);
    if rig.is_none() {
        let hint = "its file must stand beside the lesson and be without errors";
        table.complain(span, format!("there is no rig in {file}"), hint);
    }
    rig
}

/// Whether a section of the lesson begins.
fn is_section(event: &Event<'_>) -> bool {
    matches!(event, Event::Start(Tag::Heading { level: HeadingLevel::H2, .. }))
}

/// Whether a link can run nothing: https, a heading, or a relative path.
fn is_plain_link(to: &str) -> bool {
    to.starts_with("https://")
        || to.starts_with('#')
        || !to.split(['/', '?', '#']).next().unwrap_or_default().contains(':')
}

#[cfg(test)]
mod tests {
    use super::*;

    const FRONT: &str = "+++\ntitle = \"One\"\nminutes = 5\nobjectives = [\"Do it.\"]\n+++\n\n";

    fn complaints(body: &str) -> Vec<String> {
        let read = read(&format!("{FRONT}{body}"), &|name| {
            (name == "rig.toml").then(|| Rig::new(4.0, 1.2, 0.3, 200.0))
        });
        read.err().unwrap_or_default().into_iter().map(|complaint| complaint.message).collect()
    }

    #[test]
    fn a_plain_lesson_is_read() {
        let lesson = read(&format!("{FRONT}# Hello\n\nSome *text*.\n"), &|_| None).unwrap();
        assert_eq!((lesson.title.as_str(), lesson.minutes), ("One", 5));
        assert_eq!(
            lesson.body,
            [Block::Html("<h1 id=\"hello\">Hello</h1>\n<p>Some <em>text</em>.</p>\n".into())]
        );
    }

    /// Markdown that stands in itself as deeply as it fits is read a part at a time, never on a stack.
    #[test]
    fn a_lesson_that_is_nothing_but_depth_is_read() {
        for deep in [">", "- ", "*a ", "[", "(((", "`a", "|", "\n>> ", "&#", "<"] {
            let text = format!("{FRONT}{}", deep.repeat((MOST_BYTES - FRONT.len()) / deep.len()));
            let began = std::time::Instant::now();
            let _ = read(&text, &|_| None);
            assert!(began.elapsed().as_secs() < 20, "{deep}");
        }
    }

    #[test]
    fn the_heading_of_a_section_begins_a_block() {
        let text = "+++\ntitle = \"One\"\nminutes = 5\nobjectives = [\"See\"]\n+++\nA\n\n## B\nC\n\n> ## D\n\n## E\n";
        let blocks = read(text, &|_| None).unwrap().body;
        let begins = |block: &Block| matches!(block, Block::Html(html) if html.starts_with("<h2"));
        assert_eq!(blocks.iter().map(begins).collect::<Vec<_>>(), [false, true, true]);
        let Some(Block::Html(html)) = blocks.get(1) else { panic!("{blocks:?}") };
        assert!(html.contains("<blockquote>\n<h2 id=\"d\">D</h2>\n</blockquote>"), "{html}");
    }

    #[test]
    fn notes_stand_beside_the_lesson_by_the_step_that_they_are_about() {
        let text = format!(
            "{FRONT}```notes\nBegin *slowly*.\n```\n\n## See\n\nText.\n\n```notes\n- Point.\n```\n\n## See\n\n```notes\nAgain.\n```\n"
        );
        let lesson = read(&text, &|_| None).unwrap();
        let notes: Vec<_> = lesson.notes.iter().map(|(step, html)| (step.as_str(), html.as_str())).collect();
        assert_eq!(
            notes,
            [
                (TITLE, "<p>Begin <em>slowly</em>.</p>\n"),
                ("see", "<ul>\n<li>Point.</li>\n</ul>\n"),
                ("see-2", "<p>Again.</p>\n")
            ]
        );
        let told = format!("{:?}", lesson.body);
        assert!(!told.contains("slowly") && !told.contains("Point") && !told.contains("Again"), "{told}");
        assert_eq!(complaints("```notes\na <b>word</b>\n```\n").len(), 2);
    }

    #[test]
    fn a_name_is_an_anchor_of_one_thing() {
        let figure = "```figure\nname = \"see\"\nrig = \"rig.toml\"\n```\n";
        let wrong = ["`see` is already the name of a heading, figure, build or question"];
        assert_eq!(complaints(&format!("## See\n\n{figure}")), wrong);
        assert_eq!(complaints(&format!("{figure}\n{figure}")), wrong);
    }

    #[test]
    fn what_could_run_is_refused() {
        assert_eq!(complaints("<script>alert(1)</script>\n"), ["raw HTML is not taken"]);
        assert_eq!(complaints("a <b>word</b>\n").len(), 2);
        assert_eq!(complaints("[x](javascript:alert)\n"), ["the link to javascript:alert is not taken"]);
        assert_eq!(complaints("![x](https://elsewhere/x.png)\n"), ["pictures are not taken"]);
        assert!(complaints("[x](https://a.example/) [y](../02-feet/) [z](#top)\n").is_empty());
    }

    #[test]
    fn every_complaint_comes_at_once_with_its_place() {
        let text = format!("{FRONT}```figure\nnane = \"a\"\nrig = \"none.toml\"\n```\n\n<i>\n");
        let all = read(&text, &|_| None).unwrap_err();
        let marked: Vec<(&str, &str)> =
            all.iter().map(|complaint| (complaint.message.as_str(), &text[complaint.span.clone()])).collect();
        assert!(marked.contains(&("`nane` is not known here", "nane")), "{marked:?}");
        assert!(marked.contains(&("there is no rig in none.toml", "\"none.toml\"")), "{marked:?}");
        assert!(marked.iter().any(|(message, _)| *message == "`name` is missing"), "{marked:?}");
        assert!(marked.iter().any(|(message, _)| *message == "raw HTML is not taken"), "{marked:?}");
    }
}
