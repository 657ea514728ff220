//! From a template and a seed to a question with numbers.

use crate::vary::MOST_DRAWN;
use crate::{EstimateTemplate, Generator, Slip, SlipKind, Tolerance, VaryError};
use outlean_rig::{Dimension, Fault, Quantity, Rig, Tip, solve};

/// A question with its numbers drawn and its answer computed.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Question {
    /// The template's name.
    pub id: String,
    /// The seed it was drawn by.
    pub seed: u64,
    /// The rig it is about.
    pub rig: Rig,
    /// What is asked.
    pub ask: Quantity,
    /// The answer, SI, computed by the core.
    pub answer: f64,
    /// How near an answer must be.
    pub tolerance: Tolerance,
    /// The slips that are recognised, each well apart from the answer and from the others.
    pub slips: Vec<Slip>,
}

/// Why no question could be drawn: always a mistake of the template's author.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum DrawError {
    /// What varies makes no sense.
    Vary(VaryError),
    /// What is asked is not read off in a unit that people answer in (a moment).
    NotAsked(Quantity),
    /// The tolerance is not a small number above nothing: relative 0 to 0.3, absolute 0 or more, not both 0.
    Tolerance(Tolerance),
    /// A slip cannot be made on this rig when this is asked.
    SlipDoesNotApply(SlipKind),
    /// None of the many rigs drawn made a question.
    NoneFits {
        /// How many were drawn.
        drawn: u32,
        /// Why the last of them did not.
        last: Unfit,
    },
}

/// Why a drawn rig makes no question.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Unfit {
    /// It cannot be computed.
    Impossible(Fault),
    /// The frame tips.
    Tips(Tip),
    /// The rig has no such guy.
    NothingAsked,
    /// The answer is outside the template's range.
    OutOfRange(f64),
    /// The slip leads nowhere: on its rig the frame tips, or it cannot be computed.
    SlipLeadsNowhere(SlipKind),
    /// A slip's number is within twice the tolerance of the answer.
    SlipNearAnswer(SlipKind, f64),
    /// Two slips' numbers are within the tolerance of one another.
    SlipsCoincide(SlipKind, SlipKind),
}

/// What kind of number answers `ask`; `None` where people have no unit to answer in.
#[must_use]
pub const fn answered_in(ask: Quantity) -> Option<Dimension> {
    match ask {
        Quantity::LegCompression(_) | Quantity::GuyTension(_) | Quantity::HaulTension | Quantity::OnHead => {
            Some(Dimension::Force)
        }
        Quantity::Reach | Quantity::HeadHeight => Some(Dimension::Length),
        _ => None,
    }
}

/// The question that `seed` draws from `template`: the same on every machine, always.
///
/// Rigs are drawn one after another until one makes a question: it stands, its answer is in the template's
/// range, and every slip's number is more than twice the tolerance from the answer and more than the
/// tolerance from every other slip's.
///
/// # Errors
///
/// What is wrong with the template.
pub fn draw(template: &EstimateTemplate, seed: u64) -> Result<Question, DrawError> {
    check(template)?;
    let mut generator = Generator::new(seed, &template.id);
    let mut last = Unfit::NothingAsked;
    for _ in 0..MOST_DRAWN {
        let (mut rig, mut ask) = (template.rig.clone(), template.ask);
        for vary in &template.vary {
            vary.draw(&mut generator, &mut rig, &mut ask).map_err(DrawError::Vary)?;
        }
        match numbers(template, &rig, ask) {
            Ok((answer, slips)) => {
                let tolerance = template.tolerance;
                return Ok(Question { id: template.id.clone(), seed, rig, ask, answer, tolerance, slips });
            }
            Err(unfit) => last = unfit,
        }
    }
    Err(DrawError::NoneFits { drawn: MOST_DRAWN, last })
}

/// What does not depend on the seed.
fn check(template: &EstimateTemplate) -> Result<(), DrawError> {
    if answered_in(template.ask).is_none() {
        return Err(DrawError::NotAsked(template.ask));
    }
    let Tolerance { relative, absolute } = template.tolerance;
    let small = (0.0..=0.3).contains(&relative) && (0.0..f64::INFINITY).contains(&absolute);
    if !small || relative + absolute <= 0.0 {
        return Err(DrawError::Tolerance(template.tolerance));
    }
    let idle = template.slips.iter().find(|slip| !slip.applies(&template.rig, template.ask));
    idle.map_or(Ok(()), |slip| Err(DrawError::SlipDoesNotApply(*slip)))
}

/// The answer and the slips' numbers, if this rig makes a question.
fn numbers(template: &EstimateTemplate, rig: &Rig, ask: Quantity) -> Result<(f64, Vec<Slip>), Unfit> {
    let solution = solve(rig).map_err(Unfit::Impossible)?;
    if let Some(tip) = solution.tips() {
        return Err(Unfit::Tips(tip));
    }
    let answer = ask.of(&solution).ok_or(Unfit::NothingAsked)?;
    if !(template.answer.least..=template.answer.most).contains(&answer) {
        return Err(Unfit::OutOfRange(answer));
    }
    let tolerance = template.tolerance.around(answer);
    let mut slips: Vec<Slip> = Vec::new();
    for &kind in &template.slips {
        let value = kind.value(rig, &solution, ask).ok().flatten();
        let value = value.filter(|value| value.is_finite()).ok_or(Unfit::SlipLeadsNowhere(kind))?;
        if (value - answer).abs() <= 2.0 * tolerance {
            return Err(Unfit::SlipNearAnswer(kind, value));
        }
        if let Some(other) = slips.iter().find(|other| (other.value - value).abs() <= tolerance) {
            return Err(Unfit::SlipsCoincide(other.kind, kind));
        }
        slips.push(Slip { kind, value });
    }
    Ok((answer, slips))
}
