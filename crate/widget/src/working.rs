//! The working behind a number: how it is found, with the present values, and where the rule comes from.

use crate::name::{capital, part_name};
use crate::state::State;
use crate::view::{Named, more, part_key};
use outlean_course::Step;
use outlean_picture::Words;
use outlean_rig::strength::{Symbol, Worked};
use outlean_rig::{Check, Dimension, Part, Quantity, Rig, Side, checks, slide_worked};
use outlean_rigfile::{cited, key_of_variant, percent, show};

/// What stands behind one number.
#[derive(Debug)]
pub struct Working {
    /// What the number is of, and what it is.
    pub heading: String,
    /// How it is found by hand, step by step; the last step's value is the number. Empty where no formula fits.
    pub steps: Vec<Step>,
    /// How it is found, in sentences.
    pub said: Vec<String>,
    /// Of a part: the inputs and intermediate values of what it may carry; of friction those of what a foot needs.
    pub values: Vec<Value>,
    /// Of a part: the rule, what was used of the allowable, the sources.
    pub rule: Vec<String>,
}

/// A value in the working of a check.
#[derive(Debug)]
pub struct Value {
    /// What it is.
    pub name: String,
    /// As its source writes it.
    pub written: &'static str,
    /// How much.
    pub value: String,
}

/// The working of a number of the readings, by its key there. `None` for a key that is not among them, and while
/// forces are hidden.
pub fn working(state: &State, words: &Words, key: &str) -> Option<Working> {
    if state.veiled() {
        return None;
    }
    let all = checks(state.rig(), state.solution());
    match all.iter().find(|check| part_key(check.part) == key) {
        Some(check) => Some(of_part(state, words, check)),
        None => of_reading(state, words, key),
    }
}

fn heading(words: &Words, name: &str, value: &str) -> String {
    words.fill("working.heading", &[("name", &capital(name)), ("value", value)])
}

fn of_reading(state: &State, words: &Words, key: &str) -> Option<Working> {
    let Named { name, value, .. } = more(state, words).into_iter().find(|named| named.key == key)?;
    let asked = match key {
        "reading.reach" => Some(Quantity::Reach),
        "reading.head_height" => Some(Quantity::HeadHeight),
        "reading.haul" => Some(Quantity::HaulTension),
        _ => None,
    };
    let how = format!("how.{key}");
    let mut said = Vec::new();
    if words.has(&how) {
        said.push(words.say(&how).to_owned());
    }
    let steps = steps(state.rig(), asked);
    if steps.is_empty() && said.is_empty() {
        said.push(words.say("working.core").to_owned());
    }
    let values = if key == "reading.friction" { friction(state, words) } else { Vec::new() };
    Some(Working { heading: heading(words, &name, &value), steps, said, values, rule: Vec::new() })
}

/// Of the foot that needs more of it.
fn friction(state: &State, words: &Words) -> Vec<Value> {
    let (rig, solution) = (state.rig(), state.solution());
    let needs = |side: Side| {
        let foot = solution.forces().map(|forces| forces.footing.feet.on(side).friction_needed);
        foot.flatten().unwrap_or(f64::INFINITY)
    };
    let side = if needs(Side::Left) >= needs(Side::Right) { Side::Left } else { Side::Right };
    values(state, words, &slide_worked(rig, solution, side))
}

fn values(state: &State, words: &Words, worked: &Worked) -> Vec<Value> {
    let value = |value: &outlean_rig::strength::Value| Value {
        name: words.say(&format!("symbol.{}", key_of_variant(&value.symbol))).to_owned(),
        written: value.symbol.written(),
        value: show(value.value, value.dimension, state.units()).to_string(),
    };
    worked.iter().map(value).collect()
}

fn steps(rig: &Rig, asked: Option<Quantity>) -> Vec<Step> {
    let worked = asked.and_then(|asked| outlean_course::worked(rig, asked).ok());
    let steps = worked.map(|worked| worked.steps).unwrap_or_default();
    // A chain without its formulas shows nothing of how it was found.
    if steps.iter().any(|step| step.formula.is_some()) { steps } else { Vec::new() }
}

fn of_part(state: &State, words: &Words, check: &Check) -> Working {
    let force = |value: f64| show(value, Dimension::Force, state.units()).to_string();
    let asked = match check.part {
        Part::Leg(side) => Some(Quantity::LegCompression(side)),
        Part::GuyRope(number) | Part::GuyHoldfast(number) => Some(Quantity::GuyTension(number)),
        Part::MainLine => Some(Quantity::HaulTension),
        Part::Sling if state.rig().second.is_none() => Some(Quantity::OnHead),
        _ => None,
    };
    let worked = outlean_rig::worked(state.rig(), state.solution(), check.part);
    // What it carries where the frame comes to rest is worked out there.
    let mut there = state.rig().clone();
    if let Some(rest) = worked.first().filter(|value| value.symbol == Symbol::LoadedLean) {
        there.lean = rest.value;
    }
    let steps = steps(&there, asked);
    let mut said = Vec::new();
    if steps.is_empty() {
        said.push(words.say("working.core").to_owned());
    }
    let mut rule = Vec::new();
    match check.rule {
        Some(found) => {
            rule.push(capital(words.say(&format!("check_rule.{}", key_of_variant(&found)))) + ".");
            let sources =
                [Some(found.source()), check.source].map(|source| source.map(|it| cited(it, words)));
            let mut last = String::new();
            for source in sources.into_iter().flatten() {
                if source != last {
                    rule.push(words.fill("working.source", &[("source", &source)]));
                    last = source;
                }
            }
        }
        None => rule.push(words.say("working.not_assessed").to_owned()),
    }
    if let Some((allowable, ratio)) = check.allowable.zip(check.ratio) {
        let places =
            [("carries", force(check.demand)), ("allowable", force(allowable)), ("percent", percent(ratio))];
        rule.push(
            words.fill("working.used", &places.each_ref().map(|(name, value)| (*name, value.as_str()))),
        );
    }
    Working {
        heading: heading(words, &part_name(state, check.part, words), &force(check.demand)),
        steps,
        said,
        values: values(state, words, &worked),
        rule,
    }
}
