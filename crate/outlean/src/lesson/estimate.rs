//! The `estimate` block of a lesson: a number that the learner predicts.
//!
//! ```toml
//! id = "leg-with-the-line"     # unlike any other of the course
//! figure = "slate"             # the figure that holds back its forces until the mark is set
//! rig = "rig.toml"             # the rig it works on, beside the lesson
//! ask = "compression of the left leg"
//! asks = "At {load.outward_angle} outward: what does the aft guy carry?" # in the author's words; left out, in the program's
//! within = "8 %"               # how near counts
//! answer = ["1.5 kN", "9 kN"]  # numbers whose answer lies outside are drawn again
//! slips = ["forgot main line"] # recognised, each with its own answer
//! sides = true                 # half of the questions are put as in a mirror
//! objective = 2                # of the lesson's, counted from 1
//! level = 2                    # 1 to know, 2 to apply, 3 to judge
//! hint = "Take moments about the foot line."
//! explanation = "The guy holds the load's moment and presses the head down."
//! source = "common practice"
//!
//! [[vary]]                     # what is drawn anew for each learner
//! field = "lean"
//! from = "18 deg"
//! to = "30 deg"
//! step = "1 deg"
//! ```
//!
//! The answer itself is never written: the core computes it.

use super::block::Source;
use super::table::{Table, near_or};
use super::{about, flaw, vary};
use outlean_course::{ASKED, About, EstimateTemplate, SlipKind, Template, Tolerance, Vary, answered_in};
use outlean_rig::{Allowed, Dimension};
use std::ops::Range;

/// An estimate as it stands in a lesson.
#[derive(Clone, Debug, PartialEq)]
pub struct EstimateBlock {
    /// What questions are drawn from.
    pub template: EstimateTemplate,
    /// The figure it goes with.
    pub figure: String,
    /// What is asked, as its author puts it, in plain words.
    pub asks: Option<String>,
    /// What every question has besides.
    pub about: About,
}

/// Reads an `estimate` block.
pub fn read(source: &mut Source<'_, '_>) -> Option<EstimateBlock> {
    let before = source.complaints.len();
    let (objectives, rig_of) = (source.objectives, source.rig_of);
    let tree = source.tree();
    let mut table = source.table(tree.get_ref(), 0..0);
    let id = table.question("id", "give the question a name of its own, such as id = \"leg-with-the-line\"");
    let figure = table.text("figure", "name the figure that goes with it");
    let asks = table.maybe("asks", "what is asked, such as asks = \"How far out is the head?\"");
    let rig = super::rig(&mut table, rig_of);
    let about = about::read(&mut table, objectives);
    let ask = one_of(&mut table, "ask", &ASKED);
    let dimension = ask.and_then(answered_in).unwrap_or(Dimension::Force);
    let within = table.quantity("within", Dimension::Ratio, "how near counts, such as within = \"8 %\"");
    let answer = table
        .texts("answer", "the range that answers must lie in, such as answer = [\"1 kN\", \"9 kN\"]")
        .and_then(|ends| range(&mut table, &ends, dimension));
    let slips = table
        .texts("slips", "the slips that are recognised, such as slips = [\"forgot lean\"]")
        .map(|all| (slips(&mut table, &all), all.into_iter().map(|(_, at)| at).collect()));
    let sides = table.flag("sides");
    let varied = table.tables("vary");
    table.done();
    if let Some(figure) = &figure {
        source.wants(figure);
    }
    // A gap in what is asked is filled from the drawn rig.
    if let Some(written) = &asks
        && let (Some(text), Some(rig)) = (super::claim::text(source, written), &rig)
        && text.filled(rig).is_err()
    {
        let hint = "name only what the rig file says something of".to_owned();
        source.complain(written.1.clone(), "a gap in `asks` has nothing to fill it from", Some(hint));
    }
    let about = about?.checked(source);
    let mut vary: Vec<Option<Vary>> =
        varied.iter().map(|(each, at)| Some(Vary::Number(vary::span(source, each, at.clone())?))).collect();
    if sides == Some(true) {
        vary.push(Some(Vary::Sides));
    }
    if source.complaints.len() > before {
        return None;
    }
    let (id, at) = id?;
    let (kinds, slips_at) = slips?;
    let template = EstimateTemplate {
        id,
        rig: rig?,
        vary: vary.into_iter().collect::<Option<_>>()?,
        ask: ask?,
        tolerance: Tolerance { relative: within?, absolute: 0.0 },
        slips: kinds?,
        answer: answer?,
    };
    let Template::Estimate(template) =
        flaw::tried(source, Template::Estimate(template), at, &flaw::Places::at(slips_at))?
    else {
        return None;
    };
    Some(EstimateBlock { template, figure: figure?.0, asks: asks.map(|(asks, _)| asks), about: about? })
}

/// What the words at `key` mean.
fn one_of<T: Copy>(table: &mut Table<'_, '_>, key: &'static str, known: &[(&str, T)]) -> Option<T> {
    let names = || known.iter().map(|(name, _)| *name);
    let all = || names().collect::<Vec<_>>().join(", ");
    let (written, span) = table.text(key, &format!("one of: {}", all()))?;
    let found = known.iter().find(|(name, _)| *name == written).map(|(_, meant)| *meant);
    if found.is_none() {
        let hint = near_or(&written, names(), || format!("one of: {}", all()));
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
        let hint = near_or(name, names(), || format!("one of: {}", names().collect::<Vec<_>>().join(", ")));
        table.complain(span.clone(), format!("`{name}` is no slip that is known"), hint);
        all = None;
    }
    all
}
