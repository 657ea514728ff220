//! What a learner typed, read as a quantity.

use outlean_rig::Dimension;
use outlean_rigfile::{QuantityError, Reading, Unit, Units, parse_answer};

use crate::Sentence;

/// A typed answer, read.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Response {
    /// As it was typed, without the space around it.
    pub typed: String,
    /// The number as it was written, as text.
    pub written: String,
    /// The number in the unit it was written in.
    pub number: f64,
    /// That unit, or the one shown where none was written.
    pub unit: &'static str,
    /// The value, SI; of a mass given for a force what it weighs.
    pub value: f64,
    /// The unit of mass, where a mass was given for a force.
    pub mass: Option<&'static str>,
}

/// Why a typed answer cannot be read.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Unreadable {
    /// What to say: what was typed, what was expected, what is in the way.
    pub sentence: Sentence,
}

/// The unit in which a bare number is taken; of a force where it is no length: estimates ask for nothing else.
const fn shown_unit(dimension: Dimension, units: Units) -> &'static str {
    match (dimension, units) {
        (Dimension::Length, Units::Metric) => "m",
        (Dimension::Length, Units::Us) => "ft",
        (_, Units::Metric) => "kN",
        (_, Units::Us) => "lbf",
    }
}

/// Reads `text` as a quantity of `dimension`, which [`answered_in`](crate::answered_in) gives.
pub(crate) fn read(text: &str, dimension: Dimension, units: Units) -> Result<Response, Unreadable> {
    let unit = shown_unit(dimension, units);
    let typed: String = text.trim().chars().take(40).collect();
    let unreadable = |key: &str, details: &[(&'static str, String)]| {
        let mut sentence = Sentence::new(format!("unreadable.{key}"))
            .text("typed", typed.clone())
            .word("expected", expected(dimension));
        for (name, detail) in details {
            sentence = sentence.text(name, detail.clone());
        }
        Unreadable { sentence }
    };
    let answer = parse_answer(text, dimension).map_err(|why| match why {
        QuantityError::Empty => unreadable("empty", &[]),
        QuantityError::AmbiguousComma { decimal, thousands } => {
            unreadable("comma", &[("decimal", decimal), ("thousands", thousands)])
        }
        QuantityError::UnknownUnit { written, nearest: Some(nearest) } => {
            unreadable("unit_like", &[("written", written), ("nearest", nearest.symbol.to_owned())])
        }
        QuantityError::UnknownUnit { written, nearest: None } => unreadable("unit", &[("written", written)]),
        QuantityError::TooLarge => unreadable("too_large", &[]),
        _ => unreadable("number", &[]),
    })?;
    let wrote = answer.unit.map(|unit| unit.symbol);
    let (value, mass) = match (answer.reading, answer.value_si) {
        (Reading::Asked, Some(value)) => (value, None),
        (Reading::MassForForce { weight }, _) => (weight, wrote),
        (Reading::Bare, _) => (answer.number * Unit::named(unit).map_or(1.0, |unit| unit.si), None),
        _ => return Err(unreadable("other_dimension", &[("written", wrote.unwrap_or(unit).to_owned())])),
    };
    Ok(Response {
        written: written_number(&typed),
        typed,
        number: answer.number,
        unit: wrote.unwrap_or(unit),
        value,
        mass,
    })
}

/// The number at the start of what was typed, as it was typed.
fn written_number(typed: &str) -> String {
    let end = typed.rfind(|c: char| c.is_ascii_digit()).map_or(typed.len(), |last| last + 1);
    typed.get(..end).unwrap_or(typed).to_owned()
}

const fn expected(dimension: Dimension) -> &'static str {
    match dimension {
        Dimension::Length => "expected.length",
        _ => "expected.force",
    }
}
