//! The `estimate` block of a lesson: a number that the learner predicts.
//!
//! ```toml
//! id = "leg-with-the-line"     # unlike any other of the course
//! figure = "slate"             # the figure that holds back its forces until the mark is set
//! rig = "rig.toml"             # the rig it works on, beside the lesson
//! ask = "compression of the left leg"
//! within = "8 %"               # how near counts
//! answer = ["1.5 kN", "9 kN"]  # numbers whose answer lies outside are drawn again
//! slips = ["forgot main line"] # recognised, each with its own answer
//! sides = true                 # half of the questions are put as in a mirror
//!
//! [[vary]]                     # what is drawn anew for each learner
//! field = "lean"
//! from = "18 deg"
//! to = "30 deg"
//! step = "1 deg"
//! ```
//!
//! The answer itself is never written: the core computes it.

use super::Complaint;
use super::table::Table;
use outlean_course::{ASKED, EstimateTemplate, SlipKind, Span, Tolerance, Vary, answered_in, draw};
use outlean_rig::{Allowed, Dimension, Rig};
use outlean_rigfile::{Units, field, fields, nearest};
use std::ops::Range;
use toml::de::DeTable;

/// How many seeds each template is tried on when a lesson is built.
const TRIED: u64 = 200;

/// An estimate as it stands in a lesson.
#[derive(Clone, Debug, PartialEq)]
pub struct EstimateBlock {
    /// What questions are drawn from.
    pub template: EstimateTemplate,
    /// The figure it goes with.
    pub figure: String,
}

/// Reads the body of an `estimate` block that begins at `offset` of its file. `rig_of` finds a rig by the name
/// of its file.
pub fn read(
    body: &str,
    offset: usize,
    rig_of: &dyn Fn(&str) -> Option<Rig>,
    complaints: &mut Vec<Complaint>,
) -> Option<EstimateBlock> {
    let before = complaints.len();
    let (tree, errors) = DeTable::parse_recoverable(body);
    for error in errors {
        let span = error.span().unwrap_or_default();
        let span = span.start + offset..span.end + offset;
        complaints.push(Complaint { span, message: error.message().to_owned(), hint: None });
    }
    let mut table = Table::new(tree.get_ref(), 0..0, offset, complaints);
    let id = table.text("id", "give the question a name of its own, such as id = \"leg-with-the-line\"");
    let figure = table.text("figure", "name the figure that goes with it");
    let rig = table.text("rig", "name the rig file beside the lesson, such as rig = \"rig.toml\"").and_then(
        |(name, span)| {
            let rig = rig_of(&name);
            if rig.is_none() {
                table.complain(
                    span,
                    format!("there is no rig in {name}"),
                    "its file must stand beside the lesson and be without errors",
                );
            }
            rig
        },
    );
    let ask = one_of(&mut table, "ask", &ASKED);
    let dimension = ask.and_then(answered_in).unwrap_or(Dimension::Force);
    let within = table.quantity("within", Dimension::Ratio, "how near counts, such as within = \"8 %\"");
    let answer = table
        .texts("answer", "the range that answers must lie in, such as answer = [\"1 kN\", \"9 kN\"]")
        .and_then(|ends| range(&mut table, &ends, dimension));
    let slips = table
        .texts("slips", "the slips that are recognised, such as slips = [\"forgot lean\"]")
        .map(|all| slips(&mut table, &all));
    let sides = table.flag("sides");
    let varied = table.tables("vary");
    table.done();
    let mut vary: Vec<Option<Vary>> =
        varied.iter().map(|(each, at)| span(each, at.clone(), offset, complaints)).collect();
    if sides == Some(true) {
        vary.push(Some(Vary::Sides));
    }
    if complaints.len() > before {
        return None;
    }
    let (id, at) = id?;
    let template = EstimateTemplate {
        id,
        rig: rig?,
        vary: vary.into_iter().collect::<Option<_>>()?,
        ask: ask?,
        tolerance: Tolerance { relative: within?, absolute: 0.0 },
        slips: slips??,
        answer: answer?,
    };
    for seed in 0..TRIED {
        if let Err(why) = draw(&template, seed) {
            let span = at.start + offset..at.end + offset;
            let message = format!("with seed {seed} no question can be drawn: {why:?}");
            let hint =
                "vary less, widen `answer`, or leave out a slip that comes too near the answer".to_owned();
            complaints.push(Complaint { span, message, hint: Some(hint) });
            return None;
        }
    }
    Some(EstimateBlock { template, figure: figure?.0 })
}

/// What the words at `key` mean.
fn one_of<T: Copy>(table: &mut Table<'_, '_>, key: &'static str, known: &[(&str, T)]) -> Option<T> {
    let names = || known.iter().map(|(name, _)| *name);
    let all = || names().collect::<Vec<_>>().join(", ");
    let (written, span) = table.text(key, &format!("one of: {}", all()))?;
    let found = known.iter().find(|(name, _)| *name == written).map(|(_, meant)| *meant);
    if found.is_none() {
        let hint = nearest(&written, names())
            .map_or_else(|| format!("one of: {}", all()), |near| format!("did you mean `{near}`?"));
        table.complain(span, format!("`{written}` is nothing that can be asked"), hint);
    }
    found
}

fn range(
    table: &mut Table<'_, '_>,
    ends: &[(String, Range<usize>)],
    dimension: Dimension,
) -> Option<Allowed> {
    let [(least, at), (most, to)] = ends else {
        let span = ends.first().map_or(0..0, |(_, span)| span.clone());
        table.complain(span, "`answer` must have two ends", "such as answer = [\"1 kN\", \"9 kN\"]");
        return None;
    };
    let least = table.as_quantity("answer", least, at.clone(), dimension);
    let most = table.as_quantity("answer", most, to.clone(), dimension);
    Some(Allowed { least: least?, most: most? })
}

fn slips(table: &mut Table<'_, '_>, written: &[(String, Range<usize>)]) -> Option<Vec<SlipKind>> {
    let spoken: Vec<(String, SlipKind)> =
        SlipKind::ALL.iter().map(|kind| (kind.name().replace('_', " "), *kind)).collect();
    let mut all = Some(Vec::new());
    for (name, span) in written {
        if let Some((_, kind)) = spoken.iter().find(|(each, _)| each == name) {
            if let Some(all) = &mut all {
                all.push(*kind);
            }
            continue;
        }
        let names = || spoken.iter().map(|(each, _)| each.as_str());
        let hint = nearest(name, names()).map_or_else(
            || format!("one of: {}", names().collect::<Vec<_>>().join(", ")),
            |near| format!("did you mean `{near}`?"),
        );
        table.complain(span.clone(), format!("`{name}` is no slip that is known"), hint);
        all = None;
    }
    all
}

fn span(
    table: &DeTable<'_>,
    at: Range<usize>,
    offset: usize,
    complaints: &mut Vec<Complaint>,
) -> Option<Vary> {
    let mut table = Table::new(table, at, offset, complaints);
    let name = table.text("field", "the key of a field, such as field = \"lean\"");
    let place = name.as_ref().and_then(|(name, span)| {
        let place = field(name);
        if place.is_none() {
            let known = fields().map(|spec| spec.key);
            let hint = nearest(name, known).map_or_else(
                || "see the list of fields".to_owned(),
                |near| format!("did you mean `{near}`?"),
            );
            table.complain(span.clone(), format!("there is no field `{name}`"), hint);
        }
        place
    });
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
    table.done();
    let ((least, us), (most, _), (step, _)) = (least?, most?, step?);
    let units = if us { Units::Us } else { Units::Metric };
    Some(Vary::Number(Span { field: name?.0, least, most, step, units }))
}
