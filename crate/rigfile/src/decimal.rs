//! A decimal number as a float: a few lines where the standard library carries ten kilobytes of tables.

/// The number that `text` writes in digits, with a point and an exponent of ten or without; `None` where that is
/// not all, or no digit stands before the exponent.
///
/// The first eighteen digits are kept; the next one rounds them. Of up to fifteen digits whose last place is
/// 10⁻²² to 10²² the result is the float nearest to what is written; of others it is off by half an ulp or so for
/// every twenty-two places, within eight up to 10¹⁰⁰, and infinite, or nothing, where a float ends.
pub(crate) fn decimal(text: &str) -> Option<f64> {
    const MOST: u64 = 1_000_000_000_000_000_000;
    let (digits, exponent) = match text.split_once(['e', 'E']) {
        Some((digits, exponent)) => (digits, exponent.parse::<i32>().ok().filter(|e| e.abs() < 100_000)?),
        None => (text, 0),
    };
    // The place of the last digit kept, as a power of ten.
    let mut place = exponent;
    let mut whole = 0_u64;
    let (mut any, mut point, mut full) = (false, false, false);
    for byte in digits.bytes() {
        let digit = match byte {
            b'0'..=b'9' => u64::from(byte - b'0'),
            b'.' if !point => {
                point = true;
                continue;
            }
            _ => return None,
        };
        any = true;
        let longer = whole * 10 + digit;
        if !full && longer < MOST {
            whole = longer;
            place -= i32::from(point);
        } else {
            whole += u64::from(!full && digit >= 5);
            full = true;
            place += i32::from(!point);
        }
    }
    // Powers of ten up to the twenty-second are floats, so one step of them rounds once.
    let mut value = whole as f64;
    while place != 0 && value > 0.0 && value.is_finite() {
        let step = place.clamp(-22, 22);
        let power = (0..step.abs()).fold(1.0, |power, _| power * 10.0);
        value = if step > 0 { value * power } else { value / power };
        place -= step;
    }
    any.then_some(value)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_is_no_number_is_none() {
        for text in ["", ".", "e3", ".e3", "1e", "1.2.3", "-1", "+1", " 1", "1e99999999999", "inf", "nan"] {
            assert_eq!(decimal(text), None, "{text}");
        }
        for text in ["1.", ".5", "007", "1e+3", "1E-3", "0e5000", "9007199254740992"] {
            assert_eq!(decimal(text), text.parse().ok(), "{text}");
        }
    }

    #[test]
    fn beyond_a_float_it_is_infinite_or_nothing() {
        assert_eq!(decimal("1e400"), Some(f64::INFINITY));
        assert_eq!(decimal("1e-400"), Some(0.0));
    }

    proptest! {
        #[test]
        fn fifteen_digits_are_read_as_the_standard_library_reads_them(text in "[0-9]{1,9}\\.[0-9]{0,6}") {
            let wanted: f64 = text.parse().unwrap();
            prop_assert_eq!(decimal(&text).map(f64::to_bits), Some(wanted.to_bits()));
        }

        #[test]
        fn with_an_exponent_too(text in "0?\\.[0-9]{1,15}e-?[0-7]|[0-9]{1,15}[eE][+-]?(1?[0-9]|2[0-2])") {
            let wanted: f64 = text.parse().unwrap();
            prop_assert_eq!(decimal(&text).map(f64::to_bits), Some(wanted.to_bits()));
        }

        #[test]
        fn longer_ones_are_within_eight_ulps(text in "[0-9]{1,30}\\.?[0-9]{0,30}(e-?[0-9]{1,2})?") {
            let wanted: f64 = text.parse().unwrap();
            let read = decimal(&text).unwrap();
            prop_assert!(read.to_bits().abs_diff(wanted.to_bits()) <= 8, "{} is {}, not {}", text, read, wanted);
        }
    }
}
