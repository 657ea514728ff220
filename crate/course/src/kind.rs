//! The kinds of question under one roof: what is drawn from, what is drawn, what is answered, what is marked.

use crate::{
    Choose, ChooseMark, ChooseTemplate, EstimateTemplate, Faults, FaultsMark, FaultsTemplate, Marked, Order,
    OrderMark, OrderTemplate, Question, Sentence, Set, SetMark, SetTemplate, Undrawn, Unmarked, Verdict,
    draw, mark,
};
use outlean_rig::Rig;
use outlean_rigfile::Units;

/// A question before its numbers are drawn.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Template {
    /// A number is predicted.
    Estimate(EstimateTemplate),
    /// Statements are picked.
    Choose(ChooseTemplate),
    /// Steps are put in order.
    Order(OrderTemplate),
    /// Faults are marked.
    Faults(FaultsTemplate),
    /// Controls are moved.
    Set(SetTemplate),
}

/// A question with its numbers drawn.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Drawn {
    /// A number is predicted.
    Estimate(Question),
    /// Statements are picked.
    Choose(Choose),
    /// Steps are put in order.
    Order(Order),
    /// Faults are marked.
    Faults(Faults),
    /// Controls are moved.
    Set(Set),
}

/// What a learner answered.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Response {
    /// What was typed, and the units in which a bare number is taken.
    Estimate(String, Units),
    /// The statements picked: places as shown, from 0.
    Choose(Vec<usize>),
    /// All steps: places as shown, from 0, the first to be done first.
    Order(Vec<usize>),
    /// The items marked as faulty: places as shown, from 0.
    Faults(Vec<usize>),
    /// The rig as it was left.
    Set(Box<Rig>),
}

/// A marked answer.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Mark {
    /// A number.
    Estimate(Marked),
    /// Statements.
    Choose(ChooseMark),
    /// An order.
    Order(OrderMark),
    /// Faults.
    Faults(FaultsMark),
    /// A rig.
    Set(SetMark),
}

impl Template {
    /// Its name, unlike any other of the course.
    #[must_use]
    pub fn id(&self) -> &str {
        match self {
            Self::Estimate(EstimateTemplate { id, .. })
            | Self::Choose(ChooseTemplate { id, .. })
            | Self::Order(OrderTemplate { id, .. })
            | Self::Faults(FaultsTemplate { id, .. })
            | Self::Set(SetTemplate { id, .. }) => id,
        }
    }

    /// The name of its kind.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Estimate(_) => "estimate",
            Self::Choose(_) => "choose",
            Self::Order(_) => "order",
            Self::Faults(_) => "faults",
            Self::Set(_) => "set",
        }
    }

    /// The question that `seed` draws: the same on every machine, always.
    ///
    /// # Errors
    ///
    /// What is wrong with the template.
    pub fn draw(&self, seed: u64) -> Result<Drawn, Undrawn> {
        Ok(match self {
            Self::Estimate(template) => Drawn::Estimate(draw(template, seed).map_err(Undrawn::Estimate)?),
            Self::Choose(template) => Drawn::Choose(template.draw(seed)?),
            Self::Order(template) => Drawn::Order(template.draw(seed)?),
            Self::Faults(template) => Drawn::Faults(template.draw(seed)?),
            Self::Set(template) => Drawn::Set(template.draw(seed)?),
        })
    }
}

impl Drawn {
    /// The rig that it is about; `None` of an order.
    #[must_use]
    pub const fn rig(&self) -> Option<&Rig> {
        match self {
            Self::Estimate(Question { rig, .. })
            | Self::Choose(Choose { rig, .. })
            | Self::Faults(Faults { rig, .. })
            | Self::Set(Set { rig, .. }) => Some(rig),
            Self::Order(_) => None,
        }
    }

    /// Marks a response.
    ///
    /// # Errors
    ///
    /// Why it cannot be marked.
    pub fn mark(&self, response: &Response) -> Result<Mark, Unmarked> {
        Ok(match (self, response) {
            (Self::Estimate(question), Response::Estimate(typed, units)) => {
                Mark::Estimate(mark(question, typed, *units).map_err(Unmarked::Estimate)?)
            }
            (Self::Choose(question), Response::Choose(chosen)) => Mark::Choose(question.mark(chosen)?),
            (Self::Order(question), Response::Order(order)) => Mark::Order(question.mark(order)?),
            (Self::Faults(question), Response::Faults(chosen)) => Mark::Faults(question.mark(chosen)?),
            (Self::Set(question), Response::Set(rig)) => Mark::Set(question.mark(rig)),
            _ => return Err(Unmarked::OtherKind),
        })
    }
}

/// Most sentences that are said of an order: what comes first is what to put right first.
const MOST_SAID: usize = 3;

impl Mark {
    /// What is said of it.
    #[must_use]
    pub fn said(&self) -> &[Sentence] {
        match self {
            Self::Estimate(Marked { sentences, .. })
            | Self::Choose(ChooseMark { sentences, .. })
            | Self::Faults(FaultsMark { sentences, .. })
            | Self::Set(SetMark { sentences, .. }) => sentences,
            Self::Order(mark) => mark.sentences.get(..MOST_SAID).unwrap_or(&mark.sentences),
        }
    }

    /// What it was found to be, as records have it: `right`, or `other`; of an estimate as [`Verdict::name`].
    #[must_use]
    pub const fn verdict(&self) -> &'static str {
        match self {
            Self::Estimate(mark) => mark.verdict.name(),
            _ if self.right() => "right",
            _ => "other",
        }
    }

    /// Whether it is right.
    #[must_use]
    pub const fn right(&self) -> bool {
        match self {
            Self::Estimate(mark) => matches!(mark.verdict, Verdict::Right),
            Self::Choose(mark) => mark.right,
            Self::Order(mark) => mark.right,
            Self::Faults(mark) => mark.right,
            Self::Set(mark) => mark.right,
        }
    }

    /// The share that is right, 0 to 1; of an estimate as [`Verdict::share`].
    #[must_use]
    pub const fn share(&self) -> f64 {
        match self {
            Self::Estimate(mark) => mark.verdict.share(),
            Self::Choose(mark) => mark.share,
            Self::Order(mark) => mark.share,
            Self::Faults(mark) => mark.share,
            Self::Set(mark) => mark.share,
        }
    }
}
