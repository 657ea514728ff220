//! Claims as a flat list of words and numbers: the form in which they reach a page, whose program reads no JSON.
//!
//! `compare`, factor, operand, sign, factor, operand; `change`, operand, way, field; `in_range`, 1 or 0; `stands`, 1 or 0;
//! `works`, station, 1 or 0; `governs`, what, end. An operand is the words of a reading or a field's key; a number is
//! `=`, its value in SI, its dimension.

use super::{Claim, Comparison, End, Ender, Operand, Term, Way};
use outlean_rig::{Dimension, Station};
use outlean_rigfile::dimension_key;

/// A word or a number.
#[derive(Clone, Debug, PartialEq)]
pub enum Atom {
    /// A number, SI.
    Number(f64),
    /// A word.
    Word(String),
}

const SIGNS: [(&str, Comparison); 5] = [
    ("more", Comparison::More),
    ("at_least", Comparison::AtLeast),
    ("less", Comparison::Less),
    ("at_most", Comparison::AtMost),
    ("equal", Comparison::Equal),
];
const WAYS: [(&str, Way); 3] = [("rises", Way::Rises), ("falls", Way::Falls), ("stays", Way::Stays)];
const ENDS: [(&str, End); 2] = [("out", End::Out), ("back", End::Back)];
const STATIONS: [(&str, Station); 3] =
    [("aft", Station::Aft), ("fore", Station::Fore), ("side", Station::Side)];

/// The word of a thing in a table; empty for one that is not in it, which then is not read back.
fn word<T: PartialEq>(table: &[(&'static str, T)], of: &T) -> Atom {
    Atom::Word(table.iter().find(|(_, each)| each == of).map_or("", |(word, _)| word).to_owned())
}

impl Claim {
    /// The claim as atoms.
    #[must_use]
    pub fn atoms(&self) -> Vec<Atom> {
        let name = |name: &str| Atom::Word(name.to_owned());
        let flag = |flag: bool| Atom::Number(f64::from(u8::from(flag)));
        match self {
            Self::Compare { left, is, right } => {
                let mut all = vec![name("compare"), Atom::Number(left.factor)];
                operand(&left.of, &mut all);
                all.push(word(&SIGNS, is));
                all.push(Atom::Number(right.factor));
                operand(&right.of, &mut all);
                all
            }
            Self::Change { of, way, with } => {
                let mut all = vec![name("change")];
                operand(of, &mut all);
                all.extend([word(&WAYS, way), name(with)]);
                all
            }
            Self::InRange(inside) => vec![name("in_range"), flag(*inside)],
            Self::Stands(stands) => vec![name("stands"), flag(*stands)],
            Self::Works(station, works) => vec![name("works"), word(&STATIONS, station), flag(*works)],
            Self::Governs(ender, end) => vec![name("governs"), word(&Ender::ALL, ender), word(&ENDS, end)],
        }
    }

    /// The claim of some atoms; `None` for any that [`Self::atoms`] does not give.
    #[must_use]
    pub fn of_atoms(atoms: &[Atom]) -> Option<Self> {
        let mut rest = Rest(atoms);
        let claim = match rest.word()? {
            "compare" => Self::Compare {
                left: Term { factor: rest.number()?, of: rest.operand()? },
                is: rest.of(&SIGNS)?,
                right: Term { factor: rest.number()?, of: rest.operand()? },
            },
            "change" => {
                Self::Change { of: rest.operand()?, way: rest.of(&WAYS)?, with: rest.word()?.to_owned() }
            }
            "in_range" => Self::InRange(rest.flag()?),
            "stands" => Self::Stands(rest.flag()?),
            "works" => Self::Works(rest.of(&STATIONS)?, rest.flag()?),
            "governs" => Self::Governs(rest.of(&Ender::ALL)?, rest.of(&ENDS)?),
            _ => return None,
        };
        rest.0.is_empty().then_some(claim)
    }
}

fn operand(of: &Operand, all: &mut Vec<Atom>) {
    if let Operand::Number(value, dimension) = of {
        all.extend([
            Atom::Word("=".to_owned()),
            Atom::Number(*value),
            Atom::Word(dimension_key(*dimension).to_owned()),
        ]);
    } else {
        all.push(Atom::Word(of.name().unwrap_or_default().to_owned()));
    }
}

/// Atoms not read yet.
struct Rest<'a>(&'a [Atom]);

impl<'a> Rest<'a> {
    fn next(&mut self) -> Option<&'a Atom> {
        let (first, rest) = self.0.split_first()?;
        self.0 = rest;
        Some(first)
    }

    fn word(&mut self) -> Option<&'a str> {
        match self.next()? {
            Atom::Word(word) => Some(word),
            Atom::Number(_) => None,
        }
    }

    fn number(&mut self) -> Option<f64> {
        match self.next()? {
            Atom::Number(number) => Some(*number),
            Atom::Word(_) => None,
        }
    }

    fn flag(&mut self) -> Option<bool> {
        Some(self.number()? > 0.5)
    }

    fn of<T: Copy>(&mut self, table: &[(&'static str, T)]) -> Option<T> {
        let word = self.word()?;
        table.iter().find(|(each, _)| *each == word).map(|(_, meant)| *meant)
    }

    fn operand(&mut self) -> Option<Operand> {
        match self.word()? {
            "=" => {
                let (number, word) = (self.number()?, self.word()?);
                let dimension = Dimension::ALL.into_iter().find(|each| dimension_key(*each) == word)?;
                Some(Operand::Number(number, dimension))
            }
            words => Operand::named(words),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_form_of_claim_comes_back_as_it_was() {
        let written = [
            "compression of the left leg > 2 × compression of the right leg",
            "tension of the aft guy <= 1.5 kN",
            "lean rises",
            "tension of the aft guy rises with lean",
            "reach >= 0.9 m",
            "feet.spread = 1.2 m",
            "within the working range",
            "outside the working range",
            "the frame tips",
            "the frame stands",
            "the aft guy works",
            "the fore guy does not work",
            "the aft holdfast governs",
        ];
        let mut read = 0;
        for written in written {
            let Ok(claim) = Claim::read(written) else { continue };
            read += 1;
            assert_eq!(
                Claim::of_atoms(&claim.atoms()),
                Some(claim.clone()),
                "{written}: {:?}",
                claim.atoms()
            );
        }
        assert!(read >= 8, "{read} of the forms are read");
        let mut long = Claim::InRange(true).atoms();
        long.push(Atom::Number(1.0));
        assert_eq!((Claim::of_atoms(&[]), Claim::of_atoms(&long)), (None, None));
        assert_eq!(Claim::of_atoms(&[Atom::Word("stands".into()), Atom::Word("so".into())]), None);
    }
}
