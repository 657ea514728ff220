//! Writes one thing into a rig file and leaves every other byte as it was: comments, order, blank lines, line ends.
//!
//! The text is spliced at the places that the parser tells, never printed anew, and read again afterwards: what was to
//! change has changed and nothing else, or the edit is refused.

use super::MOST_BYTES;
use super::walk::{Scalar, walk, wanted};
use crate::problem::Wanted;
use core::ops::Range;
use std::collections::BTreeMap;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// Why a file was not edited.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum EditError {
    /// No rig file has such a key.
    NoSuchKey,
    /// The text is not TOML as it stands, or more than a rig file may be.
    NotToml,
    /// There is no place for it: a guy beyond the next one, a heading that is no table.
    NoPlace,
}

/// `text` with `to` written at `key` (`feet.spread`, `guy.0.setback`), as people write it: `4.6 m`, `hobble`, `yes`; with
/// nothing there any more for `None`. A key that is not there yet is added to its table, a table that is not there at
/// the end, as is the next guy. Whether it makes a rig, [`super::read`] says.
///
/// # Errors
///
/// No such key, text that is no TOML, or no place for it.
///
/// ```
/// use outlean_rigfile::edit;
/// let text = "[feet] # on the slab\nspread = '1.4 m' # taped twice\n";
/// let wider = edit(text, "feet.spread", Some("1.5 m")).unwrap();
/// assert_eq!(wider, "[feet] # on the slab\nspread = '1.5 m' # taped twice\n");
/// let rough = edit(&wider, "feet.friction", Some("0.6")).unwrap();
/// assert!(rough.ends_with("# taped twice\nfriction = \"0.6\"\n"));
/// assert_eq!(edit(&rough, "feet.friction", None).unwrap(), wider);
/// ```
pub fn edit(text: &str, key: &str, to: Option<&str>) -> Result<String, EditError> {
    let kind = kind_of(key).ok_or(EditError::NoSuchKey)?;
    let tree = parsed(text)?;
    let path: Vec<&str> = key.split('.').collect();
    let found = Place::of(text, tree.get_ref(), &path).ok_or(EditError::NoPlace)?;
    let edited = match (found, to) {
        (Place::Value { value, .. }, Some(to)) => {
            let before = text.get(value.clone()).unwrap_or_default();
            spliced(text, value, &literal(to, kind, before))
        }
        (Place::Value { value, statement, inline }, None) => without(text, statement..value.end, inline),
        (Place::New { at, before, after }, Some(to)) => {
            spliced(text, at..at, &(before + &literal(to, kind, "") + &after))
        }
        (Place::New { .. }, None) => return Ok(text.to_owned()),
    };
    let edited = edited.ok_or(EditError::NoPlace)?;
    let mut expected = written(text)?;
    match to {
        Some(to) => expected.insert(key.to_owned(), meant(to, kind)),
        None => expected.remove(key),
    };
    if written(&edited) == Ok(expected) { Ok(edited) } else { Err(EditError::NoPlace) }
}

/// The text as the parser sees it.
pub(super) fn parsed(text: &str) -> Result<Spanned<DeTable<'_>>, EditError> {
    if text.len() > MOST_BYTES {
        return Err(EditError::NotToml);
    }
    let (tree, errors) = DeTable::parse_recoverable(text);
    if errors.is_empty() { Ok(tree) } else { Err(EditError::NotToml) }
}

/// What is written at a key of that name.
fn kind_of(key: &str) -> Option<Wanted> {
    let row = match key.strip_prefix("guy.").and_then(|rest| rest.split_once('.')) {
        Some((number, name)) => {
            let number: usize = number.parse().ok()?;
            (number < outlean_rig::MAX_GUYS).then(|| format!("guy.N.{name}"))?
        }
        None => key.to_owned(),
    };
    wanted(&row)
}

/// All that stands in a file, as it is written, by its key: what a form shows before it is edited.
///
/// # Errors
///
/// Text that is no TOML.
pub fn written(text: &str) -> Result<BTreeMap<String, String>, EditError> {
    let (leaves, _) = walk(text);
    if leaves.broken {
        return Err(EditError::NotToml);
    }
    let plain = |value| match value {
        Scalar::Text(text) => text,
        Scalar::Number(number) => number,
        Scalar::Bool(value) => value.to_string(),
    };
    // One by one: what is collected into a map is sorted first, at length in a page's program.
    let mut all = BTreeMap::new();
    for (key, leaf) in leaves.values {
        all.insert(key, plain(leaf.value));
    }
    Ok(all)
}

/// Whether a word means yes, for what is yes or no.
fn yes(word: &str) -> Option<bool> {
    match word.trim() {
        "yes" | "true" => Some(true),
        "no" | "false" => Some(false),
        _ => None,
    }
}

fn meant(to: &str, kind: Wanted) -> String {
    let flag = yes(to).filter(|_| kind == Wanted::YesNo);
    flag.map_or_else(|| to.to_owned(), |flag| flag.to_string())
}

/// `to` as it stands in a file, written the way that `before` was.
fn literal(to: &str, kind: Wanted, before: &str) -> String {
    if let Some(flag) = yes(to).filter(|_| kind == Wanted::YesNo) {
        return flag.to_string();
    }
    let plain = |text: &str| {
        let digits = text.strip_prefix('-').unwrap_or(text);
        let (whole, part) = digits.split_once('.').unwrap_or((digits, "0"));
        let all = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
        all(whole) && all(part) && (whole == "0" || !whole.starts_with('0'))
    };
    if !before.is_empty() && plain(before) && plain(to) {
        return to.to_owned();
    }
    let odd = |letter: char| letter == '\'' || letter.is_control();
    if before.starts_with('\'') && !before.starts_with("'''") && !to.contains(odd) {
        return format!("'{to}'");
    }
    let mut quoted = String::from("\"");
    for letter in to.chars() {
        match letter {
            '"' | '\\' => quoted.extend(['\\', letter]),
            letter if letter.is_control() => quoted += &format!("\\u{:04X}", u32::from(letter)),
            letter => quoted.push(letter),
        }
    }
    quoted.push('"');
    quoted
}

pub(super) fn spliced(text: &str, range: Range<usize>, by: &str) -> Option<String> {
    Some(format!("{}{by}{}", text.get(..range.start)?, text.get(range.end..)?))
}

/// `text` without a statement; with what stands beside it, as a comment.
pub(super) fn without(text: &str, statement: Range<usize>, inline: bool) -> Option<String> {
    let (before, after) = (text.get(..statement.start)?, text.get(statement.end..)?);
    if inline {
        let rest = after.trim_start();
        if let Some(rest) = rest.strip_prefix(',') {
            return Some(format!("{before}{}", rest.trim_start_matches(' ')));
        }
        let kept = before.trim_end();
        return Some(format!("{}{after}", kept.strip_suffix(',').unwrap_or(before)));
    }
    let start = line_start(text, statement.start);
    let end = line_end(text, statement.end);
    let beside = text.get(statement.end..end)?;
    if beside.trim().is_empty() {
        return spliced(text, start..end, "");
    }
    spliced(text, statement.start..statement.end + (beside.len() - beside.trim_start().len()), "")
}

/// Where the line begins that holds the byte `at`.
pub(super) fn line_start(text: &str, at: usize) -> usize {
    text.get(..at).and_then(|before| before.rfind('\n')).map_or(0, |end| end + 1)
}

/// Where the line ends that holds the byte `at`, its end mark included.
pub(super) fn line_end(text: &str, at: usize) -> usize {
    text.get(at..).and_then(|after| after.find('\n')).map_or(text.len(), |end| at + end + 1)
}

/// Where the statement begins whose last name is at `key`: in braces after the last comma, else with its line.
fn begin(text: &str, key: usize, inline: bool) -> usize {
    let before = text.get(..key).unwrap_or_default();
    let start = if inline { before.rfind(['{', ',']).map_or(0, |at| at + 1) } else { line_start(text, key) };
    let indent = before.get(start..).map_or(0, |names| names.len() - names.trim_start().len());
    start + indent
}

/// Where a key stands or would.
enum Place {
    /// There: its value, where its statement begins, whether that is one of an inline table.
    Value { value: Range<usize>, statement: usize, inline: bool },
    /// Not there: what goes in at a place, before and after its value.
    New { at: usize, before: String, after: String },
}

/// How a table stands in a file.
#[derive(Clone, Copy, PartialEq)]
enum Form {
    /// Under a heading of its own; the file itself.
    Headed,
    /// In braces.
    Inline,
    /// By the dots of a key.
    Dotted,
    /// Only by the heading of a table in it.
    Implied,
}

/// A table that holds statements: the file, one under a heading, one in braces.
struct Holder<'a> {
    table: &'a DeTable<'a>,
    span: Range<usize>,
    form: Form,
    /// How many names of the path lead to it.
    depth: usize,
}

impl Place {
    fn of(text: &str, root: &DeTable<'_>, path: &[&str]) -> Option<Self> {
        let mut holder = Holder { table: root, span: 0..0, form: Form::Headed, depth: 0 };
        let (mut table, mut depth, mut dotted) = (root, 0, false);
        while let Some(name) = path.get(depth) {
            let Some((key, value)) = table.iter().find(|(key, _)| key.get_ref().as_ref() == *name) else {
                break;
            };
            depth += 1;
            match value.get_ref() {
                DeValue::Array(guys) => {
                    let number: usize = path.get(depth)?.parse().ok()?;
                    let Some(guy) = guys.get(number) else {
                        return Self::next_guy(text, value, guys.len(), path);
                    };
                    depth += 1;
                    let DeValue::Table(inner) = guy.get_ref() else { return None };
                    table = inner;
                    let form = form(text, &guy.span(), key.span().start);
                    holder = Holder { table, span: guy.span(), form, depth };
                }
                DeValue::Table(inner) => {
                    table = inner;
                    let form = form(text, &value.span(), key.span().start);
                    if matches!(form, Form::Headed | Form::Inline) {
                        holder = Holder { table, span: value.span(), form, depth };
                    }
                    dotted = form == Form::Dotted;
                }
                _ if depth == path.len() => {
                    let inline = holder.form == Form::Inline;
                    let statement = begin(text, key.span().start, inline);
                    return Some(Self::Value { value: value.span(), statement, inline });
                }
                _ => return None,
            }
        }
        (depth < path.len()).then(|| holder.new_statement(text, path, dotted)).flatten()
    }

    /// The next guy after all there are.
    fn next_guy(text: &str, guys: &Spanned<DeValue<'_>>, count: usize, path: &[&str]) -> Option<Self> {
        let (number, rest) = (path.get(1)?, path.get(2..)?.join("."));
        if number.parse() != Ok(count) {
            return None;
        }
        let written = text.get(guys.span())?;
        if written.starts_with("[[") {
            return Some(at_the_end(text, "[[guy]]", &rest));
        }
        let at = guys.span().end.checked_sub(1)?;
        let comma = if count == 0 { "" } else { ", " };
        Some(Self::New { at, before: format!("{comma}{{ {rest} = "), after: " }".to_owned() })
    }
}

/// How the table at `span`, first named at `key`, stands in the text.
fn form(text: &str, span: &Range<usize>, key: usize) -> Form {
    let headed =
        |at: usize| text.get(line_start(text, at)..).is_some_and(|line| line.trim_start().starts_with('['));
    match text.get(span.start..).and_then(|text| text.chars().next()) {
        Some('[') => Form::Headed,
        Some('{') => Form::Inline,
        _ if headed(key) => Form::Implied,
        _ => Form::Dotted,
    }
}

impl Holder<'_> {
    /// Where a statement goes that is not there yet; one beside others that name the same table by `dotted` keys stands
    /// as they do.
    fn new_statement(&self, text: &str, path: &[&str], dotted: bool) -> Option<Place> {
        let rest = path.get(self.depth..)?;
        if self.form == Form::Inline {
            let at = self.span.end.checked_sub(1)?;
            let kept = text.get(..at)?.trim_end();
            let (comma, after) = if kept.ends_with('{') { (" ", " ") } else { (", ", "") };
            let before = format!("{comma}{} = ", rest.join("."));
            return Some(Place::New { at: kept.len(), before, after: after.to_owned() });
        }
        if self.depth == 0 && rest.len() > 1 && !dotted {
            let (table, rest) = (rest.first()?, rest.get(1..)?);
            return Some(if *table == "guy" {
                if rest.first() != Some(&"0") {
                    return None;
                }
                at_the_end(text, "[[guy]]", &rest.get(1..)?.join("."))
            } else {
                at_the_end(text, &format!("[{table}]"), &rest.join("."))
            });
        }
        let last = last_of(text, self.table);
        let at = last.map(|last| line_end(text, last)).or_else(|| {
            // Under its heading, or at the top of the file.
            Some(if self.depth == 0 { 0 } else { line_end(text, self.span.end) })
        })?;
        let new = new_line(text);
        let begun = text.get(..at)?.ends_with('\n') || at == 0;
        let before = format!("{}{} = ", if begun { "" } else { new }, rest.join("."));
        Some(Place::New { at, before, after: new.to_owned() })
    }
}

/// Where the last statement of a table's own ends: not those under headings of their own.
pub(super) fn last_of(text: &str, table: &DeTable<'_>) -> Option<usize> {
    let own =
        |(key, value): (&Spanned<std::borrow::Cow<'_, str>>, &Spanned<DeValue<'_>>)| match value.get_ref() {
            DeValue::Table(inner) => match form(text, &value.span(), key.span().start) {
                Form::Inline => Some(value.span().end),
                Form::Dotted => last_of(text, inner),
                Form::Headed | Form::Implied => None,
            },
            DeValue::Array(_) if text.get(value.span()).is_some_and(|text| text.starts_with("[[")) => None,
            _ => Some(value.span().end),
        };
    table.iter().filter_map(own).max()
}

/// A heading and its first statement, after all else.
fn at_the_end(text: &str, heading: &str, rest: &str) -> Place {
    let before = format!("{}{rest} = ", heading_at_the_end(text, heading));
    Place::New { at: text.len(), before, after: new_line(text).to_owned() }
}

/// A heading as it goes after all else.
pub(super) fn heading_at_the_end(text: &str, heading: &str) -> String {
    let new = new_line(text);
    let apart = match text {
        "" => String::new(),
        text if text.ends_with('\n') => new.to_owned(),
        _ => new.repeat(2),
    };
    format!("{apart}{heading}{new}")
}

/// How the lines of a text end.
fn new_line(text: &str) -> &'static str {
    if text.contains("\r\n") { "\r\n" } else { "\n" }
}
