//! Apply: a proposal written into the rig file that it was made for.

use crate::worked::Worked;
use outlean_plan::{Stated, differences};
use outlean_rig::{Dimension, governing};
use outlean_rigfile::{edit, field, fixed, read};

/// The text with a proposal's changes written into it; `None` where a change has no place in a file, or does not do there
/// what it was proposed for.
pub fn proposed(text: &str, Worked { file, plan, .. }: &Worked, place: usize) -> Option<String> {
    let proposal = plan.proposals.get(place)?;
    let mut changed = file.rig.clone();
    proposal.changes.iter().for_each(|change| change.apply(&mut changed));
    let mut text = text.to_owned();
    for difference in differences(&[&file.rig, &changed]) {
        let value = match difference.values.last().copied().flatten()? {
            Stated::Word(word) => word.to_owned(),
            Stated::Number(number) => written(number, field(&difference.key)?.dimension()),
        };
        text = edit(&text, &difference.key, Some(&value)).ok()?;
    }
    let there = read(&text).0?.rig;
    let found = governing(&there, there.lean).ok()?;
    (found.holds() && found.limit == proposal.governing.limit).then_some(text)
}

/// A number, in its SI unit, as it stands in a file, to a tenth of what a tape or a gauge shows.
fn written(value: f64, dimension: Dimension) -> String {
    let rounded = |value: f64, digits: usize| {
        let text = fixed(value, digits);
        let text = if text.contains('.') {
            text.trim_end_matches('0').trim_end_matches('.').to_owned()
        } else {
            text
        };
        if text == "-0" { "0".to_owned() } else { text }
    };
    match dimension {
        Dimension::Length => format!("{} m", rounded(value, 3)),
        Dimension::Angle => format!("{} deg", rounded(value.to_degrees(), 2)),
        Dimension::Mass => format!("{} kg", rounded(value, 1)),
        Dimension::Force => format!("{} N", rounded(value, 0)),
        Dimension::Count => rounded(value, 0),
        Dimension::ForcePerLength => format!("{} N/m", rounded(value, 2)),
        Dimension::Pressure => format!("{} MPa", rounded(value / 1e6, 4)),
        Dimension::Area => format!("{} cm2", rounded(value * 1e4, 2)),
        _ => rounded(value, 4),
    }
}
