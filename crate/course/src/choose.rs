//! `choose`: the learner picks what holds from a list of statements.

use crate::claim::{Judged, fit_to_show};
use crate::shuffle::shuffled;
use crate::text::alike;
use crate::ticks::{count, hangs_on, share, ticks};
use crate::vary::{MOST_DRAWN, vary};
use crate::{Claim, Filled, Generator, Sentence, Sides, Span, Text, Tick, Undrawn, Unmarked, Unsuited};
use outlean_rig::{Dimension, Rig};

/// A choice before its numbers are drawn. No answer stands in it: the core holds every claim against the drawn rig.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct ChooseTemplate {
    /// Its name, unlike any other of the course; part of what the seed draws from.
    pub id: String,
    /// The rig that the statements are about.
    pub rig: Rig,
    /// What varies, in the order in which it is drawn.
    pub vary: Vec<Span>,
    /// What may be chosen, two to twelve.
    pub statements: Vec<Statement>,
    /// Whether one and only one statement holds, whatever the seed.
    pub one: bool,
}

/// One statement.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Statement {
    /// Its words.
    pub says: Text,
    /// What decides whether it holds.
    pub ground: Ground,
    /// What to say of it after the mark.
    pub because: Option<String>,
}

impl Statement {
    /// The claim that decides it, if one does.
    const fn claim(&self) -> Option<&Claim> {
        match &self.ground {
            Ground::Claim(claim) => Some(claim),
            Ground::Fact { .. } => None,
        }
    }

    /// Where the fact comes from that decides it, if one does.
    #[must_use]
    pub fn source(&self) -> Option<&str> {
        match &self.ground {
            Ground::Claim(_) => None,
            Ground::Fact { source, .. } => Some(source),
        }
    }
}

/// What decides whether a statement holds.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Ground {
    /// The drawn rig.
    Claim(Claim),
    /// A fact that no rig decides, and where it comes from.
    Fact {
        /// Whether it holds.
        holds: bool,
        /// Its source.
        source: String,
    },
}

/// A choice with its numbers drawn.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Choose {
    /// The template's name.
    pub id: String,
    /// The seed it was drawn by.
    pub seed: u64,
    /// The rig it is about.
    pub rig: Rig,
    /// The statements in the order in which they are shown.
    pub options: Vec<Choice>,
    /// Whether one is to be chosen.
    pub one: bool,
}

/// A statement as it is shown.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Choice {
    /// Its number in the template, from 0.
    pub from: usize,
    /// Its words, gaps filled.
    pub says: Vec<Filled>,
    /// Whether it holds.
    pub holds: bool,
    /// The two numbers that this hangs on, if it hangs on two.
    pub sides: Option<Sides>,
}

/// A marked choice.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct ChooseMark {
    /// Whether all is as it should be.
    pub right: bool,
    /// The share that is, 0 to 1; where one is to be chosen 0 or 1.
    pub share: f64,
    /// What became of each statement, in the order shown.
    pub each: Vec<Tick>,
    /// What to say: first of all of it, then of each statement judged wrongly the numbers that it hangs on.
    pub sentences: Vec<Sentence>,
}

impl ChooseTemplate {
    /// The question that `seed` draws: the same on every machine, always.
    ///
    /// Rigs are drawn until one makes a question: the frame stands unless a claim is about that, every claim is clear on
    /// it, no two statements read alike, at least one holds and at least one does not, and one alone where that is asked
    /// for.
    ///
    /// # Errors
    ///
    /// What is wrong with the template.
    pub fn draw(&self, seed: u64) -> Result<Choose, Undrawn> {
        let count = self.statements.len();
        if !(2..=12).contains(&count) {
            return Err(Undrawn::Count { of: "statement", count, least: 2, most: 12 });
        }
        let mut generator = Generator::new(seed, &self.id);
        let mut last = Unsuited::NoneHolds;
        for _ in 0..MOST_DRAWN {
            let rig = vary(&self.vary, &self.rig, &mut generator).map_err(Undrawn::Vary)?;
            match self.options(&rig) {
                Ok(options) => {
                    let order = shuffled(&mut generator, options.len());
                    let options = order.iter().filter_map(|place| options.get(*place).cloned()).collect();
                    return Ok(Choose { id: self.id.clone(), seed, rig, options, one: self.one });
                }
                Err(unsuited) => last = unsuited,
            }
        }
        Err(Undrawn::NoneFits { drawn: MOST_DRAWN, last })
    }

    fn options(&self, rig: &Rig) -> Result<Vec<Choice>, Unsuited> {
        fit_to_show(rig, self.statements.iter().filter_map(Statement::claim))?;
        let judged = Judged::new(rig);
        let mut options: Vec<Choice> = Vec::new();
        for (from, statement) in self.statements.iter().enumerate() {
            let (holds, sides) = match &statement.ground {
                Ground::Claim(claim) => {
                    let truth = claim.clearly(&judged).map_err(|why| Unsuited::Claim(from, why))?;
                    (truth.holds, truth.sides)
                }
                Ground::Fact { holds, .. } => (*holds, None),
            };
            let says = statement.says.filled(rig).map_err(|why| Unsuited::Text(from, why))?;
            if let Some(other) = options.iter().find(|other| alike(&other.says, &says)) {
                return Err(Unsuited::Alike(other.from, from));
            }
            options.push(Choice { from, says, holds, sides });
        }
        match options.iter().filter(|option| option.holds).count() {
            0 => Err(Unsuited::NoneHolds),
            count if self.one && count != 1 => Err(Unsuited::NotOne(count)),
            count if count == options.len() => Err(Unsuited::AllHold),
            _ => Ok(options),
        }
    }
}

impl Choose {
    /// Marks the places chosen, from 0 in the order shown.
    ///
    /// # Errors
    ///
    /// Nothing chosen, more than one where one is to be, a place twice or one that there is not.
    pub fn mark(&self, chosen: &[usize]) -> Result<ChooseMark, Unmarked> {
        let wanted: Vec<bool> = self.options.iter().map(|option| option.holds).collect();
        let each = ticks(&wanted, chosen)?;
        match chosen.len() {
            0 => return Err(Unmarked::Nothing),
            count if self.one && count > 1 => return Err(Unmarked::MoreThanOne(count)),
            _ => {}
        }
        let right = each.iter().all(|tick| tick.is_right());
        let share = if self.one { f64::from(u8::from(right)) } else { share(&each) };
        let number = |tick| count(&each, tick) as f64;
        let (hits, misses, alarms) = (number(Tick::Hit), number(Tick::Miss), number(Tick::FalseAlarm));
        let key = match (self.one, right) {
            (true, true) => "choose.one.right",
            (true, false) => "choose.one.wrong",
            (false, true) => "choose.right",
            (false, false) if alarms == 0.0 => "choose.missed",
            (false, false) if misses == 0.0 => "choose.too_many",
            (false, false) => "choose.mixed",
        };
        let said = Sentence::new(key)
            .number("hits", hits, Dimension::Count)
            .number("holding", hits + misses, Dimension::Count)
            .number("missed", misses, Dimension::Count)
            .number("wrongly", alarms, Dimension::Count);
        let sides = self.options.iter().map(|option| option.sides);
        let sentences = core::iter::once(said).chain(hangs_on(&each, sides)).collect();
        Ok(ChooseMark { right, share, each, sentences })
    }
}
