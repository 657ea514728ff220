//! The `choose` block of a lesson: statements of which the learner picks those that hold.
//!
//! ```toml
//! id = "which-leg"
//! rig = "rig.toml"
//! one = true                 # one and only one holds, whatever is drawn; without it several may
//! # objective, level, hint, explanation, source; asks, figure, [[vary]] where they are wanted
//!
//! [[statement]]
//! says = "With {load.mass} on the line the left leg carries more."
//! claim = "compression of the left leg > compression of the right leg"
//! because = "The line runs down it."
//!
//! [[statement]]
//! says = "Hemp does not rot."
//! fact = false
//! source = "common practice"
//! ```

use super::block::Source;
use super::question::{Figure, QuestionBlock, because, head, rig, spans};
use super::table::Table;
use super::{claim, flaw};
use outlean_course::{ChooseTemplate, Ground, Statement, Template};
use std::ops::Range;
use toml::de::DeTable;

/// Reads it.
pub fn read(source: &mut Source<'_, '_>) -> Option<QuestionBlock> {
    let before = source.complaints.len();
    let (objectives, rig_of) = (source.objectives, source.rig_of);
    let tree = source.tree();
    let mut table = source.table(tree.get_ref(), 0..0);
    let head = head(&mut table, objectives, Figure::Maybe);
    let (rig, varied) = rig(&mut table, rig_of);
    let one = table.flag("one");
    let listed = table.tables("statement");
    table.done();
    let head = head.checked(source);
    let vary = spans(source, &varied, rig.as_ref());
    let statements: Vec<Option<Statement>> =
        listed.iter().map(|(each, at)| statement(source, each, at.clone())).collect();
    if source.complaints.len() > before {
        return None;
    }
    let head = head?;
    let template = Template::Choose(ChooseTemplate {
        id: head.id.clone(),
        rig: rig?,
        vary: vary?,
        statements: statements.into_iter().collect::<Option<_>>()?,
        one: one?,
    });
    let places = flaw::Places::of(&listed, &[]);
    let template = flaw::tried(source, template, head.at.clone(), &places)?;
    Some(head.block(template))
}

fn statement(source: &mut Source<'_, '_>, table: &DeTable<'_>, at: Range<usize>) -> Option<Statement> {
    let mut table = source.table(table, at.clone());
    let says = table.words("says", "the statement itself, such as says = \"The left leg carries more.\"");
    let (has_claim, has_fact) = (table.has("claim"), table.has("fact"));
    let why = table.maybe("because", "what to say of it after the mark");
    let mut written = None;
    let mut fact = None;
    match (has_claim, has_fact) {
        (true, true) => {
            either(&mut table);
            table.complain(at, "a statement cannot have both `claim` and `fact`", "leave out one of them");
        }
        (true, false) => written = table.text("claim", "a claim that decides whether it holds"),
        (false, true) => {
            let holds = table.flag("fact");
            let cited = table.words(
                "source",
                "a fact needs its source: title, edition and place; or source = \"common practice\"",
            );
            fact = holds.zip(cited.map(|(text, _)| text));
        }
        (false, false) => {
            either(&mut table);
            table.complain(
                at,
                "nothing decides whether the statement holds",
                "give it a claim, such as claim = \"the aft guy works\", or fact = true and its source",
            );
        }
    }
    table.done();
    let why = because(source, why);
    let says = claim::text(source, &says?);
    let ground = match (written, fact) {
        (Some(written), _) => Ground::Claim(claim::claim(source, &written)?),
        (None, Some((holds, cited))) => Ground::Fact { holds, source: cited },
        (None, None) => return None,
    };
    Some(Statement { says: says?, ground, because: why? })
}

/// Makes the names known that may stand in a statement, though nothing is read from them.
fn either(table: &mut Table<'_, '_>) {
    let _ = (table.find("claim"), table.find("fact"), table.find("source"));
}
