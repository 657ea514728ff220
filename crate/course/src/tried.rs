//! Trying a template on many seeds before anyone is asked: what an author must put right.

use crate::{Drawn, Question, Response, Template, Undrawn, answered_in, worked};
use core::ops::Range;
use outlean_rig::{Dimension, Quantity};
use outlean_rigfile::{Units, show};

/// What is wrong with a template, and the first seed that brings it out.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Flaw {
    /// The seed.
    pub seed: u64,
    /// What is wrong.
    pub what: Flawed,
}

/// What is wrong with a template.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Flawed {
    /// No question can be drawn.
    Undrawn(Undrawn),
    /// The worked solution has no steps, or one without a number.
    NotWorkedOut(Quantity),
    /// The worked solution comes to another number than the answer.
    WorkedToAnother(f64),
    /// A slip's number reads as the answer does.
    SlipReadsRight(f64),
    /// What the core calls right is not marked right, or the question is right as it is given.
    NotMarked,
}

impl Template {
    /// Tries every seed of `seeds`: a question can be drawn, what the core calls right is marked right, a question is
    /// not right as it is given, the worked solution of an estimate leads to its answer, and no slip reads as it.
    ///
    /// # Errors
    ///
    /// What is wrong, with the first seed that brings it out.
    pub fn tried(&self, seeds: Range<u64>) -> Result<(), Flaw> {
        for seed in seeds {
            let flaw = |what| Flaw { seed, what };
            let drawn = self.draw(seed).map_err(|why| flaw(Flawed::Undrawn(why)))?;
            drawn.sound().map_err(flaw)?;
        }
        Ok(())
    }
}

impl Drawn {
    /// The response that the core calls right; of an estimate the number as it is read off, in metric units.
    #[must_use]
    pub fn answer(&self) -> Response {
        let places = |right: &mut dyn Iterator<Item = bool>| {
            right.enumerate().filter(|(_, right)| *right).map(|(place, _)| place).collect()
        };
        match self {
            Self::Estimate(question) => {
                let dimension = answered_in(question.ask).unwrap_or(Dimension::Force);
                let typed = show(question.answer, dimension, Units::Metric).to_string();
                Response::Estimate(typed, Units::Metric)
            }
            Self::Choose(choose) => {
                Response::Choose(places(&mut choose.options.iter().map(|option| option.holds)))
            }
            Self::Order(order) => Response::Order(order.right.clone()),
            Self::Faults(faults) => {
                Response::Faults(places(&mut faults.items.iter().map(|item| item.faulty)))
            }
            Self::Set(set) => Response::Set(Box::new(set.solved())),
        }
    }

    /// The question as it is given, where that is a response at all.
    fn given(&self) -> Option<Response> {
        match self {
            Self::Estimate(_) | Self::Choose(_) | Self::Faults(_) => None,
            Self::Order(order) => Some(Response::Order((0..order.shown.len()).collect())),
            Self::Set(set) => Some(Response::Set(Box::new(set.rig.clone()))),
        }
    }

    fn sound(&self) -> Result<(), Flawed> {
        // First what says more than that an answer is marked wrong.
        if let Self::Estimate(question) = self {
            estimate(question)?;
        }
        let right = |response: Response| self.mark(&response).is_ok_and(|mark| mark.right());
        if !right(self.answer()) || self.given().is_some_and(right) {
            return Err(Flawed::NotMarked);
        }
        Ok(())
    }
}

fn estimate(question: &Question) -> Result<(), Flawed> {
    let answer = question.answer;
    let steps = worked(&question.rig, question.ask).map(|worked| worked.steps).unwrap_or_default();
    // A step shows a formula that comes to its number, or none, where the number is the core's own.
    let complete = steps.iter().all(|step| {
        let by_hand = step.numbers.as_ref().map_or(Some(step.value), |numbers| numbers.value());
        step.value.is_finite()
            && step.formula.is_some() == step.numbers.is_some()
            && by_hand.is_some_and(|by_hand| (by_hand - step.value).abs() <= 1e-6 * (1.0 + step.value.abs()))
    });
    let Some(last) = steps.last().filter(|_| complete) else {
        return Err(Flawed::NotWorkedOut(question.ask));
    };
    if (last.value - answer).abs() > 1e-9 * (1.0 + answer.abs()) {
        return Err(Flawed::WorkedToAnother(last.value));
    }
    if let Some(dimension) = answered_in(question.ask) {
        let reads = |value: f64| [Units::Metric, Units::Us].map(|units| show(value, dimension, units));
        let [metric, us] = reads(answer);
        for slip in &question.slips {
            let [slip_metric, slip_us] = reads(slip.value);
            if slip_metric == metric || slip_us == us {
                return Err(Flawed::SlipReadsRight(slip.value));
            }
        }
    }
    Ok(())
}
