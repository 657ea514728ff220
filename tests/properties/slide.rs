//! Feet on their friction: what they need, how it is worked out, and that limits say the same.

use super::{cases, solvable};
use outlean_rig::strength::{CheckRule, Seen, Source, Symbol, Worked};
use outlean_rig::{Limit, Side, limits_at, slide, slide_worked};
use proptest::prelude::*;

fn noted(worked: &Worked, symbol: Symbol) -> Option<f64> {
    worked.iter().find(|value| value.symbol == symbol).map(|value| value.value)
}

proptest! {
    #![proptest_config(cases(2000))]

    #[test]
    fn what_a_foot_needs_follows_from_what_is_put_down(seed: u64) {
        let Some((rig, solution)) = solvable(seed) else { return Ok(()) };
        for side in Side::BOTH {
            let worked = slide_worked(&rig, &solution, side);
            let found = slide(&rig, &solution, side);
            let Some(forces) = solution.forces() else {
                prop_assert!(found.is_none() && worked.is_empty());
                continue;
            };
            prop_assert_eq!(found.is_some(), !rig.feet.pinned && rig.feet.friction.is_some());
            let foot = forces.footing.feet.on(side);
            let [kick, outward, bearing] =
                [Symbol::Kick, Symbol::Outward, Symbol::Bearing].map(|symbol| noted(&worked, symbol).unwrap());
            prop_assert!((kick - foot.kick).abs() <= 1e-9 * foot.reaction.size());
            let even = forces.footing.net_sideways / 2.0;
            let wanted = match (forces.footing.connection.abs() > 0.0, side) {
                (false, _) => foot.outward,
                (true, Side::Left) => -even,
                (true, Side::Right) => even,
            };
            prop_assert!((outward - wanted).abs() <= 1e-9 * foot.reaction.size().max(forces.footing.connection.abs()));
            prop_assert_eq!(noted(&worked, Symbol::FrictionNeeded), foot.friction_needed);
            prop_assert_eq!(noted(&worked, Symbol::Friction), rig.feet.friction);
            if let Some(needed) = foot.friction_needed {
                let worked_out = libm::hypot(kick, outward) / bearing;
                // A foot that hardly presses needs a friction of nothing but rounding.
                if bearing > 1e-3 * foot.reaction.size() {
                    prop_assert!((worked_out - needed).abs() <= 1e-9 * needed.max(1.0), "{worked_out} is not {needed}");
                }
            }
            let Some(found) = found else { continue };
            let needed = foot.friction_needed.unwrap_or(f64::INFINITY);
            prop_assert_eq!(found.needed.to_bits(), needed.to_bits());
            let source = found.rule.source();
            prop_assert_eq!(
                (found.rule, source.source, source.seen),
                (CheckRule::Friction, Source::CommonPractice, Seen::NotPublished)
            );
            // Of all cases the limit keeps the worst, this one among them.
            let limits = limits_at(&rig, rig.lean).unwrap();
            let limit = limits.iter().find(|limit| limit.limit == Limit::FootSlides(side)).unwrap();
            if rig.cases().contains(&rig.case) {
                prop_assert!(limit.ratio >= found.ratio);
            }
            if rig.cases().as_slice() == [rig.case] {
                prop_assert_eq!(limit.ratio.to_bits(), found.ratio.to_bits());
            }
        }
    }
}

#[test]
fn a_foot_slides_past_its_friction_and_not_before() {
    let mut rig = outlean_rig::Rig::new(4.0, 1.4, 0.3, 200.0);
    rig.guys.push(outlean_rig::Guy::to(outlean_rig::Point::new(-6.0, 0.0, 0.0)));
    rig.feet.pinned = false;
    let needed =
        outlean_rig::solve(&rig).unwrap().forces().unwrap().footing.feet.left.friction_needed.unwrap();
    assert!(needed > 0.1);
    for (share, slides) in [(0.99, true), (1.01, false)] {
        rig.feet.friction = Some(share * needed);
        let solution = outlean_rig::solve(&rig).unwrap();
        let found = slide(&rig, &solution, Side::Left).unwrap();
        assert_eq!(found.ratio > 1.0, slides);
        assert!((found.ratio * share - 1.0).abs() < 1e-12);
    }
    rig.feet.friction = Some(0.0);
    let solution = outlean_rig::solve(&rig).unwrap();
    assert!(slide(&rig, &solution, Side::Right).unwrap().ratio.is_infinite());
    // Upright with the feet tied nothing is asked of the ground, which may then be as slippery as it likes.
    (rig.lean, rig.feet.connection) = (0.0, outlean_rig::Connection::Hobble);
    let found = slide(&rig, &outlean_rig::solve(&rig).unwrap(), Side::Right).unwrap();
    assert!(found.needed.abs() < 1e-300 && found.ratio.abs() < 1e-300, "{found:?}");
    rig.feet.pinned = true;
    assert_eq!(slide(&rig, &outlean_rig::solve(&rig).unwrap(), Side::Right), None);
}
