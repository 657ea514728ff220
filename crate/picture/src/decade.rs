//! Powers of ten. The power and logarithm functions are long, and round numbers need neither.

/// The greatest power of ten not above `value`, and its exponent; from 10⁻²² to 10²².
pub(crate) fn decade(value: f64) -> (f64, i32) {
    let power = |exponent: i32| {
        let power = (0..exponent.abs()).fold(1.0, |power, _| power * 10.0);
        if exponent < 0 { 1.0 / power } else { power }
    };
    // What is a power of ten but for rounding counts as that power.
    let value = value * (1.0 + 1e-12);
    let mut exponent = -22;
    while exponent < 22 && power(exponent + 1) <= value {
        exponent += 1;
    }
    (power(exponent), exponent)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn powers_of_ten_are_their_own_and_what_lies_between_has_the_one_below() {
        for exponent in -22..=22 {
            let power: f64 = format!("1e{exponent}").parse().unwrap();
            for value in [power, power * 1.000_001, power * 9.999] {
                let (found, its) = decade(value);
                assert_eq!((found.to_bits(), its), (power.to_bits(), exponent), "{value}");
            }
        }
        assert_eq!(decade(0.0).1, -22);
        assert_eq!(decade(f64::INFINITY).1, 22);
    }
}
