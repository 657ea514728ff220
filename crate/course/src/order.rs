//! `order`: the learner puts the steps of a build in order.

use crate::shuffle::shuffled;
use crate::{Generator, Sentence, Undrawn, Unmarked};
use outlean_rig::Dimension;

/// Steps and what each of them must wait for.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct OrderTemplate {
    /// Its name, unlike any other of the course; part of what the seed draws from.
    pub id: String,
    /// The steps, three to twelve, in any order.
    pub steps: Vec<BuildStep>,
}

/// One step of a build.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct BuildStep {
    /// Its name among the steps.
    pub id: String,
    /// Its words.
    pub says: String,
    /// The names of the steps that must come before it. What those must wait for need not be said again.
    pub after: Vec<String>,
    /// Why it must wait.
    pub because: Option<String>,
}

/// Why steps cannot be put in order, or need not be.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Misordered {
    /// Two steps have the same name.
    Twice(String),
    /// A step waits for one that there is not.
    Unknown {
        /// The step, from 0.
        step: usize,
        /// The name that is none.
        name: String,
    },
    /// Steps that wait for one another, each for the next and the last for the first.
    Circle(Vec<String>),
    /// No step waits for any other: every order would be right.
    Free,
}

/// Steps as they are shown.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Order {
    /// The template's name.
    pub id: String,
    /// The seed it was drawn by.
    pub seed: u64,
    /// The number of each step in the template, from 0, in the order in which they are shown.
    pub shown: Vec<usize>,
    /// Their words, in that order.
    pub says: Vec<String>,
    /// A right order, places as shown: the one nearest to the template's own.
    pub right: Vec<usize>,
    /// Every pair that must stand one before the other, places as shown; what follows from others as well.
    pub pairs: Vec<(usize, usize)>,
}

/// A step that came too early.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct TooEarly {
    /// The step, its place as shown.
    pub step: usize,
    /// The steps that it must wait for and that came after it, places as shown.
    pub waits_for: Vec<usize>,
}

/// A marked order.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct OrderMark {
    /// Whether every step waited for what it must wait for.
    pub right: bool,
    /// The share of pairs that stand the right way round, 0 to 1.
    pub share: f64,
    /// The pairs that stand the wrong way round: the one that must come first, then the other; places as shown.
    pub wrong: Vec<(usize, usize)>,
    /// The first step that came too early.
    pub too_early: Option<TooEarly>,
    /// What to say.
    pub sentences: Vec<Sentence>,
}

impl OrderTemplate {
    /// The steps in an order that `seed` gives and that is not a right one: the same on every machine, always.
    ///
    /// # Errors
    ///
    /// What is wrong with the template.
    pub fn draw(&self, seed: u64) -> Result<Order, Undrawn> {
        let count = self.steps.len();
        if !(3..=12).contains(&count) {
            return Err(Undrawn::Count { of: "step", count, least: 3, most: 12 });
        }
        let before = self.before().map_err(Undrawn::Steps)?;
        let mut generator = Generator::new(seed, &self.id);
        // At least one order in two is wrong, so that this ends; the bound is for proof, not for use.
        let mut shown = shuffled(&mut generator, count);
        for _ in 0..1000 {
            if !stands(&shown, &before).is_empty() {
                break;
            }
            shown = shuffled(&mut generator, count);
        }
        let place_of = |step: usize| shown.iter().position(|each| *each == step).unwrap_or(step);
        let pairs = before.iter().map(|(first, then)| (place_of(*first), place_of(*then))).collect();
        let right = in_order(count, &before).into_iter().map(place_of).collect();
        let words = |step: &usize| self.steps.get(*step).map(|step| step.says.clone());
        let says = shown.iter().filter_map(words).collect();
        Ok(Order { id: self.id.clone(), seed, shown, says, right, pairs })
    }

    /// Every pair of steps (numbers from 0) of which the first must come before the second, also by way of others.
    ///
    /// # Errors
    ///
    /// Names that are none or come twice, circles, and steps that need no order at all.
    pub fn before(&self) -> Result<Vec<(usize, usize)>, Misordered> {
        let count = self.steps.len();
        let number = |name: &str| self.steps.iter().position(|step| step.id == name);
        let mut said: Vec<(usize, usize)> = Vec::new();
        for (then, step) in self.steps.iter().enumerate() {
            if number(&step.id) != Some(then) {
                return Err(Misordered::Twice(step.id.clone()));
            }
            for name in &step.after {
                let unknown = || Misordered::Unknown { step: then, name: name.clone() };
                said.push((number(name).ok_or_else(unknown)?, then));
            }
        }
        if let Some(circle) = circle(count, &said) {
            let name = |step: &usize| self.steps.get(*step).map(|step| step.id.clone());
            return Err(Misordered::Circle(circle.iter().filter_map(name).collect()));
        }
        if said.is_empty() {
            return Err(Misordered::Free);
        }
        let mut all = Vec::new();
        for then in 0..count {
            let mut waiting = vec![then];
            let mut seen = vec![false; count];
            while let Some(step) = waiting.pop() {
                for (first, _) in said.iter().filter(|(_, later)| *later == step) {
                    if let Some(seen) = seen.get_mut(*first)
                        && !*seen
                    {
                        *seen = true;
                        waiting.push(*first);
                    }
                }
            }
            all.extend(seen.iter().enumerate().filter(|(_, seen)| **seen).map(|(first, _)| (first, then)));
        }
        Ok(all)
    }
}

/// Steps that wait for one another in a circle, each for the next; `None` where there is none.
fn circle(count: usize, said: &[(usize, usize)]) -> Option<Vec<usize>> {
    // What waits for nothing left goes, until nothing goes; what is then left holds a circle.
    let mut left: Vec<bool> = vec![true; count];
    let is_left = |left: &[bool], step: usize| left.get(step).copied().unwrap_or(false);
    loop {
        let free = (0..count).find(|step| {
            is_left(&left, *step) && !said.iter().any(|(first, then)| then == step && is_left(&left, *first))
        });
        match free.and_then(|step| left.get_mut(step)) {
            Some(left) => *left = false,
            None => break,
        }
    }
    let mut path = vec![left.iter().position(|left| *left)?];
    loop {
        let step = *path.last()?;
        let (first, _) = said.iter().find(|(first, then)| *then == step && is_left(&left, *first))?;
        if let Some(from) = path.iter().position(|each| each == first) {
            return Some(path.split_off(from));
        }
        path.push(*first);
    }
}

/// The pairs of `before` that stand the wrong way round in `order`.
fn stands(order: &[usize], before: &[(usize, usize)]) -> Vec<(usize, usize)> {
    let place = |step: usize| order.iter().position(|each| *each == step);
    before.iter().filter(|(first, then)| place(*first) > place(*then)).copied().collect()
}

/// The steps in a right order, the template's own wherever it may be.
fn in_order(count: usize, before: &[(usize, usize)]) -> Vec<usize> {
    let mut order: Vec<usize> = Vec::new();
    while order.len() < count {
        let ready = (0..count).find(|step| {
            let waits = |(first, then): &(usize, usize)| then == step && !order.contains(first);
            !order.contains(step) && !before.iter().any(waits)
        });
        match ready {
            Some(step) => order.push(step),
            None => break,
        }
    }
    order
}

impl Order {
    /// Marks an order: all places as shown, from 0, each once.
    ///
    /// # Errors
    ///
    /// A place twice, one that there is not, or places that are missing.
    pub fn mark(&self, order: &[usize]) -> Result<OrderMark, Unmarked> {
        let count = self.shown.len();
        for (number, place) in order.iter().enumerate() {
            if *place >= count {
                return Err(Unmarked::NoSuchPlace { place: *place, places: count });
            }
            if order.iter().take(number).any(|earlier| earlier == place) {
                return Err(Unmarked::Twice(*place));
            }
        }
        if order.len() < count {
            return Err(Unmarked::Missing { given: order.len(), wanted: count });
        }
        let wrong = stands(order, &self.pairs);
        let right = wrong.is_empty();
        let demanded = self.pairs.len().max(1) as f64;
        let share = 1.0 - wrong.len() as f64 / demanded;
        let too_early = order.iter().find_map(|step| {
            let waits_for: Vec<usize> =
                wrong.iter().filter(|(_, then)| then == step).map(|(first, _)| *first).collect();
            (!waits_for.is_empty()).then_some(TooEarly { step: *step, waits_for })
        });
        let mut sentences = vec![
            Sentence::new(if right { "order.right" } else { "order.wrong" })
                .number("wrong", wrong.len() as f64, Dimension::Count)
                .number("demanded", self.pairs.len() as f64, Dimension::Count),
        ];
        if let Some(TooEarly { step, waits_for }) = &too_early {
            let words = |place: &usize| self.says.get(*place).cloned().unwrap_or_default();
            let said = Sentence::new("order.too_early").text("step", words(step));
            sentences.extend(waits_for.iter().map(|first| said.clone().text("waits_for", words(first))));
        }
        Ok(OrderMark { right, share, wrong, too_early, sentences })
    }
}
