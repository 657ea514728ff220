//! Finding where something changes along the lean.

/// Leans from `from` to `to` (rad), both included, no farther apart than `step`.
pub(crate) fn grid(from: f64, to: f64, step: f64) -> impl Iterator<Item = f64> + Clone {
    // A float to integer cast saturates: never more than a few thousand steps are asked for.
    let steps = libm::ceil((to - from) / step).max(1.0) as u32;
    (0..=steps).map(move |i| from + (to - from) * (f64::from(i) / f64::from(steps)))
}

/// Where `holds` changes between `a`, where it is true, and `b`, where it is false: the last place found true
/// and the first found false, no farther apart than `width`.
pub(crate) fn bisect(mut a: f64, mut b: f64, width: f64, mut holds: impl FnMut(f64) -> bool) -> (f64, f64) {
    for _ in 0..80 {
        if (b - a).abs() <= width {
            break;
        }
        let middle = 0.5 * (a + b);
        if holds(middle) {
            a = middle;
        } else {
            b = middle;
        }
    }
    (a, b)
}

/// Where `f` is least between `a` and `b`, by golden section, for a function with one valley there.
pub(crate) fn valley(mut a: f64, mut b: f64, mut f: impl FnMut(f64) -> f64) -> f64 {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    let mut low = b - GOLDEN * (b - a);
    let mut high = a + GOLDEN * (b - a);
    let (mut at_low, mut at_high) = (f(low), f(high));
    for _ in 0..24 {
        if at_low < at_high {
            (b, high, at_high) = (high, low, at_low);
            low = b - GOLDEN * (b - a);
            at_low = f(low);
        } else {
            (a, low, at_low) = (low, high, at_high);
            high = a + GOLDEN * (b - a);
            at_high = f(high);
        }
    }
    if at_low < at_high { low } else { high }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_grid_includes_both_ends_and_keeps_to_its_step() {
        let leans: Vec<f64> = grid(-1.0, 1.0, 0.3).collect();
        assert_eq!(leans.len(), 8);
        assert_eq!((leans[0], leans[7]), (-1.0, 1.0));
        assert!(leans.windows(2).all(|pair| pair[1] - pair[0] <= 0.3));
    }

    #[test]
    fn a_change_is_found_to_its_width() {
        let (last, first) = bisect(0.0, 4.0, 1e-6, |x| x * x < 2.0);
        assert!(last * last < 2.0 && first * first >= 2.0 && first - last <= 1e-6);
    }

    #[test]
    fn a_valley_is_found() {
        assert!((valley(-2.0, 3.0, |x| (x - 0.7) * (x - 0.7)) - 0.7).abs() < 1e-4);
    }
}
