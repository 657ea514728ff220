//! Walks the tree of a rig file by the tables of fields and choices, and gathers what stands at each key.

use super::MOST_BYTES;
use crate::job::{JOB, JOB_TEXTS, LEAN_AGAIN};
use crate::problem::{Problem, Severity, Wanted, What};
use crate::{choices, fields};
use core::ops::Range;
use outlean_rig::{Dimension, MAX_GUYS};
use std::collections::BTreeMap;
use toml::de::{DeTable, DeValue};

/// A word in all that the parser says of what is nested deeper than [`MOST_DEEP`].
const TOO_DEEP: &str = "recursion";
/// How many tables and lists the parser lets stand in one another.
const MOST_DEEP: usize = 80;

/// Keys of a file that are neither a number nor a choice of the rig.
const OTHERS: &[&str] = &["title", "guy.N.name"];

/// What stands at a key.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Scalar {
    Text(String),
    /// A bare number, as written.
    Number(String),
    Bool(bool),
}

/// A key's value and where it stands.
#[derive(Clone, Debug)]
pub(super) struct Leaf {
    pub value: Scalar,
    pub span: Range<usize>,
}

/// All that stands in a file, by dotted key; guys as `guy.0.…`.
#[derive(Debug, Default)]
pub(super) struct Leaves {
    pub values: BTreeMap<String, Leaf>,
    /// Where each table stands; the file itself under "".
    pub tables: BTreeMap<String, Range<usize>>,
    /// How many guys there are, at most as many as a rig may have.
    pub guys: usize,
    /// Keys at which something stands that could not be taken in, misspelt ones by the name they are near:
    /// they are not missing.
    pub misread: Vec<String>,
    /// Whether some of the text could not be read at all, so that what is missing may stand there.
    pub broken: bool,
}

/// Reads `text` as TOML and gathers what stands in it; nothing of one that is too long.
pub(super) fn walk(text: &str) -> (Leaves, Vec<Problem>) {
    let mut walker = Walker { text, leaves: Leaves::default(), problems: Vec::new() };
    if text.len() > MOST_BYTES {
        walker.leaves.broken = true;
        walker.error(0..0, What::TooLong { bytes: text.len(), most: MOST_BYTES });
        return (walker.leaves, walker.problems);
    }
    let (tree, errors) = DeTable::parse_recoverable(text);
    walker.leaves.broken = !errors.is_empty();
    for error in errors {
        let what = match error.message() {
            message if message.contains(TOO_DEEP) => What::TooDeep { most: MOST_DEEP },
            message => What::Syntax { message: message.to_owned() },
        };
        walker.error(error.span().unwrap_or(0..0), what);
    }
    walker.leaves.tables.insert(String::new(), 0..0);
    walker.table(tree.get_ref(), "", "");
    (walker.leaves, walker.problems)
}

struct Walker<'t> {
    text: &'t str,
    leaves: Leaves,
    problems: Vec<Problem>,
}

impl Walker<'_> {
    fn error(&mut self, span: Range<usize>, what: What) {
        // Spans come from the parser; the text's own ends bound them all the same.
        let end = span.end.min(self.text.len());
        self.problems.push(Problem { severity: Severity::Error, span: span.start.min(end)..end, what });
    }

    /// A table whose keys are those of `row` (`guy.N`) in the tables of fields and choices, called `path`
    /// (`guy.0`) in the file.
    fn table(&mut self, table: &DeTable<'_>, row: &str, path: &str) {
        let names = names_under(row);
        for (key, value) in table {
            let name = key.get_ref().as_ref();
            let key_path = join(path, name);
            if !names.contains(&name) {
                self.unknown(key.span(), path, name, &names);
                continue;
            }
            let key_row = join(row, name);
            if key_row == "guy" {
                self.guys(value.get_ref(), value.span());
            } else if let Some(wanted) = wanted(&key_row) {
                self.leaf(value.get_ref(), value.span(), wanted, key_path);
            } else if let DeValue::Table(inner) = value.get_ref() {
                self.leaves.tables.insert(key_path.clone(), value.span());
                self.table(inner, &key_row, &key_path);
            } else {
                let found = value.get_ref().type_str();
                self.wrong_type(value.span(), key_path, found, Wanted::Table);
            }
        }
    }

    fn unknown(&mut self, span: Range<usize>, path: &str, name: &str, names: &[&str]) {
        let nearest = crate::nearest(name, names.iter().copied());
        if let Some(nearest) = nearest {
            self.leaves.misread.push(join(path, nearest));
        }
        // Where a heading is broken, what stands below it seems to stand elsewhere.
        let strayed = || rows().any(|row| row.split('.').any(|part| part == name));
        if self.leaves.broken && nearest.is_none() && strayed() {
            return;
        }
        let what = What::UnknownKey {
            nearest: nearest.map(str::to_owned),
            others: names.iter().map(|&name| name.to_owned()).collect(),
            key: join(path, name),
        };
        self.error(span, what);
    }

    fn wrong_type(&mut self, span: Range<usize>, key: String, found: &'static str, wanted: Wanted) {
        self.leaves.misread.push(key.clone());
        self.error(span, What::WrongType { key, found, wanted });
    }

    fn guys(&mut self, value: &DeValue<'_>, span: Range<usize>) {
        let DeValue::Array(guys) = value else {
            return self.wrong_type(span, "guy".to_owned(), value.type_str(), Wanted::Tables);
        };
        for (number, guy) in guys.iter().enumerate() {
            if number == MAX_GUYS {
                self.error(guy.span(), What::TooManyGuys { most: MAX_GUYS, count: guys.len() });
                break;
            }
            let path = format!("guy.{number}");
            self.leaves.guys = number + 1;
            self.leaves.tables.insert(path.clone(), guy.span());
            if let DeValue::Table(table) = guy.get_ref() {
                self.table(table, "guy.N", &path);
            } else {
                let found = guy.get_ref().type_str();
                self.wrong_type(guy.span(), path, found, Wanted::Table);
            }
        }
    }

    fn leaf(&mut self, value: &DeValue<'_>, span: Range<usize>, wanted: Wanted, key: String) {
        let value = match value {
            DeValue::String(text) => Scalar::Text(text.as_ref().to_owned()),
            DeValue::Integer(_) | DeValue::Float(_) => {
                Scalar::Number(self.text.get(span.clone()).unwrap_or_default().to_owned())
            }
            DeValue::Boolean(value) => Scalar::Bool(*value),
            other => return self.wrong_type(span, key, other.type_str(), wanted),
        };
        self.leaves.values.insert(key, Leaf { value, span });
    }
}

fn join(path: &str, name: &str) -> String {
    if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") }
}

/// Every row that may stand in a file.
fn rows() -> impl Iterator<Item = &'static str> {
    let fields = fields().map(|spec| spec.key);
    let job = JOB.iter().map(|field| field.key).chain(JOB_TEXTS).chain([LEAN_AGAIN]);
    fields.chain(choices().map(|spec| spec.key)).chain(OTHERS.iter().copied()).chain(job)
}

/// The names that may stand in the table `row`, in alphabetical order.
fn names_under(row: &str) -> Vec<&'static str> {
    let inside = |key: &'static str| {
        let rest = if row.is_empty() { key } else { key.strip_prefix(row)?.strip_prefix('.')? };
        rest.split('.').next()
    };
    let mut names: Vec<_> = rows().filter_map(inside).collect();
    names.sort_unstable();
    names.dedup();
    names
}

/// What must stand at the key `row`; `None` if that is a table.
pub(super) fn wanted(row: &str) -> Option<Wanted> {
    if row == "lean" || row == LEAN_AGAIN {
        return Some(Wanted::Lean);
    }
    if OTHERS.contains(&row) || JOB_TEXTS.contains(&row) {
        return Some(Wanted::Text);
    }
    if let Some(field) = JOB.iter().find(|field| field.key == row) {
        return Some(Wanted::Quantity(field.dimension));
    }
    if let Some(spec) = fields().find(|spec| spec.key == row) {
        return Some(Wanted::Quantity(spec.dimension()));
    }
    let spec = choices().find(|spec| spec.key == row)?;
    Some(if spec.options.contains(&"yes") { Wanted::YesNo } else { Wanted::Word })
}

/// Whether a number of that dimension may stand bare.
pub(super) const fn may_be_bare(dimension: Dimension) -> bool {
    matches!(dimension, Dimension::Ratio | Dimension::Count)
}
