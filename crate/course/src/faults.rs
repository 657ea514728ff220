//! `faults`: the learner marks what is wrong in a list of readings of a rig.

use crate::claim::{Judged, fit_to_show};
use crate::shuffle::shuffled;
use crate::text::alike;
use crate::ticks::{count, hangs_on, share, ticks};
use crate::vary::{MOST_DRAWN, vary};
use crate::{
    Claim, Filled, Generator, Sentence, Sides, Span, Text, Tick, Truth, Unclear, Undrawn, Unmarked, Unsuited,
};
use outlean_rig::{Dimension, Rig};
use outlean_rigfile::{choice, field};

/// A list of readings and what may be put wrong in the rig behind them.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct FaultsTemplate {
    /// Its name, unlike any other of the course; part of what the seed draws from.
    pub id: String,
    /// The rig with nothing wrong in it.
    pub rig: Rig,
    /// What varies, in the order in which it is drawn.
    pub vary: Vec<Span>,
    /// What is read off, two to twelve.
    pub items: Vec<Item>,
    /// What may be put wrong.
    pub faults: Vec<Planted>,
    /// How many faults are put in at the least; none is a question too.
    pub least: usize,
    /// And at the most.
    pub most: usize,
}

/// One thing that is read off.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Item {
    /// Its words.
    pub says: Text,
    /// What holds of the rig while the item is as it should be.
    pub sound: Claim,
    /// What to say of it after the mark.
    pub because: Option<String>,
}

/// Something put wrong in a rig.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Planted {
    /// What is set, in this order.
    pub set: Vec<Put>,
}

/// A field or a choice and what it is set to.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Put {
    /// A field, by its key, and its value in SI.
    Number(String, f64),
    /// A choice, by its key, and its word.
    Word(String, String),
}

impl Put {
    /// The key of what is set.
    #[must_use]
    pub fn key(&self) -> &str {
        match self {
            Self::Number(key, _) | Self::Word(key, _) => key,
        }
    }

    /// Sets it; `None` where it cannot be set, the rig then as it was.
    fn on(&self, rig: &mut Rig) -> Option<()> {
        match self {
            Self::Number(key, value) => field(key)?.set(rig, *value).ok(),
            Self::Word(key, word) => choice(key)?.set(rig, word).ok(),
        }
    }
}

/// A list of readings with its faults put in.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Faults {
    /// The template's name.
    pub id: String,
    /// The seed it was drawn by.
    pub seed: u64,
    /// The rig as it is, faults in.
    pub rig: Rig,
    /// The rig as it should be.
    pub sound: Box<Rig>,
    /// The faults that were put in, by their number in the template, from 0, in that order.
    pub planted: Vec<usize>,
    /// What is read off, in the template's order.
    pub items: Vec<ReadOff>,
}

/// A reading as it is shown.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct ReadOff {
    /// Its words, gaps filled.
    pub says: Vec<Filled>,
    /// Whether it is at fault: what makes it sound does not hold.
    pub faulty: bool,
    /// The two numbers that this hangs on, if it hangs on two.
    pub sides: Option<Sides>,
}

/// Marked faults.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct FaultsMark {
    /// Whether every fault was found and nothing else was marked.
    pub right: bool,
    /// The share of items that are as they should be, 0 to 1.
    pub share: f64,
    /// What became of each item.
    pub each: Vec<Tick>,
    /// What to say: first of all of it, then of each item judged wrongly the numbers that it hangs on.
    pub sentences: Vec<Sentence>,
}

impl FaultsTemplate {
    /// The question that `seed` draws: the same on every machine, always.
    ///
    /// Rigs and faults are drawn until they make a question: the frame stands unless an item is about that, every claim
    /// is clear with each fault alone and with those put in, no fault hides another, no two items read alike, at least
    /// one item is sound.
    ///
    /// # Errors
    ///
    /// What is wrong with the template: an item that is not sound without a fault, a fault that makes none unsound.
    pub fn draw(&self, seed: u64) -> Result<Faults, Undrawn> {
        let (items, faults) = (self.items.len(), self.faults.len());
        if !(2..=12).contains(&items) {
            return Err(Undrawn::Count { of: "item", count: items, least: 2, most: 12 });
        }
        if !(1..=12).contains(&faults) {
            return Err(Undrawn::Count { of: "fault", count: faults, least: 1, most: 12 });
        }
        let (least, most) = (self.least, self.most);
        if least > most || most > faults || most == 0 {
            return Err(Undrawn::FaultsAsked { least, most, count: faults });
        }
        let mut generator = Generator::new(seed, &self.id);
        let mut last = Unsuited::AllUnsound;
        for _ in 0..MOST_DRAWN {
            let sound = vary(&self.vary, &self.rig, &mut generator).map_err(Undrawn::Vary)?;
            let spare = u32::try_from(most - least).unwrap_or(u32::MAX - 1);
            let wanted = least + generator.below(spare + 1) as usize;
            let mut planted = shuffled(&mut generator, faults);
            planted.truncate(wanted);
            // In the author's order. A sort of std's would be a kilobyte of the page.
            let planted: Vec<usize> = (0..faults).filter(|fault| planted.contains(fault)).collect();
            match self.with(&sound, &planted) {
                Ok((rig, items)) => {
                    return Ok(Faults {
                        id: self.id.clone(),
                        seed,
                        rig,
                        sound: Box::new(sound),
                        planted,
                        items,
                    });
                }
                Err(Unfit::Template(why)) => return Err(why),
                Err(Unfit::Drawn(why)) => last = why,
            }
        }
        Err(Undrawn::NoneFits { drawn: MOST_DRAWN, last })
    }

    /// The rig with `planted` put in, and what is then read off.
    fn with(&self, sound: &Rig, planted: &[usize]) -> Result<(Rig, Vec<ReadOff>), Unfit> {
        let fit =
            |rig: &Rig| fit_to_show(rig, self.items.iter().map(|item| &item.sound)).map_err(Unfit::Drawn);
        fit(sound)?;
        if let Some(item) = self.unsound(sound)?.iter().position(|unsound| *unsound) {
            return Err(Unfit::Template(Undrawn::Unsound(item)));
        }
        let mut shows = Vec::new();
        for number in 0..self.faults.len() {
            let unsound = self.unsound(&self.put(sound, &[number])?)?;
            if !unsound.contains(&true) {
                return Err(Unfit::Template(Undrawn::ShowsNothing(number)));
            }
            shows.push(unsound);
        }
        let rig = self.put(sound, planted)?;
        fit(&rig)?;
        let read = self.read(&rig)?;
        let unsound: Vec<bool> = read.iter().map(|truth| !truth.holds).collect();
        for number in planted {
            let seen = shows
                .get(*number)
                .is_some_and(|alone| alone.iter().zip(&unsound).any(|(alone, together)| *alone && *together));
            if !seen {
                return Err(Unfit::Drawn(Unsuited::Hidden(*number)));
            }
        }
        if !unsound.contains(&false) {
            return Err(Unfit::Drawn(Unsuited::AllUnsound));
        }
        let mut items: Vec<ReadOff> = Vec::new();
        for (number, (item, truth)) in self.items.iter().zip(read).enumerate() {
            let text = |why: Unclear| Unfit::Drawn(Unsuited::Text(number, why));
            let says = item.says.filled(&rig).map_err(text)?;
            if let Some(other) = items.iter().position(|other| alike(&other.says, &says)) {
                return Err(Unfit::Drawn(Unsuited::Alike(other, number)));
            }
            items.push(ReadOff { says, faulty: !truth.holds, sides: truth.sides });
        }
        Ok((rig, items))
    }

    /// Which items are not sound on `rig`.
    fn unsound(&self, rig: &Rig) -> Result<Vec<bool>, Unfit> {
        Ok(self.read(rig)?.iter().map(|truth| !truth.holds).collect())
    }

    /// Whether each item is sound on `rig`.
    fn read(&self, rig: &Rig) -> Result<Vec<Truth>, Unfit> {
        let judged = Judged::new(rig);
        let of = |(number, item): (usize, &Item)| {
            item.sound.clearly(&judged).map_err(|why| Unfit::Drawn(Unsuited::Claim(number, why)))
        };
        self.items.iter().enumerate().map(of).collect()
    }

    /// `sound` with the faults of these numbers put in.
    fn put(&self, sound: &Rig, numbers: &[usize]) -> Result<Rig, Unfit> {
        let mut rig = sound.clone();
        for number in numbers {
            for put in self.faults.get(*number).iter().flat_map(|fault| &fault.set) {
                let cannot = || Unfit::Template(Undrawn::CannotSet(*number, put.key().to_owned()));
                put.on(&mut rig).ok_or_else(cannot)?;
            }
        }
        Ok(rig)
    }
}

/// Why a drawing makes no question: the template's fault, or this drawing's.
enum Unfit {
    Template(Undrawn),
    Drawn(Unsuited),
}

impl Faults {
    /// Marks the items chosen as faulty, from 0. None may be chosen: there may be no fault.
    ///
    /// # Errors
    ///
    /// A place twice, or one that there is not.
    pub fn mark(&self, chosen: &[usize]) -> Result<FaultsMark, Unmarked> {
        let wanted: Vec<bool> = self.items.iter().map(|item| item.faulty).collect();
        let each = ticks(&wanted, chosen)?;
        let right = each.iter().all(|tick| tick.is_right());
        let (hits, misses) = (count(&each, Tick::Hit), count(&each, Tick::Miss));
        let alarms = count(&each, Tick::FalseAlarm);
        let key = match (right, hits + misses, misses, alarms) {
            (true, 0, ..) => "faults.none_there",
            (true, ..) => "faults.right",
            (false, 0, ..) => "faults.only_alarms",
            (false, _, 0, _) => "faults.too_many",
            (false, _, _, 0) => "faults.missed",
            _ => "faults.mixed",
        };
        let said = Sentence::new(key)
            .number("found", hits as f64, Dimension::Count)
            .number("there", (hits + misses) as f64, Dimension::Count)
            .number("missed", misses as f64, Dimension::Count)
            .number("wrongly", alarms as f64, Dimension::Count);
        let sides = self.items.iter().map(|item| item.sides);
        let sentences = core::iter::once(said).chain(hangs_on(&each, sides)).collect();
        Ok(FaultsMark { right, share: share(&each), each, sentences })
    }
}
