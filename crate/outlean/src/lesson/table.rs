//! Reading a TOML table by name, collecting every complaint instead of stopping at the first.

use crate::lesson::Complaint;
use crate::words::words;
use outlean_course::MOST_IN_NAME;
use outlean_rig::Dimension;
use outlean_rigfile::{Problem, Said, Severity, What, nearest, parse};
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// A table being read. Names that are asked for are allowed; the rest are complained of at the end.
pub struct Table<'t, 'c> {
    table: &'t DeTable<'t>,
    /// Where the table stands, for what is missing.
    at: Range<usize>,
    /// Added to every span: where the TOML begins in the file.
    offset: usize,
    asked: Vec<&'static str>,
    complaints: &'c mut Vec<Complaint>,
}

impl<'t, 'c> Table<'t, 'c> {
    /// The reader of a table that stands at `at` of TOML which begins at `offset` of its file.
    pub const fn new(
        table: &'t DeTable<'t>,
        at: Range<usize>,
        offset: usize,
        complaints: &'c mut Vec<Complaint>,
    ) -> Self {
        Self { table, at, offset, asked: Vec::new(), complaints }
    }

    /// Complains of something at `span` of the TOML.
    pub fn complain(&mut self, span: Range<usize>, message: impl Into<String>, hint: impl Into<String>) {
        let span = span.start + self.offset..span.end + self.offset;
        self.complaints.push(Complaint { span, message: message.into(), hint: Some(hint.into()) });
    }

    /// What stands at `key`, with where it stands.
    pub fn find(&mut self, key: &'static str) -> Option<&'t Spanned<DeValue<'t>>> {
        self.asked.push(key);
        self.table.get(key)
    }

    /// What stands at `key`; a complaint where nothing does.
    fn need(&mut self, key: &'static str, hint: &str) -> Option<&'t Spanned<DeValue<'t>>> {
        let found = self.find(key);
        if found.is_none() {
            self.complain(self.at.clone(), format!("`{key}` is missing"), hint);
        }
        found
    }

    /// The text at `key`, which must be there.
    pub fn text(&mut self, key: &'static str, hint: &str) -> Option<(String, Range<usize>)> {
        let value = self.need(key, hint)?;
        self.as_text(key, value, hint)
    }

    /// The text at `key`, which must be there and say something.
    pub fn words(&mut self, key: &'static str, hint: &str) -> Option<(String, Range<usize>)> {
        let (text, span) = self.text(key, hint)?;
        if text.trim().is_empty() {
            self.complain(span, format!("`{key}` is empty"), hint);
            return None;
        }
        Some((text, span))
    }

    /// The name at `key`, which must be there: in small letters, digits and hyphens. `of` says of what it is the name.
    pub fn name(&mut self, key: &'static str, hint: &str, of: &str) -> Option<(String, Range<usize>)> {
        let (name, span) = self.words(key, hint)?;
        if !name.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-') {
            let message = format!("`{name}` is no name for {of}");
            self.complain(span.clone(), message, "use small letters, digits and hyphens");
        }
        Some((name, span))
    }

    /// The name of a question at `key`, which must be there: no longer than a record takes, or no answer to it could be kept.
    pub fn question(&mut self, key: &'static str, hint: &str) -> Option<(String, Range<usize>)> {
        let (name, span) = self.name(key, hint, "a question")?;
        self.short(&name, span.clone(), "the name of a question", MOST_IN_NAME);
        Some((name, span))
    }

    /// Complains of a text that a record does not take with an answer.
    pub fn short(&mut self, text: &str, span: Range<usize>, what: &str, most: u32) {
        let long = text.chars().count();
        if long > most as usize {
            let message = format!("{what} has {long} characters; at most {most} can be kept with an answer");
            self.complain(span, message, "make it shorter");
        }
    }

    /// The text at `key`, if it is there.
    pub fn maybe(&mut self, key: &'static str, hint: &str) -> Option<(String, Range<usize>)> {
        let value = self.find(key)?;
        self.as_text(key, value, hint)
    }

    /// Whether something stands at `key`.
    pub fn has(&self, key: &str) -> bool {
        self.table.get(key).is_some()
    }

    /// Where the table stands.
    pub fn place(&self) -> Range<usize> {
        self.at.clone()
    }

    fn as_text(
        &mut self,
        key: &str,
        value: &Spanned<DeValue<'_>>,
        hint: &str,
    ) -> Option<(String, Range<usize>)> {
        if let DeValue::String(text) = value.get_ref() {
            return Some((text.to_string(), value.span()));
        }
        self.complain(value.span(), format!("`{key}` must be text in quotes"), hint);
        None
    }

    /// The texts listed at `key`, which must be there.
    pub fn texts(&mut self, key: &'static str, hint: &str) -> Option<Vec<(String, Range<usize>)>> {
        let value = self.need(key, hint)?;
        let DeValue::Array(list) = value.get_ref() else {
            self.complain(value.span(), format!("`{key}` must be a list of texts in quotes"), hint);
            return None;
        };
        list.iter().map(|each| self.as_text(key, each, hint)).collect()
    }

    /// The text or the texts listed at `key`, which must be there.
    pub fn one_or_more(&mut self, key: &'static str, hint: &str) -> Option<Vec<(String, Range<usize>)>> {
        match self.table.get(key).map(Spanned::get_ref) {
            Some(DeValue::String(_)) => self.text(key, hint).map(|text| vec![text]),
            _ => self.texts(key, hint),
        }
    }

    /// The text or the texts listed at `key`; an empty list where there is no such key.
    pub fn any(&mut self, key: &'static str, hint: &str) -> Option<Vec<(String, Range<usize>)>> {
        let Some(value) = self.find(key) else { return Some(Vec::new()) };
        let DeValue::Array(list) = value.get_ref() else {
            return self.as_text(key, value, hint).map(|text| vec![text]);
        };
        list.iter().map(|each| self.as_text(key, each, hint)).collect()
    }

    /// The whole number at `key`, which must be there and lie in `allowed`.
    pub fn count(&mut self, key: &'static str, allowed: Range<u32>, hint: &str) -> Option<u32> {
        let value = self.need(key, hint)?;
        let number = match value.get_ref() {
            DeValue::Integer(number) => number.as_str().parse().ok(),
            _ => None,
        };
        let found = number.filter(|number| allowed.contains(number));
        if found.is_none() {
            let message =
                format!("`{key}` must be a whole number from {} to {}", allowed.start, allowed.end - 1);
            self.complain(value.span(), message, hint);
        }
        found
    }

    /// The yes or no at `key`; no where it is not there.
    pub fn flag(&mut self, key: &'static str) -> Option<bool> {
        let Some(value) = self.find(key) else { return Some(false) };
        if let DeValue::Boolean(flag) = value.get_ref() {
            return Some(*flag);
        }
        self.complain(
            value.span(),
            format!("`{key}` must be true or false"),
            "write true or false without quotes",
        );
        None
    }

    /// The tables listed at `key` (`[[key]]`), each with where it stands; none where there are none.
    pub fn tables(&mut self, key: &'static str) -> Vec<(&'t DeTable<'t>, Range<usize>)> {
        let Some(value) = self.find(key) else { return Vec::new() };
        if let DeValue::Array(list) = value.get_ref() {
            let tables: Option<Vec<_>> = list
                .iter()
                .map(|each| {
                    if let DeValue::Table(table) = each.get_ref() { Some((table, each.span())) } else { None }
                })
                .collect();
            if let Some(tables) = tables {
                return tables;
            }
        }
        self.complain(
            value.span(),
            format!("`{key}` must be a list of tables"),
            format!("begin each with [[{key}]]"),
        );
        Vec::new()
    }

    /// The quantity written at `key`, SI, which must be there.
    pub fn quantity(&mut self, key: &'static str, dimension: Dimension, hint: &str) -> Option<f64> {
        let (text, span) = self.text(key, hint)?;
        self.as_quantity(key, &text, span, dimension)
    }

    /// The quantity that `text`, which stands at `key`, says, SI.
    pub fn as_quantity(
        &mut self,
        key: &str,
        text: &str,
        span: Range<usize>,
        wanted: Dimension,
    ) -> Option<f64> {
        match parse(text, wanted) {
            Ok(value) => Some(value),
            Err(error) => {
                let what = What::BadQuantity { key: key.to_owned(), error, wanted };
                let problem = Problem { severity: Severity::Error, span, what };
                let Said { message, hint } = problem.said(words());
                self.complain(problem.span, message, hint.unwrap_or_default());
                None
            }
        }
    }

    /// The table at `key` itself, if it is there, with where it stands.
    pub fn table(&mut self, key: &'static str, hint: &str) -> Option<&'t DeTable<'t>> {
        let value = self.need(key, hint)?;
        if let DeValue::Table(table) = value.get_ref() {
            return Some(table);
        }
        self.complain(value.span(), format!("`{key}` must be a table"), hint);
        None
    }

    /// Complains of every name that was not asked for.
    pub fn done(mut self) {
        let unknown: Vec<_> = self
            .table
            .keys()
            .filter(|key| !self.asked.contains(&key.get_ref().as_ref()))
            .map(|key| (key.get_ref().to_string(), key.span()))
            .collect();
        for (name, span) in unknown {
            let hint = near_or(&name, self.asked.iter().copied(), || {
                format!("here may stand: {}", self.asked.join(", "))
            });
            self.complain(span, format!("`{name}` is not known here"), hint);
        }
    }
}

/// What to write in place of a name that is not known: the nearest of those that are, or `otherwise`.
pub fn near_or<'a>(
    written: &str,
    known: impl IntoIterator<Item = &'a str>,
    otherwise: impl FnOnce() -> String,
) -> String {
    nearest(written, known).map_or_else(otherwise, |near| format!("did you mean `{near}`?"))
}
