//! Trying a template before anyone is asked, and what to tell its author.

use super::block::Source;
use outlean_course::{
    DrawError, Flaw, Flawed, Misordered, SlipKind, Template, Unclear, Undrawn, Unfit, Unsuited, VaryError,
};
use rayon::prelude::*;
use std::ops::Range;
use toml::de::DeTable;

/// Where the entries of a block stand, by number.
pub struct Places {
    entries: Vec<Range<usize>>,
    faults: Vec<Range<usize>>,
}

impl Places {
    /// Those of listed tables.
    pub fn of(entries: &[(&DeTable<'_>, Range<usize>)], faults: &[(&DeTable<'_>, Range<usize>)]) -> Self {
        let places = |list: &[(&DeTable<'_>, Range<usize>)]| list.iter().map(|(_, at)| at.clone()).collect();
        Self { entries: places(entries), faults: places(faults) }
    }

    /// Those of texts.
    pub const fn at(entries: Vec<Range<usize>>) -> Self {
        Self { entries, faults: Vec::new() }
    }
}

/// The template, if every seed that it is tried on draws a question; else a complaint at the entry at fault, or at
/// `id`.
pub fn tried(
    source: &mut Source<'_, '_>,
    template: Template,
    id: Range<usize>,
    places: &Places,
) -> Option<Template> {
    // Most of what reading a lesson takes: on all cores, the first seed at fault told.
    match (0..source.seeds).into_par_iter().find_map_first(|seed| template.tried(seed..seed + 1).err()) {
        None => Some(template),
        Some(flaw) => {
            let Told { entry, fault, message, hint } = told(&flaw);
            let entry = entry.or_else(|| slip(&template, &flaw));
            let entry = entry.and_then(|number| places.entries.get(number));
            let place = fault.and_then(|number| places.faults.get(number)).or(entry).cloned().unwrap_or(id);
            source.complain(place, message, Some(hint));
            None
        }
    }
}

/// The number of the slip that an estimate's flaw is about.
fn slip(template: &Template, flaw: &Flaw) -> Option<usize> {
    let (Template::Estimate(template), Flawed::Undrawn(Undrawn::Estimate(why))) = (template, &flaw.what)
    else {
        return None;
    };
    let kind = match why {
        DrawError::SlipDoesNotApply(kind)
        | DrawError::NoneFits {
            last:
                Unfit::SlipLeadsNowhere(kind) | Unfit::SlipNearAnswer(kind, _) | Unfit::SlipsCoincide(_, kind),
            ..
        } => kind,
        _ => return None,
    };
    template.slips.iter().position(|slip| slip == kind)
}

/// What to tell: which entry or fault is meant, what is wrong, what to do.
struct Told {
    entry: Option<usize>,
    fault: Option<usize>,
    message: String,
    hint: String,
}

fn tell(message: impl Into<String>, hint: impl Into<String>) -> Told {
    Told { entry: None, fault: None, message: message.into(), hint: hint.into() }
}

impl Told {
    fn entry(self, number: usize) -> Self {
        Self { entry: Some(number), ..self }
    }

    fn fault(self, number: usize) -> Self {
        Self { fault: Some(number), ..self }
    }
}

fn told(flaw: &Flaw) -> Told {
    let seed = flaw.seed;
    match &flaw.what {
        Flawed::Undrawn(why) => undrawn(why, seed),
        Flawed::NotWorkedOut(_) => tell(
            format!("with seed {seed} there is no worked solution"),
            "ask for what the frame carries while it stands, or vary less",
        ),
        Flawed::WorkedToAnother(_) => tell(
            format!("with seed {seed} the worked solution does not come to the answer"),
            "this is a mistake of the program, not of the lesson: report it with the lesson",
        ),
        Flawed::SlipReadsRight(_) => tell(
            format!("with seed {seed} the number of a slip reads as the answer does"),
            "vary less, or leave out the slip that comes too near the answer",
        ),
        Flawed::NotMarked => tell(
            format!(
                "with seed {seed} the right answer is not marked right, or the question is right as it is given"
            ),
            "this is a mistake of the program, not of the lesson: report it with the lesson",
        ),
    }
}

fn undrawn(why: &Undrawn, seed: u64) -> Told {
    match why {
        Undrawn::Estimate(why) => estimate(why, seed),
        Undrawn::Vary(why) => varies(why),
        Undrawn::Steps(why) => steps(why),
        Undrawn::Count { of, count, least, most } => {
            tell(format!("there are {count} of {}", listed(of)), format!("write {least} to {most}"))
        }
        Undrawn::FaultsAsked { least, most, count } => tell(
            format!("{least} to {most} faults are to be put in, and {count} are listed"),
            "`least` is at most `most`, and `most` no more than are listed",
        ),
        Undrawn::Unsound(item) => tell(
            format!("with seed {seed} this item is at fault though no fault was put in"),
            "change the rig, what varies, or the claim of `sound`",
        )
        .entry(*item),
        Undrawn::ShowsNothing(fault) => tell(
            format!("with seed {seed} this fault shows in no item"),
            "set it farther from what is sound, or add an item that shows it",
        )
        .fault(*fault),
        Undrawn::CannotSet(fault, key) => tell(
            format!("`{key}` cannot be set so on this rig"),
            "look up the range of the field, and whether the rig has such a guy or line",
        )
        .fault(*fault),
        Undrawn::NoneFits { drawn, last } => unsuited(last, *drawn, seed),
    }
}

/// What an author calls a list.
fn listed(of: &str) -> &str {
    match of {
        "statement" => "[[statement]]",
        "step" => "[[step]]",
        "item" => "[[item]]",
        "fault" => "[[fault]]",
        "condition" => "conditions in `until`",
        "field to move" => "[[may]]",
        _ => "values from `from` to `to` of what may be moved",
    }
}

fn unsuited(last: &Unsuited, drawn: u32, seed: u64) -> Told {
    let none = |why: String| format!("with seed {seed} none of {drawn} drawn rigs makes a question: {why}");
    match last {
        Unsuited::Impossible(fault) => {
            tell(none(format!("the rig cannot be computed ({fault})")), "vary less, or change the rig")
        }
        Unsuited::Tips(_) => tell(
            none("the frame tips".into()),
            "rig a guy that holds it, or, if it is meant, claim something of it: the frame stands",
        ),
        Unsuited::Absent(key) => tell(
            none(format!("the rig has no `{key}` to move")),
            "name a field that the rig file says something of",
        ),
        Unsuited::Claim(number, why) => tell(none(unclear(why)), hint_for(why)).entry(*number),
        Unsuited::Text(number, why) => tell(
            none(format!("a gap cannot be filled, {}", unclear(why))),
            "name what the rig has and what it carries while it stands",
        )
        .entry(*number),
        Unsuited::Alike(_, second) => {
            tell(none("two entries read alike".into()), "say something else in one of them, or leave one out")
                .entry(*second)
        }
        Unsuited::NotOne(count) => tell(
            none(format!("{count} statements hold, and `one = true` asks for one")),
            "leave out `one`, or change the statements or what varies",
        ),
        Unsuited::NoneHolds => {
            tell(none("no statement holds".into()), "add one that does, or change what varies")
        }
        Unsuited::AllHold => {
            tell(none("every statement holds".into()), "add one that does not, or change what varies")
        }
        Unsuited::Hidden(fault) => tell(
            none("a fault is hidden by the others that are put in with it".into()),
            "let them set different fields, or put in fewer at a time",
        )
        .fault(*fault),
        Unsuited::AllUnsound => {
            tell(none("every item is at fault".into()), "add items, or put in fewer faults at a time")
        }
        Unsuited::HoldsAlready => tell(
            none("what is to be reached holds from the start".into()),
            "begin farther from it: change the rig or what varies",
        ),
        Unsuited::OutOfReach => tell(
            none("no setting was found at which everything in `until` holds".into()),
            "widen what may be moved, or ask for less",
        ),
    }
}

fn unclear(why: &Unclear) -> String {
    match why {
        Unclear::Impossible(fault) => format!("the rig cannot be computed ({fault})"),
        Unclear::NotSolved => "the rig was not solved".into(),
        Unclear::Tips(_) => "the frame tips, and what tips carries nothing".into(),
        Unclear::NoSuchGuy => "the rig has no such guy".into(),
        Unclear::Absent(key) => format!("the rig has no `{key}`"),
        Unclear::CannotGrow(key) => format!("`{key}` cannot grow by a step"),
        Unclear::NoRange => "the lean is outside the working range, so nothing ends it".into(),
        Unclear::KnifeEdge => "the claim is a knife edge, all but as near to holding as to not".into(),
    }
}

fn hint_for(why: &Unclear) -> &'static str {
    match why {
        Unclear::KnifeEdge => "vary less, or move the claim's number: its two sides must be 2 % apart",
        Unclear::Tips(_) => "rig a guy that holds it, or claim only what a frame that tips still has",
        Unclear::NoRange => "let the lean vary inside the working range",
        _ => "claim something that the rig file says something of",
    }
}

fn steps(why: &Misordered) -> Told {
    match why {
        Misordered::Twice(name) => {
            tell(format!("two steps are called `{name}`"), "give each a name of its own")
        }
        Misordered::Unknown { step, name } => tell(
            format!("there is no step `{name}` to come before this one"),
            "in `after` stand the names, `id`, of other steps of this block",
        )
        .entry(*step),
        Misordered::Circle(names) => tell(
            format!("these steps wait for one another in a circle: {}", names.join(", ")),
            "take one of the names out of `after`",
        ),
        Misordered::Free => tell(
            "no step waits for any other: every order would be right",
            "say in `after` what must come before what",
        ),
    }
}

fn varies(why: &VaryError) -> Told {
    match why {
        VaryError::UnknownField(key) => tell(format!("there is no field `{key}`"), "see the list of fields"),
        VaryError::Absent(key) => tell(
            format!("the rig has no `{key}` to vary"),
            "name a field that the rig file says something of",
        ),
        VaryError::NotASpan(span) => tell(
            format!("`from`, `to` and `step` of `{}` make no list of values", span.field),
            "`from` is below `to`, and `step` above nothing",
        ),
        VaryError::OutOfRange(span, fault) => {
            tell(format!("`{}` varies beyond what it may be: {fault}", span.field), "vary it less")
        }
    }
}

fn estimate(why: &DrawError, seed: u64) -> Told {
    match why {
        DrawError::Vary(why) => varies(why),
        DrawError::NotAsked(_) => tell("what is asked has no unit to answer in", "ask for something else"),
        DrawError::Tolerance(_) => tell(
            "`within` is no tolerance",
            "write a share above nothing and up to 30 %, such as within = \"8 %\"",
        ),
        DrawError::SlipDoesNotApply(kind) => tell(
            format!("nobody can make the slip `{}` here", kind.name().replace('_', " ")),
            "leave it out, or ask for something that it changes",
        ),
        DrawError::NoneFits { drawn, last } => tell(
            format!("with seed {seed} none of {drawn} drawn rigs makes a question: {}", misfit(last)),
            "vary less, widen `answer`, or leave out a slip that comes too near the answer",
        ),
    }
}

fn misfit(why: &Unfit) -> String {
    let slip = |kind: &SlipKind| kind.name().replace('_', " ");
    match why {
        Unfit::Impossible(fault) => format!("the rig cannot be computed ({fault})"),
        Unfit::Tips(_) => "the frame tips".into(),
        Unfit::NothingAsked => "the rig has no such guy".into(),
        Unfit::OutOfRange(_) => "the answer lies outside of `answer`".into(),
        Unfit::SlipLeadsNowhere(kind) => format!("the slip `{}` leads to no number", slip(kind)),
        Unfit::SlipNearAnswer(kind, _) => {
            format!("the slip `{}` comes within twice the tolerance of the answer", slip(kind))
        }
        Unfit::SlipsCoincide(one, other) => {
            format!("the slips `{}` and `{}` come to the same number", slip(one), slip(other))
        }
    }
}
