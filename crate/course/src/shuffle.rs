//! A list in an order that a seed gives.

use crate::Generator;

/// The numbers below `count` in an order drawn by `generator`, every order as likely (R. Durstenfeld's form of the
/// shuffle of Fisher and Yates: Algorithm 235, Communications of the ACM 7, 1964). From the last place down, each
/// changes over with one drawn from those up to it.
pub(crate) fn shuffled(generator: &mut Generator, count: usize) -> Vec<usize> {
    let mut order: Vec<usize> = (0..count).collect();
    for last in (1..count).rev() {
        // A list is never longer than its generator can draw from: those of questions are a dozen.
        let below = u32::try_from(last + 1).unwrap_or(u32::MAX);
        order.swap(last, generator.below(below) as usize);
    }
    order
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_order_comes_up_about_as_often() {
        let mut seen = std::collections::BTreeMap::new();
        for seed in 0..2400 {
            *seen.entry(shuffled(&mut Generator::new(seed, "orders"), 4)).or_insert(0) += 1;
        }
        assert_eq!(seen.len(), 24);
        assert!(seen.values().all(|times| (60..145).contains(times)), "{seen:?}");
        assert!(shuffled(&mut Generator::new(1, ""), 0).is_empty());
        assert_eq!(shuffled(&mut Generator::new(1, ""), 1), [0]);
    }

    /// These come from a second program in another language. A change here changes every question ever handed out.
    #[test]
    fn the_same_seed_gives_the_same_order_on_every_machine() {
        assert_eq!(shuffled(&mut Generator::new(7, "leg-with-line"), 6), [4, 3, 2, 1, 0, 5]);
    }
}
