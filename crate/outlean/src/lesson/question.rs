//! A question of a lesson that is no estimate, and what all of them are read with.

use super::block::Source;
use super::table::Table;
use super::{about, choose, faults, inline, order, set, vary};
use outlean_course::{About, Span, Template};
use outlean_rig::Rig;
use std::ops::Range;
use toml::de::DeTable;

/// A question as it stands in a lesson.
#[derive(Clone, Debug, PartialEq)]
pub struct QuestionBlock {
    /// What questions are drawn from.
    pub template: Template,
    /// The figure that shows its rig, if there is one.
    pub figure: Option<String>,
    /// What is asked, as its author puts it, in Markdown; what its kind asks anyway where it is not there.
    pub asks: Option<String>,
    /// What every question has besides.
    pub about: About,
}

/// Reads a `choose`, `order`, `faults` or `set` block.
pub fn read(kind: &str, source: &mut Source<'_, '_>) -> Option<QuestionBlock> {
    match kind {
        "choose" => choose::read(source),
        "order" => order::read(source),
        "faults" => faults::read(source),
        _ => set::read(source),
    }
}

/// Texts and where they are written.
pub type Written = (String, Range<usize>);

/// What blocks of every kind begin with.
pub struct Head {
    id: Option<Written>,
    figure: Option<Written>,
    asks: Option<Written>,
    about: Option<about::Read>,
}

/// Reads it. A figure must be named where `figure` says so.
pub fn head(table: &mut Table<'_, '_>, objectives: Option<usize>, figure: Figure) -> Head {
    let hint = "give the question a name of its own, such as id = \"which-leg\"";
    let id = table.question("id", hint);
    let figure = match figure {
        Figure::Needed => table.text("figure", "name the figure whose controls are moved"),
        Figure::Maybe => table.maybe("figure", "name the figure that shows the rig"),
        Figure::None => None,
    };
    let asks = table.maybe("asks", "what is asked, such as asks = \"Which of these hold?\"");
    Head { id, figure, asks, about: about::read(table, objectives) }
}

/// Whether a kind goes with a figure.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// It cannot do without.
    Needed,
    /// It may.
    Maybe,
    /// It has none.
    None,
}

/// A head with nothing wrong in it.
pub struct Whole {
    /// The question's name.
    pub id: String,
    /// Where that stands.
    pub at: Range<usize>,
    /// The figure's name.
    pub figure: Option<String>,
    /// What is asked.
    pub asks: Option<String>,
    /// The rest.
    pub about: About,
}

impl Head {
    /// The head, if nothing is wrong in it. Complains of what could run in its texts.
    pub fn checked(self, source: &mut Source<'_, '_>) -> Option<Whole> {
        let asks = match self.asks {
            Some((text, span)) if inline::check(source, &text, &span) => Some(text),
            Some(_) => return None,
            None => None,
        };
        if let Some(figure) = &self.figure {
            source.wants(figure);
        }
        let about = self.about?.checked(source)?;
        let (id, at) = self.id?;
        Some(Whole { id, at, figure: self.figure.map(|(name, _)| name), asks, about })
    }
}

impl Whole {
    /// The block of a template that was tried.
    pub fn block(self, template: Template) -> QuestionBlock {
        QuestionBlock { template, figure: self.figure, asks: self.asks, about: self.about }
    }
}

/// The rig and the tables of `[[vary]]`.
pub fn rig<'t>(
    table: &mut Table<'t, '_>,
    rig_of: &dyn Fn(&str) -> Option<Rig>,
) -> (Option<Rig>, Vec<(&'t DeTable<'t>, Range<usize>)>) {
    (super::rig(table, rig_of), table.tables("vary"))
}

/// The spans of `[[vary]]`, if they are right and the rig has what varies.
pub fn spans(
    source: &mut Source<'_, '_>,
    tables: &[(&DeTable<'_>, Range<usize>)],
    rig: Option<&Rig>,
) -> Option<Vec<Span>> {
    let spans = vary::spans(source, tables)?;
    let mut fine = true;
    for (span, (_, at)) in spans.iter().zip(tables) {
        let has =
            outlean_rigfile::field(&span.field).zip(rig).is_none_or(|(field, rig)| field.get(rig).is_some());
        if !has {
            let message = format!("the rig has no `{}` to begin with", span.field);
            let hint = "name a field that the rig file says something of".to_owned();
            source.complain(at.clone(), message, Some(hint));
            fine = false;
        }
    }
    fine.then_some(spans)
}

/// What to say of something after the mark, in Markdown that can run nothing.
pub fn because(source: &mut Source<'_, '_>, written: Option<Written>) -> Option<Option<String>> {
    match written {
        Some((text, span)) => inline::check(source, &text, &span).then_some(Some(text)),
        None => Some(None),
    }
}
