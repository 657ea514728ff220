//! The `build` block of a lesson: the build drawn step by step, each plate with what is said of it.
//!
//! ```toml
//! name = "lash-it"
//! rig = "rig.toml"
//!
//! [[step]]
//! draws = "spacer"               # one of the steps that are drawn
//! says = "Put the spacer in."
//!
//! [[step]]
//! draws = "spacer out"
//! says = "Take it out again."
//! hold = "A second person looks at every turn."   # makes it a hold point
//! ```

use super::block::Source;
use super::table::{Table, near_or};
use super::{inline, question};
use outlean_picture::BuildStep;
use outlean_rig::Rig;
use std::ops::Range;
use toml::de::DeTable;

/// The most plates of a block: more is two blocks.
const MOST: usize = 16;

/// A build as it stands in a lesson.
#[derive(Clone, Debug, PartialEq)]
pub struct BuildBlock {
    /// Its name.
    pub name: String,
    /// The rig that is built.
    pub rig: Box<Rig>,
    /// Its plates, in order.
    pub steps: Vec<Plate>,
}

/// One plate of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Plate {
    /// What it draws.
    pub draws: BuildStep,
    /// What is said of it, in Markdown.
    pub says: String,
    /// What is looked at before anyone goes on, in Markdown, where it is a hold point.
    pub hold: Option<String>,
}

/// Reads it.
pub fn read(source: &mut Source<'_, '_>) -> Option<BuildBlock> {
    let before = source.complaints.len();
    let rig_of = source.rig_of;
    let tree = source.tree();
    let mut table = source.table(tree.get_ref(), 0..0);
    let name = table.name("name", "a name of its own, such as name = \"lash-it\"", "a build");
    let rig = super::rig(&mut table, rig_of);
    let listed = table.tables("step");
    if !(1..=MOST).contains(&listed.len()) {
        let message = format!("a build has one to {MOST} steps, this one has {}", listed.len());
        let place = table.place();
        table.complain(place, message, "begin each with [[step]], and make two blocks of a long build");
    }
    table.done();
    let steps: Vec<Option<Plate>> = listed.iter().map(|(each, at)| plate(source, each, at.clone())).collect();
    if source.complaints.len() > before {
        return None;
    }
    let ((name, _), rig, steps) = (name?, rig?, steps.into_iter().collect::<Option<_>>()?);
    Some(BuildBlock { name, rig: Box::new(rig), steps })
}

fn plate(source: &mut Source<'_, '_>, table: &DeTable<'_>, at: Range<usize>) -> Option<Plate> {
    let mut table: Table<'_, '_> = source.table(table, at);
    let draws =
        table.words("draws", "what the plate draws, such as draws = \"spacer\"").and_then(|(name, span)| {
            let step = BuildStep::named(&name);
            if step.is_none() {
                let names = || BuildStep::all().map(|(name, _)| name);
                let hint = near_or(&name, names(), || {
                    format!("there are: {}", names().collect::<Vec<_>>().join(", "))
                });
                table.complain(span, format!("no step `{name}` is drawn"), hint);
            }
            step
        });
    let says = table.words("says", "what is said of it, such as says = \"Put the spacer in.\"");
    let hint = "what is looked at before anyone goes on";
    let hold = table.maybe("hold", hint);
    if let Some((text, span)) = &hold
        && text.trim().is_empty()
    {
        table.complain(span.clone(), "`hold` is empty", hint);
    }
    table.done();
    let mut told = |(text, span): question::Written| inline::check(source, &text, &span).then_some(text);
    let says = says.and_then(&mut told);
    let hold = match hold {
        Some(written) => Some(told(written)?),
        None => None,
    };
    Some(Plate { draws: draws?, says: says?, hold })
}
