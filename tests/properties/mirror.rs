//! A rig seen in a mirror carries the mirrored forces.

use super::{cases, force_scale, solvable};
use outlean_rig::{Force, Pair, Path, Point, Rig, Side, Solution, Tip, solve, working_range};
use proptest::prelude::*;

fn turned(point: Point) -> Point {
    Point::new(point.x(), -point.y(), point.z())
}

fn swapped<T: Copy>(pair: Pair<T>) -> Pair<T> {
    Pair::new(pair.right, pair.left)
}

pub(super) fn mirrored(rig: &Rig) -> Rig {
    let mut rig = rig.clone();
    rig.legs = swapped(rig.legs);
    rig.feet.at = Pair::new(turned(rig.feet.at.right), turned(rig.feet.at.left));
    rig.load.side_angle = -rig.load.side_angle;
    for swing in rig.load.at_edge.iter_mut().chain(&mut rig.load.on_tag_lines) {
        swing.side = -swing.side;
    }
    for line in rig.lines_mut() {
        line.path = match line.path {
            Path::RedirectedAtFoot { foot, to } => {
                Path::RedirectedAtFoot { foot: foot.other(), to: turned(to) }
            }
            path => path.hauled_from(turned),
        };
    }
    for guy in &mut rig.guys {
        guy.anchor = turned(guy.anchor);
    }
    rig
}

/// Largest difference of forces between a solution and another's mirror image.
fn apart(here: &Solution, there: &Solution) -> f64 {
    let vectors =
        |a: Force, b: Force| (a.x() - b.x()).abs().max((a.y() + b.y()).abs()).max((a.z() - b.z()).abs());
    let mut all =
        vec![vectors(here.resultant.force, there.resultant.force), vectors(here.line.haul, there.line.haul)];
    if let (Some(a), Some(b)) = (here.forces(), there.forces()) {
        for side in Side::BOTH {
            let (foot, twin) = (a.footing.feet.on(side), b.footing.feet.on(side.other()));
            all.extend([
                vectors(foot.reaction, twin.reaction),
                (foot.outward - twin.outward).abs(),
                (foot.kick - twin.kick).abs(),
                (a.compression.on(side) - b.compression.on(side.other())).abs(),
                (a.leg_moment.on(side) - b.leg_moment.on(side.other())).abs(),
            ]);
        }
        all.extend(a.guys.iter().zip(&b.guys).map(|(guy, twin)| (guy.tension - twin.tension).abs()));
        all.extend([
            (a.footing.spread_thrust - b.footing.spread_thrust).abs(),
            (a.footing.connection - b.footing.connection).abs(),
            (a.footing.net_sideways + b.footing.net_sideways).abs(),
        ]);
    }
    all.into_iter().fold(0.0, f64::max)
}

proptest! {
    #![proptest_config(cases(3000))]

    #[test]
    fn left_and_right_change_places(seed: u64) {
        let Some((rig, here)) = solvable(seed) else { return Ok(()) };
        let there = solve(&mirrored(&rig)).unwrap();
        let tips = there.tips().map(|tip| match tip {
            Tip::Left => Tip::Right,
            Tip::Right => Tip::Left,
            other => other,
        });
        prop_assert_eq!(here.tips(), tips);
        let scale = force_scale(&rig, &here);
        prop_assert!(apart(&here, &there) < 1e-9 * scale, "{} N apart at a scale of {scale} N", apart(&here, &there));
        prop_assert!((here.resultant.tipping_moment - there.resultant.tipping_moment).abs() < 1e-9 * scale);
    }
}

proptest! {
    #![proptest_config(cases(20))]

    #[test]
    fn the_working_range_is_the_same_in_a_mirror(seed: u64) {
        let Some((rig, _)) = solvable(seed) else { return Ok(()) };
        let (here, there) = (working_range(&rig).unwrap(), working_range(&mirrored(&rig)).unwrap());
        prop_assert_eq!(here.intervals.len(), there.intervals.len());
        for (a, b) in here.intervals.iter().zip(&there.intervals) {
            prop_assert!((a.from - b.from).abs() < 2e-4 && (a.to - b.to).abs() < 2e-4);
        }
    }
}
