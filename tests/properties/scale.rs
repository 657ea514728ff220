//! Forces follow the load; forces do not depend on where the origin is or which way north lies.

use super::{cases, force_scale, solvable};
use outlean_rig::{Pair, Point, Rig, solve};
use proptest::prelude::*;

/// Without what does not scale with the load: weight of legs, pretensions.
fn weightless(mut rig: Rig) -> Rig {
    rig.legs.left.weight_per_metre = 0.0;
    rig.legs.right.weight_per_metre = 0.0;
    for guy in &mut rig.guys {
        guy.pretension = 0.0;
    }
    rig
}

fn moved(rig: &Rig, way: impl Fn(Point) -> Point) -> Rig {
    let mut rig = rig.clone();
    rig.feet.at = Pair::new(way(rig.feet.at.left), way(rig.feet.at.right));
    rig.line.path = rig.line.path.hauled_from(&way);
    if let Some(second) = &mut rig.second {
        second.line.path = second.line.path.hauled_from(&way);
    }
    for guy in &mut rig.guys {
        guy.anchor = way(guy.anchor);
    }
    rig
}

proptest! {
    #![proptest_config(cases(3000))]

    #[test]
    fn forces_follow_the_load(seed: u64, factor in 0.05..20.0_f64) {
        let Some((rig, _)) = solvable(seed) else { return Ok(()) };
        let rig = weightless(rig);
        let mut more = rig.clone();
        more.load.mass *= factor;
        let (one, many) = (solve(&rig).unwrap(), solve(&more).unwrap());
        prop_assert_eq!(one.tips(), many.tips());
        let (Some(a), Some(b)) = (one.forces(), many.forces()) else { return Ok(()) };
        let close = 1e-9 * force_scale(&more, &many);
        prop_assert_eq!(a.working_guy, b.working_guy);
        prop_assert!((a.compression.left * factor - b.compression.left).abs() < close);
        prop_assert!((a.compression.right * factor - b.compression.right).abs() < close);
        for (guy, twin) in a.guys.iter().zip(&b.guys) {
            prop_assert!((guy.tension * factor - twin.tension).abs() < close);
        }
        for (foot, twin) in [(a.footing.feet.left, b.footing.feet.left), (a.footing.feet.right, b.footing.feet.right)] {
            prop_assert!((foot.bearing * factor - twin.bearing).abs() < close);
            prop_assert_eq!(foot.friction_alone.is_some(), twin.friction_alone.is_some());
            if let (Some(a), Some(b)) = (foot.friction_alone, twin.friction_alone) {
                prop_assert!((a - b).abs() < 1e-6 * (1.0 + a * a));
            }
        }
        prop_assert!((a.footing.connection * factor - b.footing.connection).abs() < close * 100.0);
    }

    #[test]
    fn origin_and_north_are_nobody_s_business(
        seed: u64,
        turn in -3.1..3.1_f64,
        x in -20.0..20.0_f64,
        y in -20.0..20.0_f64,
        z in -5.0..5.0_f64,
    ) {
        let Some((rig, _)) = solvable(seed) else { return Ok(()) };
        let (sine, cosine) = (libm::sin(turn), libm::cos(turn));
        let there = moved(&rig, |p| {
            Point::new(x + p.x() * cosine - p.y() * sine, y + p.x() * sine + p.y() * cosine, z + p.z())
        });
        let (a, b) = (solve(&rig).unwrap(), solve(&there).unwrap());
        prop_assert_eq!(a.tips(), b.tips());
        let close = 1e-8 * force_scale(&rig, &a);
        prop_assert!((a.resultant.tipping_moment - b.resultant.tipping_moment).abs() < close * 10.0);
        match (a.resultant.ahead_of_feet, b.resultant.ahead_of_feet) {
            (Some(a), Some(b)) => prop_assert!((a - b).abs() < 1e-7 * (1.0 + a.abs() * a.abs())),
            (a, b) => prop_assert_eq!(a, b),
        }
        let (Some(a), Some(b)) = (a.forces(), b.forces()) else { return Ok(()) };
        prop_assert!((a.compression.left - b.compression.left).abs() < close);
        prop_assert!((a.compression.right - b.compression.right).abs() < close);
        for (foot, twin) in [(a.footing.feet.left, b.footing.feet.left), (a.footing.feet.right, b.footing.feet.right)] {
            prop_assert!((foot.kick - twin.kick).abs() < close);
            prop_assert!((foot.outward - twin.outward).abs() < close);
            prop_assert!((foot.bearing - twin.bearing).abs() < close);
        }
    }
}
