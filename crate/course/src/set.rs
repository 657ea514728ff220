//! `set`: the learner moves the controls until conditions hold.

use crate::claim::fit_to_show;
use crate::vary::{MOST_DRAWN, vary};
use crate::{Claim, Generator, Sentence, Sides, Span, Unclear, Undrawn, Unsuited};
use outlean_rig::{Rig, Tip};
use outlean_rigfile::{Value, entries_of, field};

/// The fields that a figure has controls for: what else is to be moved cannot be.
pub const CONTROLS: [&str; 4] = ["lean", "load.mass", "aft.setback", "feet.spread"];
/// How many fields may be moved in one question.
const MOST_MOVED: usize = 3;
/// How many values of each field are tried first where several must move together.
const COARSE: usize = 7;
/// How many settings are tried for one question where a coarse grid has none.
const MOST_TRIED: usize = 6000;

/// Conditions and what may be moved until they hold.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct SetTemplate {
    /// Its name, unlike any other of the course; part of what the seed draws from.
    pub id: String,
    /// The rig to begin with.
    pub rig: Rig,
    /// What varies at the beginning, in the order in which it is drawn.
    pub vary: Vec<Span>,
    /// What must hold in the end, one to four.
    pub until: Vec<Condition>,
    /// What may be moved and how far, one to three fields.
    pub may: Vec<Span>,
}

/// One condition.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Condition {
    /// The claim that must hold.
    pub claim: Claim,
    /// As its author wrote it.
    pub says: String,
}

/// A rig to be set.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Set {
    /// The template's name.
    pub id: String,
    /// The seed it was drawn by.
    pub seed: u64,
    /// The rig as the learner gets it.
    pub rig: Rig,
    /// What must hold in the end.
    pub until: Vec<Condition>,
    /// What may be moved and how far.
    pub may: Vec<Span>,
    /// A setting at which all conditions hold, SI, one number for each of `may`: the worked example.
    pub example: Vec<f64>,
}

/// What became of one condition.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct ConditionMark {
    /// Whether it holds.
    pub holds: bool,
    /// Of a comparison, its two sides as the rig was left.
    pub sides: Option<Sides>,
    /// Of a comparison that does not hold, how far its sides are from holding, SI, 0 or more.
    pub off: Option<f64>,
    /// Why it says nothing of the rig as it was left.
    pub unclear: Option<Unclear>,
}

/// A marked setting.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct SetMark {
    /// Whether all conditions hold and nothing else was changed.
    pub right: bool,
    /// The share of conditions that hold, 0 to 1; 0 where something else was changed.
    pub share: f64,
    /// What became of each.
    pub each: Vec<ConditionMark>,
    /// Keys of what may be moved and was moved farther than it may.
    pub too_far: Vec<String>,
    /// Whether something was changed that may not be.
    pub else_changed: bool,
    /// What to say.
    pub sentences: Vec<Sentence>,
}

impl SetTemplate {
    /// The question that `seed` draws: the same on every machine, always.
    ///
    /// Rigs are drawn until one makes a question: the conditions do not all hold on it, clearly, and a setting is found
    /// at which they do: of one field alone, or of all on a coarse grid. Where no rig has one there the same are drawn again and all
    /// settings are tried; where that would be more than 6,000 in all, as many, spread evenly.
    ///
    /// # Errors
    ///
    /// What is wrong with the template.
    pub fn draw(&self, seed: u64) -> Result<Set, Undrawn> {
        let within = |of, count: usize, most| match count {
            count if (1..=most).contains(&count) => Ok(()),
            count => Err(Undrawn::Count { of, count, least: 1, most }),
        };
        within("condition", self.until.len(), 4)?;
        within("field to move", self.may.len(), MOST_MOVED)?;
        let mut moves = Vec::new();
        for span in &self.may {
            moves.push(span.values().map_err(Undrawn::Vary)?);
            within("value of a field to move", moves.last().map_or(0, Vec::len), 400)?;
        }
        let mut last = Unsuited::OutOfReach;
        for mut tries in [0, MOST_TRIED] {
            let mut generator = Generator::new(seed, &self.id);
            let mut out_of_reach = false;
            for _ in 0..MOST_DRAWN {
                let rig = vary(&self.vary, &self.rig, &mut generator).map_err(Undrawn::Vary)?;
                let found = self.example(&rig, &moves).or_else(|unsuited| match unsuited {
                    Unsuited::OutOfReach => self.searched(&rig, &moves, &mut tries).ok_or(unsuited),
                    _ => Err(unsuited),
                });
                match found {
                    Ok(example) => {
                        let (until, may) = (self.until.clone(), self.may.clone());
                        return Ok(Set { id: self.id.clone(), seed, rig, until, may, example });
                    }
                    Err(unsuited) => last = unsuited,
                }
                out_of_reach |= last == Unsuited::OutOfReach;
            }
            // One field alone was tried whole.
            if !out_of_reach || moves.len() < 2 {
                break;
            }
        }
        Err(Undrawn::NoneFits { drawn: MOST_DRAWN, last })
    }

    /// A setting among all that there are at which all conditions hold. It takes one of the `tries` for each that it looks at.
    fn searched(&self, rig: &Rig, moves: &[Vec<f64>], tries: &mut usize) -> Option<Vec<f64>> {
        let count = moves.iter().fold(1_usize, |count, values| count.saturating_mul(values.len()));
        // A stride without a divisor in common with their number comes to every one, and to any part of them evenly.
        let mut stride = (count as f64 * 0.618) as usize;
        while divisor(stride, count) > 1 {
            stride += 1;
        }
        let mut at = 0;
        for _ in 0..count.min(*tries) {
            *tries -= 1;
            let setting = setting(moves, at);
            if self.reached(rig, &setting) {
                return Some(setting);
            }
            at = (at + stride) % count;
        }
        None
    }

    /// A setting at which all conditions hold, which they do not on `rig`: of one field, or on a coarse grid.
    fn example(&self, rig: &Rig, moves: &[Vec<f64>]) -> Result<Vec<f64>, Unsuited> {
        fit_to_show(rig, self.until.iter().map(|condition| &condition.claim))?;
        let mut now = Vec::new();
        for span in &self.may {
            let absent = || Unsuited::Absent(span.field.clone());
            now.push(field(&span.field).and_then(|field| field.get(rig)).ok_or_else(absent)?);
        }
        let mut all = true;
        for (number, condition) in self.until.iter().enumerate() {
            match condition.claim.holds(rig) {
                Ok(holds) => all &= holds,
                Err(Unclear::KnifeEdge) => return Err(Unsuited::Claim(number, Unclear::KnifeEdge)),
                // What says nothing of a rig does not hold on it.
                Err(_) => all = false,
            }
        }
        if all {
            return Err(Unsuited::HoldsAlready);
        }
        // One field alone, the nearest value first.
        for (place, values) in moves.iter().enumerate() {
            let Some(from) = now.get(place).copied() else { continue };
            // Outward from where it stands: values rise.
            let mut above = values.iter().position(|value| *value >= from).unwrap_or(values.len());
            let mut below = above;
            for _ in 0..values.len() {
                let under = below.checked_sub(1).and_then(|at| values.get(at)).copied();
                let over = values.get(above).copied();
                let value = match (under, over) {
                    (Some(under), Some(over)) if from - under <= over - from => under,
                    (_, Some(over)) => over,
                    (Some(under), None) => under,
                    (None, None) => break,
                };
                if under == Some(value) {
                    below -= 1;
                } else {
                    above += 1;
                }
                let mut setting = now.clone();
                if let Some(at) = setting.get_mut(place) {
                    *at = value;
                }
                if self.reached(rig, &setting) {
                    return Ok(setting);
                }
            }
        }
        // All together, on a coarse grid.
        let coarse: Vec<Vec<f64>> = moves.iter().map(|values| spread(values)).collect();
        let count: usize = coarse.iter().map(Vec::len).product();
        for number in 0..count {
            let setting = setting(&coarse, number);
            if self.reached(rig, &setting) {
                return Ok(setting);
            }
        }
        Err(Unsuited::OutOfReach)
    }

    /// Whether all conditions hold, clearly, with the fields set so.
    fn reached(&self, rig: &Rig, setting: &[f64]) -> bool {
        let Some(rig) = set(rig, &self.may, setting) else { return false };
        self.until.iter().all(|condition| condition.claim.holds(&rig) == Ok(true))
    }
}

/// The setting of this number among all of these values of each field.
fn setting(moves: &[Vec<f64>], number: usize) -> Vec<f64> {
    let mut left = number;
    let mut setting = Vec::new();
    for values in moves {
        setting.extend(values.get(left % values.len().max(1)));
        left /= values.len().max(1);
    }
    setting
}

/// The greatest divisor in common.
const fn divisor(a: usize, b: usize) -> usize {
    if b == 0 { a } else { divisor(b, a % b) }
}

/// Values spread over all of `values`, both ends among them.
fn spread(values: &[f64]) -> Vec<f64> {
    if values.len() <= COARSE {
        return values.to_vec();
    }
    let place = |number: usize| number * (values.len() - 1) / (COARSE - 1);
    (0..COARSE).filter_map(|number| values.get(place(number)).copied()).collect()
}

/// `rig` with the fields of `may` set; `None` where one cannot be.
fn set(rig: &Rig, may: &[Span], setting: &[f64]) -> Option<Rig> {
    let mut rig = rig.clone();
    for (span, value) in may.iter().zip(setting) {
        field(&span.field)?.set(&mut rig, *value).ok()?;
    }
    Some(rig)
}

/// Whether two rigs say the same, but for rounding.
fn same(a: &Rig, b: &Rig) -> bool {
    let (a, b) = (entries_of(a), entries_of(b));
    a.len() == b.len()
        && a.iter().zip(&b).all(|((key_a, a), (key_b, b))| {
            key_a == key_b
                && match (a, b) {
                    (Value::Number(a), Value::Number(b)) => (a - b).abs() <= 1e-9 * (1.0 + a.abs()),
                    (Value::Word(a), Value::Word(b)) => a == b,
                    _ => false,
                }
        })
}

impl Set {
    /// The rig with the worked example set; as it was drawn where that cannot be, which never is.
    #[must_use]
    pub fn solved(&self) -> Rig {
        set(&self.rig, &self.may, &self.example).unwrap_or_else(|| self.rig.clone())
    }

    /// Marks the rig as the learner left it.
    #[must_use]
    pub fn mark(&self, left: &Rig) -> SetMark {
        let mut too_far = Vec::new();
        let mut moved_to = Vec::new();
        for span in &self.may {
            let value = field(&span.field).and_then(|field| field.get(left));
            let slack = 1e-9 * (1.0 + span.most.abs());
            if !value.is_some_and(|value| {
                // The rig may begin outside of what it may be moved to.
                let begun = field(&span.field).and_then(|field| field.get(&self.rig));
                (span.least - slack..=span.most + slack).contains(&value) || begun == Some(value)
            }) {
                too_far.push(span.field.clone());
            }
            moved_to.extend(value);
        }
        // As it was drawn, with only what may be moved put where it was left.
        let only_moved =
            if moved_to.len() == self.may.len() { set(&self.rig, &self.may, &moved_to) } else { None };
        let else_changed = !only_moved.is_some_and(|rig| same(&rig, left));
        let each: Vec<ConditionMark> = self.until.iter().map(|condition| mark(condition, left)).collect();
        let holding = each.iter().filter(|mark| mark.holds).count();
        let fair = too_far.is_empty() && !else_changed;
        let right = fair && holding == each.len();
        let share = if fair { holding as f64 / each.len().max(1) as f64 } else { 0.0 };
        let mut sentences = Vec::new();
        if else_changed {
            sentences.push(Sentence::new("set.else_changed"));
        }
        sentences.extend(too_far.iter().map(|key| Sentence::new("set.too_far").text("field", key.clone())));
        if right {
            sentences.push(Sentence::new("set.right"));
        }
        for (condition, mark) in self.until.iter().zip(&each).filter(|(_, mark)| !mark.holds) {
            sentences.push(said(condition, mark));
        }
        SetMark { right, share, each, too_far, else_changed, sentences }
    }
}

fn mark(condition: &Condition, left: &Rig) -> ConditionMark {
    match condition.claim.truth(left) {
        Ok(truth) => {
            let compared = truth.sides.filter(|sides| !sides.change);
            let apart = compared.map(|sides| (sides.left - sides.right).abs());
            let off = apart.filter(|_| !truth.holds);
            ConditionMark { holds: truth.holds, sides: compared, off, unclear: None }
        }
        Err(why) => ConditionMark { holds: false, sides: None, off: None, unclear: Some(why) },
    }
}

/// What to say of a condition that does not hold.
fn said(condition: &Condition, mark: &ConditionMark) -> Sentence {
    let key = match (&mark.unclear, mark.sides) {
        (Some(Unclear::Tips(Tip::Forward | Tip::Back | Tip::Left | Tip::Right)), _) => "set.tips",
        (Some(_), _) => "set.no_meaning",
        (None, Some(_)) => "set.off",
        (None, None) => "set.not_yet",
    };
    let said = Sentence::new(key).text("condition", condition.says.clone());
    match (mark.sides, mark.off) {
        (Some(Sides { left, right, dimension, .. }), Some(off)) => said
            .number("left", left, dimension)
            .number("right", right, dimension)
            .number("off", off, dimension),
        _ => said,
    }
}
