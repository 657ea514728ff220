//! One number for what a seed draws or what a mark says, to hold one machine against another bit for bit.

use crate::{Drawn, Filled, Mark, Response, Sentence, Template, Tick, Undrawn, With};
use core::ops::Range;
use outlean_rig::Rig;
use outlean_rigfile::{Units, Value, entries_of};

/// An FNV-1a hash of 64 bits.
struct Digest(u64);

impl Digest {
    const fn new() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }

    fn byte(&mut self, byte: u8) {
        self.0 = (self.0 ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3);
    }

    fn whole(&mut self, number: u64) {
        number.to_le_bytes().into_iter().for_each(|byte| self.byte(byte));
    }

    fn places(&mut self, places: impl IntoIterator<Item = usize>) {
        for place in places {
            self.whole(place as u64);
        }
        self.byte(b';');
    }

    fn number(&mut self, number: f64) {
        self.whole(number.to_bits());
    }

    fn text(&mut self, text: &str) {
        self.whole(text.len() as u64);
        text.bytes().for_each(|byte| self.byte(byte));
    }

    fn rig(&mut self, rig: &Rig) {
        for (key, value) in entries_of(rig) {
            self.text(&key);
            match value {
                Value::Number(number) => self.number(number),
                Value::Word(word) => self.text(word),
            }
        }
    }

    fn filled(&mut self, filled: &[Filled]) {
        for piece in filled {
            match piece {
                Filled::Plain(text) => self.text(text),
                Filled::Number(number, _) => self.number(*number),
                Filled::Word(key, word) => {
                    self.text(key);
                    self.text(word);
                }
            }
        }
    }

    fn ticks(&mut self, ticks: &[Tick]) {
        ticks.iter().for_each(|tick| self.text(tick.name()));
    }

    fn sentences(&mut self, sentences: &[Sentence]) {
        for sentence in sentences {
            self.text(&sentence.key);
            for fill in &sentence.fills {
                self.text(fill.name);
                match &fill.with {
                    With::Number(number, _) => self.number(*number),
                    With::Word(key) => self.text(key),
                    With::Text(text) => self.text(text),
                }
            }
        }
    }
}

impl Template {
    /// One number for what these seeds draw, and for the marks of the right answer and of one that is not: the same
    /// on every machine.
    ///
    /// # Errors
    ///
    /// What is wrong with the template.
    pub fn digest(&self, seeds: Range<u64>) -> Result<u64, Undrawn> {
        let mut digest = Digest::new();
        for seed in seeds {
            let drawn = self.draw(seed)?;
            digest.whole(drawn.digest());
            let other = match &drawn {
                Drawn::Estimate(_) => Response::Estimate("1".to_owned(), Units::Metric),
                Drawn::Choose(_) => Response::Choose(vec![0]),
                Drawn::Order(order) => Response::Order((0..order.shown.len()).collect()),
                Drawn::Faults(_) => Response::Faults(vec![0]),
                Drawn::Set(set) => Response::Set(Box::new(set.rig.clone())),
            };
            for response in [drawn.answer(), other] {
                // An answer that cannot be marked is one of the things that must be the same.
                digest.whole(drawn.mark(&response).map_or(0, |mark| mark.digest()));
            }
        }
        Ok(digest.0)
    }
}

impl Drawn {
    /// A number made of what the seed drew: the rig, the answer and the slips' numbers, the entries and which of them hold, the
    /// order, the example. What its template says of every seed (the question's words, the tolerance) is no part of it.
    #[must_use]
    pub fn digest(&self) -> u64 {
        let mut digest = Digest::new();
        let (id, seed) = self.name();
        digest.text(id);
        digest.whole(seed);
        if let Some(rig) = self.rig() {
            digest.rig(rig);
        }
        match self {
            Self::Estimate(question) => {
                digest.number(question.answer);
                question.slips.iter().for_each(|slip| digest.number(slip.value));
            }
            Self::Choose(choose) => {
                for option in &choose.options {
                    digest.places([option.from, usize::from(option.holds)]);
                    digest.filled(&option.says);
                }
            }
            Self::Order(order) => {
                digest.places(order.shown.iter().copied());
                digest.places(order.right.iter().copied());
                digest.places(order.pairs.iter().flat_map(|(first, then)| [*first, *then]));
            }
            Self::Faults(faults) => {
                digest.rig(&faults.sound);
                digest.places(faults.planted.iter().copied());
                for item in &faults.items {
                    digest.places([usize::from(item.faulty)]);
                    digest.filled(&item.says);
                }
            }
            Self::Set(set) => set.example.iter().for_each(|value| digest.number(*value)),
        }
        digest.0
    }

    fn name(&self) -> (&str, u64) {
        match self {
            Self::Estimate(question) => (&question.id, question.seed),
            Self::Choose(choose) => (&choose.id, choose.seed),
            Self::Order(order) => (&order.id, order.seed),
            Self::Faults(faults) => (&faults.id, faults.seed),
            Self::Set(set) => (&set.id, set.seed),
        }
    }
}

impl Mark {
    /// A number made of the mark: whether it is right, its share, the number that was read or how each part is marked, the sentences.
    #[must_use]
    pub fn digest(&self) -> u64 {
        let mut digest = Digest::new();
        digest.places([usize::from(self.right())]);
        digest.number(self.share());
        match self {
            Self::Estimate(mark) => {
                digest.number(mark.given);
                digest.sentences(&mark.sentences);
            }
            Self::Choose(mark) => {
                digest.ticks(&mark.each);
                digest.sentences(&mark.sentences);
            }
            Self::Order(mark) => {
                digest.places(mark.wrong.iter().flat_map(|(first, then)| [*first, *then]));
                digest.sentences(&mark.sentences);
            }
            Self::Faults(mark) => {
                digest.ticks(&mark.each);
                digest.sentences(&mark.sentences);
            }
            Self::Set(mark) => {
                for each in &mark.each {
                    digest.places([usize::from(each.holds)]);
                    digest.number(each.off.unwrap_or(-1.0));
                }
                digest.sentences(&mark.sentences);
            }
        }
        digest.0
    }
}
