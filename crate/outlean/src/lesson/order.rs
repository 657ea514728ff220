//! The `order` block of a lesson: steps of a build that the learner puts in order.
//!
//! ```toml
//! id = "raise-the-frame"
//! # objective, level, hint, explanation, source; asks where it is wanted
//!
//! [[step]]
//! id = "lash"
//! says = "Lash the head."
//!
//! [[step]]
//! id = "guys"
//! says = "Tie the guys to the head."
//! after = ["lash"]           # what must come before it; what follows from that need not be said
//! because = "Nobody reaches the head once it is up."
//! ```

use super::block::Source;
use super::question::{Figure, QuestionBlock, because, head};
use super::{flaw, inline};
use outlean_course::{BuildStep, OrderTemplate, Template};
use std::ops::Range;
use toml::de::DeTable;

/// Reads it.
pub fn read(source: &mut Source<'_, '_>) -> Option<QuestionBlock> {
    let before = source.complaints.len();
    let objectives = source.objectives;
    let tree = source.tree();
    let mut table = source.table(tree.get_ref(), 0..0);
    let head = head(&mut table, objectives, Figure::None);
    let listed = table.tables("step");
    table.done();
    let head = head.checked(source);
    let steps: Vec<Option<BuildStep>> =
        listed.iter().map(|(each, at)| step(source, each, at.clone())).collect();
    if source.complaints.len() > before {
        return None;
    }
    let head = head?;
    let steps = steps.into_iter().collect::<Option<_>>()?;
    let template = Template::Order(OrderTemplate { id: head.id.clone(), steps });
    let template = flaw::tried(source, template, head.at.clone(), &flaw::Places::of(&listed, &[]))?;
    Some(head.block(template))
}

fn step(source: &mut Source<'_, '_>, table: &DeTable<'_>, at: Range<usize>) -> Option<BuildStep> {
    let mut table = source.table(table, at);
    let id = table.words("id", "a short name for the step, such as id = \"lash\"");
    let says = table.words("says", "the step itself, such as says = \"Lash the head.\"");
    let after = match table.has("after") {
        true => table.texts("after", "the names of the steps before it, such as after = [\"lash\"]"),
        false => Some(Vec::new()),
    };
    let why = table.maybe("because", "why it must wait");
    table.done();
    let says = says.filter(|(text, span)| inline::plain(source, text, span));
    let because = because(source, why)?;
    let after = after?.into_iter().map(|(name, _)| name).collect();
    Some(BuildStep { id: id?.0, says: says?.0, after, because })
}
