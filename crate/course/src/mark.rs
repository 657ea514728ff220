//! Marking an estimate: what the given number is, and what it would have meant on the rig.

use crate::response::{Response, Unreadable, read};
use crate::sentence::part;
use crate::{Question, Sentence, SlipKind, answered_in};
use outlean_rig::{Dimension, Fault, Lean, Path, Quantity, Solution, leans_where, solve};
use outlean_rigfile::{Unit, Units};

/// What a given answer is.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Within the tolerance.
    Right,
    /// Within twice the tolerance.
    Near,
    /// The number that a likely slip leads to.
    Slip(SlipKind),
    /// The right number with another unit: it was written in `wrote` and is right in `meant`.
    UnitSlip {
        /// The unit that was written, or that a bare number was taken in.
        wrote: &'static str,
        /// The unit in which the number is right.
        meant: &'static str,
    },
    /// Any other number.
    Other,
}

impl Verdict {
    /// Its name, as records have it.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::Near => "near",
            Self::Slip(_) => "slip",
            Self::UnitSlip { .. } => "unit",
            Self::Other => "other",
        }
    }

    /// What the answer is worth: 1 right, a half near or with the unit mistaken, else 0.
    #[must_use]
    pub const fn share(&self) -> f64 {
        match self {
            Self::Right => 1.0,
            Self::Near | Self::UnitSlip { .. } => 0.5,
            Self::Slip(_) | Self::Other => 0.0,
        }
    }
}

/// No load heavier than this, kg, is told as what an answer would have meant.
const HEAVIEST: f64 = 2000.0;

/// What the given answer would have meant.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum WouldBe {
    /// On the same rig at this lean (rad) the answer would be right: of several, the nearest.
    Lean(f64),
    /// With this mass on the load line (kg) it would be right.
    Load(f64),
    /// A guy that hangs slack: nothing, or less.
    Slack,
    /// Nothing near makes it right: of a line no load below the heaviest that is looked at, else no lean that [`leans_where`] finds.
    Nowhere,
}

/// A marked answer.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Marked {
    /// What it is.
    pub verdict: Verdict,
    /// What it comes to, SI; a mass given for a force as what it weighs.
    pub given: f64,
    /// The answer, SI.
    pub answer: f64,
    /// What it would have meant; `None` where it is right, and of a slip, which tells that itself ([`SlipKind::rig`]).
    pub would_be: Option<WouldBe>,
    /// What to say: first what the answer would mean, then what happens here.
    pub sentences: Vec<Sentence>,
}

/// Why an answer could not be marked. Nothing is lost: the learner may answer again.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum MarkError {
    /// It cannot be read as the quantity asked for.
    Unreadable(Unreadable),
    /// The question itself cannot be solved; never so for a question that was drawn.
    Question(Fault),
    /// The question asks what has no unit, or its frame tips; never so for a question that was drawn.
    NoAnswer,
}

/// Marks what a learner typed, a bare number taken in the unit that `units` shows.
///
/// In this order: right; a slip whose number is within the tolerance and nearer than the answer; near; the
/// right number with the wrong unit; other.
///
/// # Errors
///
/// What was typed and what was expected, where it cannot be read.
pub fn mark(question: &Question, response: &str, units: Units) -> Result<Marked, MarkError> {
    let dimension = answered_in(question.ask).ok_or(MarkError::NoAnswer)?;
    let read = read(response, dimension, units).map_err(MarkError::Unreadable)?;
    let solution = solve(&question.rig).map_err(MarkError::Question)?;
    let verdict = verdict(question, &read, dimension);
    let would_be = would_be(question, &verdict, read.value).map_err(MarkError::Question)?;
    let about = About { question, solution: &solution, read: &read, dimension };
    let sentences = about.sentences(&verdict, would_be.as_ref());
    Ok(Marked { verdict, given: read.value, answer: question.answer, would_be, sentences })
}

fn verdict(question: &Question, read: &Response, dimension: Dimension) -> Verdict {
    let tolerance = question.tolerance.around(question.answer);
    let off = (read.value - question.answer).abs();
    if off <= tolerance {
        return match read.mass {
            Some(wrote) => Verdict::UnitSlip { wrote, meant: force_of(wrote) },
            None => Verdict::Right,
        };
    }
    let nearest = question
        .slips
        .iter()
        .map(|slip| (slip.kind, (read.value - slip.value).abs()))
        .min_by(|a, b| a.1.total_cmp(&b.1));
    if let Some((kind, apart)) = nearest
        && apart <= tolerance
        && apart < off
    {
        return Verdict::Slip(kind);
    }
    if off <= 2.0 * tolerance {
        return Verdict::Near;
    }
    // Which unit would make the number right?
    // A mass has its force already: its number in another unit is an accident.
    let right_in =
        |unit: &&Unit| read.mass.is_none() && (read.number * unit.si - question.answer).abs() <= tolerance;
    let best = likely(dimension).filter(right_in).min_by(|a, b| {
        let off = |unit: &Unit| (read.number * unit.si - question.answer).abs();
        off(a).total_cmp(&off(b))
    });
    match best {
        Some(unit) => Verdict::UnitSlip { wrote: read.unit, meant: unit.symbol },
        None => Verdict::Other,
    }
}

/// The units that people mix up.
fn likely(dimension: Dimension) -> impl Iterator<Item = &'static Unit> {
    const LIKELY: [&str; 9] = ["kN", "N", "daN", "kgf", "lbf", "m", "cm", "ft", "in"];
    Unit::of(dimension).filter(|unit| LIKELY.contains(&unit.symbol))
}

/// The force unit that goes with a unit of mass.
fn force_of(mass: &str) -> &'static str {
    if mass == "lb" { "lbf" } else { "kN" }
}

fn would_be(question: &Question, verdict: &Verdict, given: f64) -> Result<Option<WouldBe>, Fault> {
    Ok(match verdict {
        Verdict::Right | Verdict::UnitSlip { .. } | Verdict::Slip(_) => None,
        Verdict::Near | Verdict::Other => Some(match question.ask {
            Quantity::GuyTension(_) if given <= 0.0 => WouldBe::Slack,
            // What a line pulls hangs on its load, in step with it, and not on the lean.
            Quantity::HaulTension | Quantity::OnHead => {
                let mass = question.rig.load.mass * given / question.answer;
                if (1.0..HEAVIEST).contains(&mass) { WouldBe::Load(mass) } else { WouldBe::Nowhere }
            }
            _ => {
                let off = |lean: &f64| (lean - question.rig.lean).abs();
                let leans = leans_where(&question.rig, question.ask, given)?;
                let nearest = leans.into_iter().min_by(|a, b| off(a).total_cmp(&off(b)));
                nearest.map_or(WouldBe::Nowhere, WouldBe::Lean)
            }
        }),
    })
}

/// All that a sentence may speak of.
struct About<'a> {
    question: &'a Question,
    solution: &'a Solution,
    read: &'a Response,
    dimension: Dimension,
}

impl About<'_> {
    fn sentences(&self, verdict: &Verdict, would_be: Option<&WouldBe>) -> Vec<Sentence> {
        let mut said = Vec::new();
        if self.read.mass.is_some() && !matches!(verdict, Verdict::UnitSlip { .. }) {
            said.push(self.sentence("note.mass"));
        }
        said.extend(self.about(verdict, would_be));
        said
    }

    fn about(&self, verdict: &Verdict, would_be: Option<&WouldBe>) -> Vec<Sentence> {
        match verdict {
            Verdict::Right => vec![self.sentence("verdict.right")],
            Verdict::Near => {
                let mut said = vec![self.sentence("verdict.near")];
                said.extend(self.would_be(would_be));
                said
            }
            Verdict::Slip(kind) => {
                let key = self.slip_key(*kind);
                let value = self.question.slips.iter().find(|slip| slip.kind == *kind);
                let said = self.sentence(key);
                vec![match value {
                    Some(slip) => said.number("slip", slip.value, self.dimension).number(
                        "difference",
                        self.question.answer - slip.value,
                        self.dimension,
                    ),
                    None => said,
                }]
            }
            Verdict::UnitSlip { wrote, meant } => {
                let key = if self.read.mass.is_some() { "verdict.mass" } else { "verdict.unit" };
                let said = self.sentence(key).text("wrote", *wrote).text("meant", *meant);
                vec![said.text("number", self.read.written.clone())]
            }
            Verdict::Other => self.would_be(would_be).into_iter().collect(),
        }
    }

    fn would_be(&self, would_be: Option<&WouldBe>) -> Option<Sentence> {
        let (key, at, of) = match would_be? {
            WouldBe::Lean(lean) => ("would_be.lean", *lean, Dimension::Angle),
            WouldBe::Load(mass) => ("would_be.load", *mass, Dimension::Mass),
            WouldBe::Slack => ("would_be.slack", 0.0, Dimension::Angle),
            WouldBe::Nowhere => ("would_be.nowhere", 0.0, Dimension::Angle),
        };
        Some(self.sentence(key).number("at", at, of))
    }

    /// `slip.`, its name, `.leg` or `.guy`, and `.down_it` where the haul line runs down the asked leg.
    fn slip_key(&self, kind: SlipKind) -> String {
        let part = match self.question.ask {
            Quantity::LegCompression(_) => "leg",
            _ => "guy",
        };
        let down_it = match (kind, self.question.rig.line.path, self.question.ask) {
            (
                SlipKind::ForgotMainLine | SlipKind::WholeLoadOnEachLeg,
                Path::RedirectedAtFoot { foot, .. },
                Quantity::LegCompression(side),
            ) if foot == side => ".down_it",
            _ => "",
        };
        format!("slip.{}.{part}{down_it}", kind.name())
    }

    /// A sentence with everything that any of them may speak of.
    fn sentence(&self, key: impl Into<String>) -> Sentence {
        let Self { question, solution, read, dimension } = self;
        let rig = &question.rig;
        let lean = rig.lean;
        let mut said = Sentence::new(key)
            .word("part", part(rig, question.ask))
            .number("given", read.value, *dimension)
            .number("answer", question.answer, *dimension)
            .number("lean", lean, Dimension::Angle)
            .number("from_ground", Lean::to_ground(lean), Dimension::Angle)
            .number("haul", solution.line.haul_tension, Dimension::Force)
            .text("typed", read.typed.clone());
        if let Quantity::LegCompression(side) = question.ask {
            said = said.word("other", part(rig, Quantity::LegCompression(side.other())));
        }
        said
    }
}
