//! Reading a claim from an author's sentence.

use super::{Claim, Comparison, End, Ender, Operand, Term, Way};
use core::ops::Range;
use outlean_rig::{Dimension, Station};
use outlean_rigfile::{QuantityError, field, fields, nearest, parse};

/// Why a sentence is no claim.
#[derive(Clone, Debug, PartialEq)]
pub struct Misread {
    /// Where, in bytes of the sentence.
    pub at: Range<usize>,
    /// Why.
    pub why: Why,
}

/// What is wrong in a sentence.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// Nothing is written.
    Empty,
    /// There is neither a sign of comparison nor any other form of a claim.
    NoForm {
        /// The form spelled most like it.
        nearest: Option<&'static str>,
    },
    /// A second sign of comparison stands in a side.
    TwoSigns,
    /// Nothing stands on a side.
    NoSide,
    /// Words that name no reading and no field.
    Unknown {
        /// The name spelled most like it.
        nearest: Option<String>,
    },
    /// What may end a working range has no such name.
    NoSuchPart {
        /// The name spelled most like it.
        nearest: Option<&'static str>,
    },
    /// There is no field of that key.
    NoField {
        /// The key spelled most like it.
        nearest: Option<&'static str>,
    },
    /// A factor that is not a number above nothing.
    Factor,
    /// A number that cannot be read as what the other side is.
    Number(QuantityError, Dimension),
    /// Two sides that cannot be compared.
    Dimensions(Dimension, Dimension),
    /// Numbers on both sides: always so, or never.
    OnlyNumbers,
}

/// Forms without a gap. What they say, and the claim.
const WHOLE: [(&str, Claim); 9] = [
    ("within the working range", Claim::InRange(true)),
    ("outside the working range", Claim::InRange(false)),
    ("the frame stands", Claim::Stands(true)),
    ("the frame tips", Claim::Stands(false)),
    ("the aft guy works", Claim::Works(Station::Aft, true)),
    ("the fore guy works", Claim::Works(Station::Fore, true)),
    ("the aft guy does not work", Claim::Works(Station::Aft, false)),
    ("the fore guy does not work", Claim::Works(Station::Fore, false)),
    ("the side guy works", Claim::Works(Station::Side, true)),
];

/// What stands between two sides, the longer of two that begin alike first.
const SIGNS: [(&str, Comparison); 12] = [
    (">=", Comparison::AtLeast),
    ("<=", Comparison::AtMost),
    ("≥", Comparison::AtLeast),
    ("≤", Comparison::AtMost),
    (">", Comparison::More),
    ("<", Comparison::Less),
    ("=", Comparison::Equal),
    (" is at least ", Comparison::AtLeast),
    (" is at most ", Comparison::AtMost),
    (" is more than ", Comparison::More),
    (" is less than ", Comparison::Less),
    (" is equal to ", Comparison::Equal),
];

const CHANGES: [(&str, Way); 3] =
    [(" rises with ", Way::Rises), (" falls with ", Way::Falls), (" stays with ", Way::Stays)];

const GOVERNS: [(&str, End); 2] = [(" governs leaning back", End::Back), (" governs", End::Out)];

impl Claim {
    /// The claim that a sentence makes:
    ///
    /// * `tension of the aft guy <= 1.5 kN`, `lean < 30 deg`, `1.5 × height of the head <= aft.setback`: readings,
    ///   fields and numbers with units, either side with a factor; `>`, `<`, `>=`, `<=`, `=`, or in words `is more
    ///   than`, `is less than`, `is at least`, `is at most`, `is equal to`;
    /// * `compression of the left leg rises with lean`, or `falls with`, `stays with`: one step of the field further;
    /// * `within the working range`, `outside the working range`;
    /// * `the frame stands`, `the frame tips`;
    /// * `the aft guy works`, `the fore guy works`, `… does not work`, `the side guy works`;
    /// * `the aft holdfast governs`, `the upright stop governs leaning back`: what ends the working range.
    ///
    /// # Errors
    ///
    /// What is wrong and where.
    ///
    /// ```
    /// use outlean_course::{Claim, Misread, Why};
    /// assert!(Claim::read("tension of the aft guy <= 1.5 kN").is_ok());
    /// let Err(Misread { at, why: Why::Unknown { nearest } }) = Claim::read("1 kN < tention of the aft guy") else {
    ///     panic!("it names nothing")
    /// };
    /// assert_eq!((at, nearest.as_deref()), (7..29, Some("tension of the aft guy")));
    /// ```
    pub fn read(sentence: &str) -> Result<Self, Misread> {
        let (start, trimmed) = trim(sentence, 0);
        if trimmed.is_empty() {
            return Err(Misread { at: 0..sentence.len(), why: Why::Empty });
        }
        if let Some((_, claim)) = WHOLE.iter().find(|(words, _)| *words == trimmed) {
            return Ok(claim.clone());
        }
        if let Some((at, sign, is)) = first_sign(trimmed) {
            return compared(trimmed, start, at, sign, is);
        }
        for (sign, way) in CHANGES {
            if let Some((of, with)) = trimmed.split_once(sign) {
                return changed(of, start, with, start + of.len() + sign.len(), way);
            }
        }
        for (sign, end) in GOVERNS {
            if let Some(part) = trimmed.strip_suffix(sign) {
                let (at, name) = without_the(part, start);
                let names = || Ender::ALL.iter().map(|(name, _)| *name);
                return Ender::named(name).map(|ender| Self::Governs(ender, end)).ok_or_else(|| Misread {
                    at: at..at + name.len(),
                    why: Why::NoSuchPart { nearest: nearest(name, names()) },
                });
            }
        }
        let near = nearest(trimmed, WHOLE.iter().map(|(words, _)| *words));
        Err(Misread { at: start..start + trimmed.len(), why: Why::NoForm { nearest: near } })
    }
}

/// The first sign in `text`, and where it stands.
fn first_sign(text: &str) -> Option<(usize, &'static str, Comparison)> {
    let found = SIGNS.iter().filter_map(|(sign, is)| Some((text.find(sign)?, *sign, *is)));
    // Of two at one place the longer one, which comes first.
    found.reduce(|best, next| if next.0 < best.0 { next } else { best })
}

fn compared(text: &str, start: usize, at: usize, sign: &str, is: Comparison) -> Result<Claim, Misread> {
    let (before, after) =
        (text.get(..at).unwrap_or_default(), text.get(at + sign.len()..).unwrap_or_default());
    let after_at = start + at + sign.len();
    if let Some((second, sign, _)) = first_sign(after) {
        let from = after_at + second;
        return Err(Misread { at: from..from + sign.len(), why: Why::TwoSigns });
    }
    let (left, right) = (Written::of(before, start)?, Written::of(after, after_at)?);
    let (left, right) = match (left.operand()?, right.operand()?) {
        (Some(a), Some(b)) => {
            let (of_a, of_b) = (a.dimension(), b.dimension());
            if let (Some(of_a), Some(of_b)) = (of_a, of_b)
                && of_a != of_b
            {
                return Err(Misread { at: right.place(), why: Why::Dimensions(of_a, of_b) });
            }
            (left.term(a), right.term(b))
        }
        (Some(a), None) => {
            let number = right.number(a.dimension())?;
            (left.term(a), right.term(number))
        }
        (None, Some(b)) => {
            let number = left.number(b.dimension())?;
            (left.term(number), right.term(b))
        }
        (None, None) => {
            return Err(Misread { at: start..start + text.len(), why: Why::OnlyNumbers });
        }
    };
    Ok(Claim::Compare { left, is, right })
}

fn changed(of: &str, of_at: usize, with: &str, with_at: usize, way: Way) -> Result<Claim, Misread> {
    let written = Written::of(of, of_at)?;
    let operand = written.operand()?.filter(Operand::is_reading);
    let of = operand.ok_or_else(|| Misread { at: written.place(), why: Why::Unknown { nearest: None } })?;
    let (at, key) = trim(with, with_at);
    if field(key).is_none() {
        let near = nearest(key, fields().map(|spec| spec.key));
        return Err(Misread { at: at..at + key.len(), why: Why::NoField { nearest: near } });
    }
    Ok(Claim::Change { of, way, with: key.to_owned() })
}

/// A side as it is written.
struct Written<'a> {
    factor: f64,
    /// Without the factor.
    text: &'a str,
    /// Where that stands in the sentence.
    at: usize,
}

impl<'a> Written<'a> {
    fn of(side: &'a str, at: usize) -> Result<Self, Misread> {
        let (at, text) = trim(side, at);
        if text.is_empty() {
            return Err(Misread { at: at..at, why: Why::NoSide });
        }
        for sign in ["×", "*", " x "] {
            if let Some((factor, rest)) = text.split_once(sign) {
                let bad = || Misread { at: at..at + factor.len(), why: Why::Factor };
                let number = parse(factor.trim(), Dimension::Ratio).map_err(|_| bad())?;
                if number <= 0.0 {
                    return Err(bad());
                }
                let (at, text) = trim(rest, at + factor.len() + sign.len());
                return Ok(Self { factor: number, text, at });
            }
        }
        Ok(Self { factor: 1.0, text, at })
    }

    fn place(&self) -> Range<usize> {
        self.at..self.at + self.text.len()
    }

    /// What it names; `None` where it is a number.
    fn operand(&self) -> Result<Option<Operand>, Misread> {
        if self.text.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '+' | '-' | '−' | '.')) {
            return Ok(None);
        }
        let (at, name) = without_the(self.text, self.at);
        if let Some(operand) = Operand::named(name) {
            return Ok(Some(operand));
        }
        let near = Operand::nearest(name, core::iter::empty());
        Err(Misread { at: at..at + name.len(), why: Why::Unknown { nearest: near } })
    }

    /// The number it is, of the dimension of the other side.
    fn number(&self, wanted: Option<Dimension>) -> Result<Operand, Misread> {
        let wanted = wanted.unwrap_or(Dimension::Ratio);
        parse(self.text, wanted)
            .map(|value| Operand::Number(value, wanted))
            .map_err(|why| Misread { at: self.place(), why: Why::Number(why, wanted) })
    }

    const fn term(&self, of: Operand) -> Term {
        Term { factor: self.factor, of }
    }
}

/// `text`, which stands at `at`, without the space around it, and where it then stands.
fn trim(text: &str, at: usize) -> (usize, &str) {
    (at + text.len() - text.trim_start().len(), text.trim())
}

/// `text`, which stands at `at`, without space and a leading article, and where it then stands.
fn without_the(text: &str, at: usize) -> (usize, &str) {
    let (at, text) = trim(text, at);
    match text.strip_prefix("the ") {
        Some(rest) => trim(rest, at + "the ".len()),
        None => (at, text),
    }
}
