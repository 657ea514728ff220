//! A quantity as people write it: numbers with units, "4.2 m", "9 ft 6 in", "2.7 kN", "18°".

use crate::number::{NoNumber, number};
use crate::unit::Unit;
use outlean_rig::{Dimension, G};

/// Sizes beyond this, in any unit, are a slip of the keyboard.
const HUGE: f64 = 1e12;

/// Why text is not the quantity that is wanted. Data, not sentences.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum QuantityError {
    /// Nothing is written.
    Empty,
    /// What stands where a number should.
    NotANumber {
        /// What stands there.
        found: String,
    },
    /// "1,234": a thousand or one and a bit.
    AmbiguousComma {
        /// As a decimal: "1.234".
        decimal: String,
        /// As thousands: "1234".
        thousands: String,
    },
    /// A number without a unit where one is needed.
    NoUnit {
        /// The number, as written.
        number: String,
    },
    /// A unit that is none.
    UnknownUnit {
        /// What is written.
        written: String,
        /// A unit spelled like it.
        nearest: Option<&'static Unit>,
    },
    /// A unit of something else.
    WrongUnit {
        /// The number before it, as written.
        number: String,
        /// The unit.
        unit: &'static Unit,
    },
    /// Units that do not go together as feet and inches do: "4 m 20 m", "6 in 9 ft".
    Mixed {
        /// The first.
        first: &'static Unit,
        /// What follows it.
        then: &'static Unit,
    },
    /// A count that is not a whole number.
    NotWhole,
    /// Infinite, or beyond 10¹².
    TooLarge,
}

/// The quantity that `text` states, in the SI unit of `wanted`.
///
/// Point or unambiguous comma for decimals, any kind of space, units in any case, parts as in "9 ft 6 in".
/// A share ([`Dimension::Ratio`]) may be bare or in per cent; a count is bare; everything else needs a unit.
///
/// # Errors
///
/// What stands in the way, with what to suggest.
///
/// ```
/// use outlean_rig::Dimension::{Force, Length, Ratio};
/// use outlean_rigfile::{QuantityError, parse};
/// assert_eq!(parse("4.2 m", Length), Ok(4.2));
/// assert!((parse("9 ft 6 in", Length).unwrap() - 2.8956).abs() < 1e-12);
/// assert_eq!(parse("2,7 kN", Force), Ok(2700.0));
/// assert_eq!(parse("85 %", Ratio), Ok(0.85));
/// assert!(matches!(parse("4.2", Length), Err(QuantityError::NoUnit { .. })));
/// ```
pub fn parse(text: &str, wanted: Dimension) -> Result<f64, QuantityError> {
    let terms = terms(text, wanted)?;
    let bare_is_fine = matches!(wanted, Dimension::Ratio | Dimension::Count);
    let mut value = 0.0;
    for term in &terms.parts {
        match term.unit {
            Some(unit) if unit.dimension != wanted => {
                return Err(QuantityError::WrongUnit { number: term.written.clone(), unit });
            }
            Some(unit) => value += term.number * unit.si,
            None if bare_is_fine => value += term.number,
            None => return Err(QuantityError::NoUnit { number: term.written.clone() }),
        }
    }
    if wanted == Dimension::Count && value - libm::floor(value) > 0.0 {
        return Err(QuantityError::NotWhole);
    }
    sized(terms.sign * value)
}

/// An answer as a learner wrote it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Answer {
    /// The number as written, in the unit written (of "9 ft 6 in" in feet: 9.5).
    pub number: f64,
    /// The unit written (the first, where there are two).
    pub unit: Option<&'static Unit>,
    /// The value in the SI unit of what is asked; `None` unless `reading` is [`Reading::Asked`].
    pub value_si: Option<f64>,
    /// How it reads.
    pub reading: Reading,
}

/// How an answer reads against the dimension asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reading {
    /// In a unit of what is asked, or bare where none is needed.
    Asked,
    /// A bare number where a unit is needed.
    Bare,
    /// A unit of mass where a force is asked.
    MassForForce {
        /// What that mass weighs, N.
        weight: f64,
    },
    /// A unit of something else.
    OtherDimension,
}

/// Reads an answer: as [`parse`], but a bare number and a wrong unit are told, not refused.
///
/// # Errors
///
/// As [`parse`], without `WrongUnit` and `NotWhole`; `NoUnit` of a second number only, such as the inches after feet.
///
/// ```
/// use outlean_rig::Dimension::Force;
/// use outlean_rigfile::{Reading, parse_answer};
/// let answer = parse_answer("170 kg", Force).unwrap();
/// assert_eq!((answer.number, answer.value_si), (170.0, None));
/// assert!(matches!(answer.reading, Reading::MassForForce { weight } if (weight - 1667.13).abs() < 0.01));
/// assert_eq!(parse_answer("1700", Force).unwrap().reading, Reading::Bare);
/// ```
pub fn parse_answer(text: &str, wanted: Dimension) -> Result<Answer, QuantityError> {
    let terms = terms(text, wanted)?;
    let unit = terms.parts.first().and_then(|term| term.unit);
    let total: f64 = terms.parts.iter().map(|term| term.number * term.unit.map_or(1.0, |u| u.si)).sum();
    let total = sized(terms.sign * total)?;
    let number = match (terms.parts.as_slice(), unit) {
        ([only], _) => terms.sign * only.number,
        (_, Some(unit)) => total / unit.si,
        (_, None) => total,
    };
    let reading = match unit {
        Some(unit) if unit.dimension == wanted => Reading::Asked,
        Some(unit) if unit.dimension == Dimension::Mass && wanted == Dimension::Force => {
            Reading::MassForForce { weight: total * G }
        }
        Some(_) => Reading::OtherDimension,
        None if matches!(wanted, Dimension::Ratio | Dimension::Count) => Reading::Asked,
        None => Reading::Bare,
    };
    let value_si = (reading == Reading::Asked).then_some(total);
    Ok(Answer { number, unit, value_si, reading })
}

/// A number and its unit.
struct Term {
    number: f64,
    written: String,
    unit: Option<&'static Unit>,
}

struct Terms {
    sign: f64,
    parts: Vec<Term>,
}

/// The sign and the parts of a quantity; several only if each is of a smaller unit of the same dimension.
fn terms(text: &str, wanted: Dimension) -> Result<Terms, QuantityError> {
    let plain = plain(text);
    let mut rest = plain.trim();
    let mut sign = 1.0;
    if let Some(after) = rest.strip_prefix('-') {
        (sign, rest) = (-1.0, after.trim_start());
    } else if let Some(after) = rest.strip_prefix('+') {
        rest = after.trim_start();
    }
    if rest.is_empty() {
        return Err(QuantityError::Empty);
    }
    let mut parts: Vec<Term> = Vec::new();
    while !rest.is_empty() {
        let (number, taken) = number(rest).map_err(|why| match why {
            NoNumber::None => QuantityError::NotANumber { found: rest.to_owned() },
            NoNumber::Ambiguous { decimal, thousands } => {
                QuantityError::AmbiguousComma { decimal, thousands }
            }
        })?;
        let (written, after) = rest.split_at_checked(taken).unwrap_or((rest, ""));
        let after = after.trim_start();
        let (unit, taken) = match Unit::at_start_of(after) {
            Some((unit, taken)) => (Some(unit), taken),
            None if after.is_empty() => (None, 0),
            None => return Err(unknown_unit(after, wanted)),
        };
        if let (Some(first), Some(then)) = (parts.last().and_then(|last| last.unit), unit)
            && (first.dimension != then.dimension || first.si <= then.si)
        {
            return Err(QuantityError::Mixed { first, then });
        }
        if !parts.is_empty() && unit.is_none() {
            return Err(QuantityError::NoUnit { number: written.to_owned() });
        }
        parts.push(Term { number, written: written.to_owned(), unit });
        rest = after.get(taken..).unwrap_or_default().trim_start();
    }
    Ok(Terms { sign, parts })
}

fn unknown_unit(after: &str, wanted: Dimension) -> QuantityError {
    if after.starts_with(|c: char| c.is_ascii_digit()) {
        return QuantityError::NotANumber { found: after.to_owned() };
    }
    let end = after.find(|c: char| c.is_ascii_digit() || c == ' ').filter(|end| *end > 0);
    let written = end.and_then(|end| after.get(..end)).unwrap_or(after);
    QuantityError::UnknownUnit { nearest: Unit::nearest(written, wanted), written: written.to_owned() }
}

fn sized(value: f64) -> Result<f64, QuantityError> {
    if value.abs() <= HUGE { Ok(value) } else { Err(QuantityError::TooLarge) }
}

/// `text` with one kind of space, minus, prime and quote.
pub(crate) fn plain(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            c if c.is_whitespace() => ' ',
            '−' | '–' => '-',
            '′' | '’' => '\'',
            '″' | '”' => '"',
            c => c,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Units, show};
    use Dimension::{Angle, Area, Count, Force, ForcePerLength, Length, Mass, Ratio};

    fn close(text: &str, wanted: Dimension, value: f64) {
        let found = parse(text, wanted).unwrap_or_else(|e| panic!("{text}: {e:?}"));
        assert!((found - value).abs() <= 1e-12 * value.abs(), "{text}: {found}, not {value}");
    }

    #[test]
    fn what_people_write() {
        for (text, wanted, value) in [
            ("4.2 m", Length, 4.2),
            ("4,2\u{202f}m", Length, 4.2),
            ("420cm", Length, 4.2),
            ("9 ft 6 in", Length, 114.0 * 0.0254),
            ("9'6\"", Length, 114.0 * 0.0254),
            ("9 ft 6 1/2 in", Length, 114.5 * 0.0254),
            ("6 in", Length, 6.0 * 0.0254),
            ("−0.6 m", Length, -0.6),
            ("18 deg", Angle, 18.0 * crate::DEG),
            ("18°", Angle, 18.0 * crate::DEG),
            ("2.7 kN", Force, 2700.0),
            ("850 N", Force, 850.0),
            ("600 lbf", Force, 600.0 * crate::LBF),
            ("275 KG", Mass, 275.0),
            ("600 lb", Mass, 600.0 * crate::LB),
            ("38 N/m", ForcePerLength, 38.0),
            ("3.9 kg/m", ForcePerLength, 3.9 * G),
            ("2.6 lb/ft", ForcePerLength, 2.6 * crate::LBF / crate::FT),
            ("120 cm2", Area, 0.012),
            ("120 cm²", Area, 0.012),
            ("20 sq in", Area, 20.0 * 0.0254 * 0.0254),
            ("85 %", Ratio, 0.85),
            ("0.85", Ratio, 0.85),
            ("3", Count, 3.0),
        ] {
            close(text, wanted, value);
        }
    }

    #[test]
    fn what_is_shown_can_be_read_back() {
        for units in [Units::Metric, Units::Us] {
            for (dimension, value) in [
                (Length, 2.43),
                (Force, 3210.0),
                (Angle, -0.31),
                (Mass, 140.0),
                (Area, 0.03),
                (ForcePerLength, 41.0),
            ] {
                let shown = show(value, dimension, units).to_string();
                let read = parse(&shown, dimension).unwrap_or_else(|e| panic!("{shown}: {e:?}"));
                assert!((read - value).abs() < 0.013 * value.abs(), "{shown} read as {read}");
            }
        }
    }

    #[test]
    fn what_is_refused_says_why() {
        use QuantityError as E;
        assert_eq!(parse("4.2", Length), Err(E::NoUnit { number: "4.2".into() }));
        assert_eq!(parse(" ", Length), Err(E::Empty));
        assert!(matches!(parse("long", Length), Err(E::NotANumber { .. })));
        assert!(matches!(parse("1,234 m", Length), Err(E::AmbiguousComma { .. })));
        assert!(matches!(parse("600 lb", Force), Err(E::WrongUnit { unit, .. }) if unit.symbol == "lb"));
        assert!(
            matches!(parse("4 meterz", Length), Err(E::UnknownUnit { nearest: Some(u), .. }) if u.symbol == "m")
        );
        assert!(matches!(parse("6 in 9 ft", Length), Err(E::Mixed { .. })));
        assert_eq!(parse("9 ft 6", Length), Err(E::NoUnit { number: "6".into() }));
        assert_eq!(parse("2.5", Count), Err(E::NotWhole));
        assert_eq!(parse("9e99 m", Length), Err(E::TooLarge));
        assert!(parse("inf m", Length).is_err() && parse("NaN m", Length).is_err());
    }

    #[test]
    fn answers_tell_the_unit_written() {
        let answer = parse_answer("9 ft 6 in", Length).unwrap();
        assert!((answer.number - 9.5).abs() < 1e-12 && answer.unit.is_some_and(|u| u.symbol == "ft"));
        assert_eq!(parse_answer("1.7 kN", Force).unwrap().value_si, Some(1700.0));
        assert_eq!(parse_answer("1.7 m", Force).unwrap().reading, Reading::OtherDimension);
        assert!(parse_answer("−3", Force).unwrap().number < -2.9);
    }
}
