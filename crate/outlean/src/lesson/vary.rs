//! What varies in the rig of a question.

use super::block::Source;
use super::table::{Table, near_or};
use outlean_course::Span;
use outlean_rig::Dimension;
use outlean_rigfile::{Units, field, fields, show};
use std::ops::Range;
use toml::de::DeTable;

/// The field of that key; a complaint where there is none.
pub fn known(
    table: &mut Table<'_, '_>,
    name: &str,
    span: &Range<usize>,
) -> Option<outlean_rigfile::FieldRef> {
    let place = field(name);
    if place.is_none() {
        let known = fields().map(|spec| spec.key);
        let hint = near_or(name, known, || "see the list of fields".to_owned());
        table.complain(span.clone(), format!("there is no field `{name}`"), hint);
    }
    place
}

/// The spans of `[[vary]]` or another list of them.
pub fn spans(source: &mut Source<'_, '_>, tables: &[(&DeTable<'_>, Range<usize>)]) -> Option<Vec<Span>> {
    let all: Vec<Option<Span>> = tables.iter().map(|(each, at)| span(source, each, at.clone())).collect();
    all.into_iter().collect()
}

/// One span: `field`, `from`, `to`, `step`.
pub fn span(source: &mut Source<'_, '_>, table: &DeTable<'_>, at: Range<usize>) -> Option<Span> {
    let mut table = source.table(table, at);
    let name = table.text("field", "the key of a field, such as field = \"lean\"");
    let place = name.as_ref().and_then(|(name, span)| known(&mut table, name, span));
    let dimension = place.map_or(Dimension::Length, |place| place.dimension());
    let mut end = |key: &'static str, hint: &str| -> Option<(f64, bool)> {
        let (text, span) = table.text(key, hint)?;
        let us = ["ft", "in", "lb"].iter().any(|unit| text.contains(unit));
        place?;
        Some((table.as_quantity(key, &text, span, dimension)?, us))
    };
    let least = end("from", "the least value, such as from = \"18 deg\"");
    let most = end("to", "the greatest value, such as to = \"30 deg\"");
    let step = end("step", "from one value to the next, such as step = \"1 deg\"");
    if let (Some((least, _)), Some((most, _)), Some((step, _))) = (least, most, step)
        && (least > most || step <= 0.0)
    {
        let hint = "`from` is no more than `to`, and `step` is above nothing";
        table.complain(table.place(), "`from`, `to` and `step` make no list of values", hint);
    }
    if let Some(place) = place {
        let outlean_rig::Allowed { least: lowest, most: highest } = place.allowed();
        let read = |value| show(value, dimension, Units::Metric);
        for (key, end) in [("from", least), ("to", most)] {
            if end.is_some_and(|(value, _)| !(lowest..=highest).contains(&value)) {
                let message = format!("`{key}` is beyond what `{}` may be", place.spec.key);
                let hint = format!("from {} to {}", read(lowest), read(highest));
                table.complain(table.place(), message, hint);
            }
        }
    }
    table.done();
    let ((least, us), (most, _), (step, _)) = (least?, most?, step?);
    let units = if us { Units::Us } else { Units::Metric };
    Some(Span { field: name?.0, least, most, step, units })
}
