//! A float in digits with a fixed number of decimals: the standard library's is many times longer in the page.

/// `value` with so many decimals (at most 9), as `format!("{value:.decimals$}")` writes it: the nearest, of two
/// equally near the even one. What is not finite is "NaN", "inf" or "-inf". From 2⁶⁴ on only the first ten figures
/// are right.
///
/// ```
/// assert_eq!(outlean_rigfile::fixed(-1234.5678, 2), "-1234.57");
/// assert_eq!(outlean_rigfile::fixed(0.125, 2), "0.12");
/// ```
#[must_use]
pub fn fixed(value: f64, decimals: usize) -> String {
    let sign = if value.is_sign_negative() { "-" } else { "" };
    let mut size = value.abs();
    if !size.is_finite() {
        return if value.is_nan() { "NaN".to_owned() } else { format!("{sign}inf") };
    }
    let mut zeros = 0;
    while size >= 18_446_744_073_709_551_616.0 {
        size /= 10.0;
        zeros += 1;
    }
    let decimals = decimals.min(9);
    let ten = (0..decimals).fold(1_u64, |power, _| power * 10);
    let mut whole = size as u64;
    let mut part = parts(size - whole as f64, ten, if decimals == 0 { whole } else { 0 });
    if part >= ten {
        whole += 1;
        part -= ten;
    }
    let mut text = format!("{sign}{whole}");
    text.extend((0..zeros).map(|_| '0'));
    if decimals > 0 {
        text.push('.');
        let digits = part.to_string();
        text.extend((digits.len()..decimals).map(|_| '0'));
        text.push_str(&digits);
    }
    text
}

/// How many parts of `ten` are nearest to a fraction of 1; of two the one that is even once `before` is added.
fn parts(fraction: f64, ten: u64, before: u64) -> u64 {
    let bits = fraction.to_bits();
    // The fraction is `mantissa` / 2^`below`, and nothing is lost in what follows.
    let (raw, mantissa) = (bits >> 52, bits & ((1 << 52) - 1));
    let (mantissa, below) = if raw == 0 { (mantissa, 1074) } else { (mantissa | (1 << 52), 1075 - raw) };
    let scaled = u128::from(mantissa) * u128::from(ten);
    if below > 127 {
        return 0;
    }
    let down = (scaled >> below) as u64;
    let (rest, half) = (scaled & ((1 << below) - 1), 1_u128 << (below - 1));
    let up = rest > half || rest == half && (down + before) % 2 == 1;
    down + u64::from(up)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn halves_go_to_the_even_one_and_signs_stay() {
        for value in [0.5, 1.5, 2.5, 0.25, 0.75, 0.125, 0.375, -0.0, -0.004, 0.999_6, 9.995, 1e15, 1.8e19] {
            for decimals in 0..=9 {
                assert_eq!(fixed(value, decimals), format!("{value:.decimals$}"), "{value} {decimals}");
            }
        }
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert_eq!(fixed(value, 2), format!("{value:.2}"));
        }
        assert_eq!(fixed(1e300, 1).len(), 303);
    }

    proptest! {
        #[test]
        fn it_is_what_the_standard_library_writes(bits in any::<u64>(), value in -1e6..1e6, decimals in 0..10_usize) {
            prop_assert_eq!(fixed(value, decimals), format!("{value:.decimals$}"));
            let wild = f64::from_bits(bits);
            if wild.abs() < 1.8e19 {
                prop_assert_eq!(fixed(wild, decimals), format!("{wild:.decimals$}"));
            }
        }

        #[test]
        fn ties_too(eighths in -8_000_000..8_000_000_i64, decimals in 0..4_usize) {
            let value = eighths as f64 / 8.0;
            prop_assert_eq!(fixed(value, decimals), format!("{value:.decimals$}"));
        }
    }
}
