//! A number as people write it: decimal point or comma, thousands in groups, fractions of an inch.

use crate::decimal::decimal;

/// Why text does not begin with a number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum NoNumber {
    /// It begins with something else.
    None,
    /// "1,234": a thousand or one and a bit.
    Ambiguous {
        /// As a decimal: "1.234".
        decimal: String,
        /// As thousands: "1234".
        thousands: String,
    },
}

/// The number, without sign, at the start of `text`, and the bytes it takes. All spaces in `text` are
/// plain ones.
pub(crate) fn number(text: &str) -> Result<(f64, usize), NoNumber> {
    let run = run_of(text, |c| c.is_ascii_digit() || c == '.' || c == ',');
    let whole_digits = !run.is_empty() && run.bytes().all(|b| b.is_ascii_digit());
    if whole_digits {
        if let Some(found) = fraction(text, run) {
            return Ok(found);
        }
        if let Some(found) = spaced_thousands(text, run) {
            return Ok(found);
        }
    }
    let mut plain = without_groups(run)?;
    let mut taken = run.len();
    if let Some(exponent) = text.get(taken..).and_then(exponent) {
        plain.push_str(exponent);
        taken += exponent.len();
    }
    decimal(&plain).map(|value| (value, taken)).ok_or(NoNumber::None)
}

/// `run`, digits with points and commas, as Rust reads a number.
fn without_groups(run: &str) -> Result<String, NoNumber> {
    let (points, commas) = (run.matches('.').count(), run.matches(',').count());
    let grouped = |whole: &str, by: char| {
        let mut groups = whole.split(by);
        let first = groups.next().is_some_and(|g| (1..=3).contains(&g.len()));
        first && groups.all(|g| g.len() == 3)
    };
    match (points, commas) {
        (0 | 1, 0) => Ok(run.to_owned()),
        (0, 1) => {
            let (whole, part) = run.split_once(',').ok_or(NoNumber::None)?;
            if part.is_empty() {
                return Err(NoNumber::None);
            }
            if part.len() == 3 && (1..=3).contains(&whole.len()) && whole.bytes().any(|b| b != b'0') {
                let (decimal, thousands) = (format!("{whole}.{part}"), format!("{whole}{part}"));
                return Err(NoNumber::Ambiguous { decimal, thousands });
            }
            Ok(format!("{whole}.{part}"))
        }
        (0, _) if grouped(run, ',') => Ok(run.replace(',', "")),
        (_, 0) if grouped(run, '.') => Ok(run.replace('.', "")),
        (1, _) if run.rfind(',') < run.find('.') => {
            let (whole, part) = run.split_once('.').ok_or(NoNumber::None)?;
            if grouped(whole, ',') {
                Ok(format!("{}.{part}", whole.replace(',', "")))
            } else {
                Err(NoNumber::None)
            }
        }
        (_, 1) if run.rfind('.') < run.find(',') => {
            let (whole, part) = run.split_once(',').ok_or(NoNumber::None)?;
            if grouped(whole, '.') {
                Ok(format!("{}.{part}", whole.replace('.', "")))
            } else {
                Err(NoNumber::None)
            }
        }
        _ => Err(NoNumber::None),
    }
}

/// "1/2" or "6 1/2", whose first digits are `run`.
fn fraction(text: &str, run: &str) -> Option<(f64, usize)> {
    fn digits(text: &str) -> &str {
        run_of(text, |c| c.is_ascii_digit())
    }
    let over = |top: &str, rest: &str| -> Option<(f64, usize)> {
        let below = digits(rest.strip_prefix('/')?);
        let (top, bottom) = (decimal(top)?, decimal(below)?);
        (bottom > 0.0).then(|| (top / bottom, 1 + below.len()))
    };
    let rest = text.get(run.len()..)?;
    if let Some((value, taken)) = over(run, rest) {
        return Some((value, run.len() + taken));
    }
    let rest = rest.strip_prefix(' ')?;
    let top = digits(rest);
    let (part, taken) = over(top, rest.get(top.len()..)?)?;
    let whole = decimal(run)?;
    (part < 1.0).then(|| (whole + part, run.len() + 1 + top.len() + taken))
}

/// "12 500" or "12 500.5", whose first digits are `run`.
fn spaced_thousands(text: &str, run: &str) -> Option<(f64, usize)> {
    if run.len() > 3 {
        return None;
    }
    let mut plain = run.to_owned();
    let mut taken = run.len();
    while let Some(rest) = text.get(taken..).and_then(|rest| rest.strip_prefix(' ')) {
        let group = run_of(rest, |c| c.is_ascii_digit());
        if group.len() != 3 {
            break;
        }
        plain.push_str(group);
        taken += 4;
    }
    if taken == run.len() {
        return None;
    }
    let rest = text.get(taken..)?;
    if let Some(part) = rest.strip_prefix(['.', ',']) {
        let part = run_of(part, |c| c.is_ascii_digit());
        plain.push('.');
        plain.push_str(part);
        taken += 1 + part.len();
    }
    decimal(&plain).map(|value| (value, taken))
}

/// "e3", "E-2" at the start of `text`.
fn exponent(text: &str) -> Option<&str> {
    let after = text.strip_prefix(['e', 'E'])?;
    let unsigned = after.strip_prefix(['+', '-']).unwrap_or(after);
    let digits = run_of(unsigned, |c| c.is_ascii_digit());
    if digits.is_empty() || digits.len() > 4 {
        return None;
    }
    text.get(..text.len() - unsigned.len() + digits.len())
}

/// The longest start of `text` of which every character is kept.
fn run_of(text: &str, keep: impl Fn(char) -> bool) -> &str {
    text.find(|c| !keep(c)).and_then(|end| text.get(..end)).unwrap_or(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_commas_groups_and_fractions() {
        let cases = [
            ("4.2 m", 4.2, 3),
            ("4,2 m", 4.2, 3),
            ("0,275 t", 0.275, 5),
            ("1,234.5", 1234.5, 7),
            ("1.234,5", 1234.5, 7),
            ("1,234,567", 1_234_567.0, 9),
            ("12 500 N", 12_500.0, 6),
            ("12 500,5 N", 12_500.5, 8),
            ("6 1/2 in", 6.5, 5),
            ("3/4 in", 0.75, 3),
            ("2.5e3 N", 2500.0, 5),
            (".5 m", 0.5, 2),
            ("9 ft 6 in", 9.0, 1),
        ];
        for (text, value, taken) in cases {
            assert_eq!(number(text), Ok((value, taken)), "{text}");
        }
    }

    #[test]
    fn a_comma_that_may_mean_two_things_is_asked_about() {
        let both = NoNumber::Ambiguous { decimal: "1.234".into(), thousands: "1234".into() };
        assert_eq!(number("1,234 m"), Err(both));
        for text in ["", "m", ".", "1,", "1,2,3", "1.2.3", "1.2,3,4", "-1"] {
            assert_eq!(number(text), Err(NoNumber::None), "{text}");
        }
    }
}
