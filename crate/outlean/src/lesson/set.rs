//! The `set` block of a lesson: the learner moves the controls of a figure until conditions hold.
//!
//! ```toml
//! id = "bring-it-inside"
//! figure = "slate"
//! rig = "rig.toml"
//! until = ["within the working range", "reach >= 1.6 m"]
//! # says = ["…", "…"]        each condition in words of one's own, as in a lesson in another language
//! # objective, level, hint, explanation, source; asks, [[vary]] where they are wanted
//!
//! [[may]]                    # what may be moved and how far
//! field = "lean"
//! from = "5 deg"
//! to = "50 deg"
//! step = "1 deg"
//! ```

use super::block::Source;
use super::question::{Figure, QuestionBlock, head, rig, spans};
use super::{claim, flaw};
use outlean_course::{CONTROLS, Condition, SetTemplate, Template};

/// Reads it.
pub fn read(source: &mut Source<'_, '_>) -> Option<QuestionBlock> {
    const UNTIL: &str = "what must hold in the end, such as until = [\"within the working range\"]";
    const SAYS: &str = "as many texts as there are conditions in `until`, each one of them in words";
    let before = source.complaints.len();
    let (objectives, rig_of) = (source.objectives, source.rig_of);
    let tree = source.tree();
    let mut table = source.table(tree.get_ref(), 0..0);
    let head = head(&mut table, objectives, Figure::Needed);
    let (rig, varied) = rig(&mut table, rig_of);
    let until = table.one_or_more("until", UNTIL);
    let says = table.any("says", SAYS).unwrap_or_default();
    if let (Some(until), Some((_, at))) = (&until, says.first())
        && until.len() != says.len()
    {
        let message = format!("`says` has {}, and there are {} conditions", says.len(), until.len());
        table.complain(at.clone(), message, SAYS);
    }
    let may = table.tables("may");
    table.done();
    let head = head.checked(source);
    let vary = spans(source, &varied, rig.as_ref());
    let moved = spans(source, &may, rig.as_ref());
    for (span, (_, at)) in moved.iter().flatten().zip(&may) {
        if !CONTROLS.contains(&span.field.as_str()) {
            let message = format!("a figure has no control that moves `{}`", span.field);
            source.complain(at.clone(), message, Some(format!("one of: {}", CONTROLS.join(", "))));
        }
    }
    let mut conditions = Vec::new();
    for (place, written) in until.iter().flatten().enumerate() {
        let says = || says.get(place).map_or_else(|| claim::spoken(&written.0), |(own, _)| own.clone());
        conditions.extend(claim::claim(source, written).map(|claim| Condition { claim, says: says() }));
    }
    if source.complaints.len() > before {
        return None;
    }
    let head = head?;
    let template = Template::Set(SetTemplate {
        id: head.id.clone(),
        rig: rig?,
        vary: vary?,
        until: conditions,
        may: moved?,
    });
    let places = flaw::Places::at(until.unwrap_or_default().into_iter().map(|(_, at)| at).collect());
    let template = flaw::tried(source, template, head.at.clone(), &places)?;
    Some(head.block(template))
}
