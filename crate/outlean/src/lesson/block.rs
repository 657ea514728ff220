//! A fenced block being read: its text, where it stands, and what can be said against it.

use super::Complaint;
use super::table::Table;
use crate::words::words;
use outlean_rig::Rig;
use std::ops::Range;
use toml::Spanned;
use toml::de::DeTable;

/// What the reader of a block is given.
pub struct Source<'a, 'c> {
    /// The text of the block.
    pub body: &'a str,
    /// Where it begins in the file.
    pub offset: usize,
    /// Finds a rig by the name of its file.
    pub rig_of: &'a dyn Fn(&str) -> Option<Rig>,
    /// How many objectives the lesson has; `None` where that could not be read.
    pub objectives: Option<usize>,
    /// On how many seeds a template is tried.
    pub seeds: u64,
    /// The figures that questions call for, with where they do, in bytes of the file.
    pub wanted: &'c mut Vec<(String, Range<usize>)>,
    /// What is said against it.
    pub complaints: &'c mut Vec<Complaint>,
}

impl<'a, 'c> Source<'a, 'c> {
    /// A whole file of tables with no lesson about it, such as the glossary.
    pub fn of_tables(
        body: &'a str,
        wanted: &'c mut Vec<(String, Range<usize>)>,
        complaints: &'c mut Vec<Complaint>,
    ) -> Self {
        Self { body, offset: 0, rig_of: &|_| None, objectives: None, seeds: 0, wanted, complaints }
    }
}

impl<'a> Source<'a, '_> {
    /// Its TOML as a tree; complaints where it is none.
    pub fn tree(&mut self) -> Spanned<DeTable<'a>> {
        let (tree, errors) = DeTable::parse_recoverable(self.body);
        for error in errors {
            let hint = words().say("problem.syntax.hint").to_owned();
            self.complain(error.span().unwrap_or_default(), error.message(), Some(hint));
        }
        tree
    }

    /// A table of it, to be read by name.
    pub fn table<'t>(&mut self, table: &'t DeTable<'t>, at: Range<usize>) -> Table<'t, '_> {
        Table::new(table, at, self.offset, self.complaints)
    }

    /// Notes that it calls for a figure.
    pub fn wants(&mut self, (name, span): &(String, Range<usize>)) {
        self.wanted.push((name.clone(), span.start + self.offset..span.end + self.offset));
    }

    /// Says something against `span` of the block.
    pub fn complain(&mut self, span: Range<usize>, message: impl Into<String>, hint: Option<String>) {
        let span = span.start + self.offset..span.end + self.offset;
        self.complaints.push(Complaint { span, message: message.into(), hint });
    }

    /// Where bytes `at` of a text stand that is written at `span`: the whole of it where it is written with escapes.
    pub fn within(&self, span: &Range<usize>, text: &str, at: &Range<usize>) -> Range<usize> {
        let inner = span.start + 1..span.end.saturating_sub(1);
        if self.body.get(inner.clone()) == Some(text) {
            inner.start + at.start..inner.start + at.end.max(at.start)
        } else {
            span.clone()
        }
    }
}
