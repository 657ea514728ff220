//! A frame on stretching guys seen in a mirror, or turned about the vertical, does the same.

use super::{EVERY_LEAN, ropes};
use crate::mirror::mirrored;
use outlean_rig::{Margin, Outcome, Pair, Point, Rig, Side, Stretched, Tip, margin, stretched};
use outlean_tests::random::random_rig;

/// The rig turned about the vertical through the origin.
fn turned(rig: &Rig, angle: f64) -> Rig {
    let (sine, cosine) = (libm::sin(angle), libm::cos(angle));
    let turn = |p: Point| Point::new(cosine * p.x() - sine * p.y(), sine * p.x() + cosine * p.y(), p.z());
    let mut rig = rig.clone();
    rig.feet.at = Pair::from_fn(|side| turn(*rig.feet.at.on(side)));
    for line in rig.lines_mut() {
        line.path = line.path.hauled_from(turn);
    }
    for guy in &mut rig.guys {
        guy.anchor = turn(guy.anchor);
    }
    rig
}

/// Whether two rigs come to the same, left and right of one being `left` and `right` of the other.
fn same(here: &Outcome, there: &Outcome, across: bool) -> bool {
    let on = |side: Side| if across { side.other() } else { side };
    let near = |a: f64, b: f64, scale: f64| (a - b).abs() <= 1e-6 * scale.abs().max(1.0);
    let stand = |a: &Stretched, b: &Stretched| {
        let scale =
            a.tension.iter().fold(a.compression.left.abs().max(a.compression.right.abs()), |s, t| s.max(*t));
        near(a.lean, b.lean, 1.0)
            && a.set_lean.is_some() == b.set_lean.is_some()
            && near(a.set_lean.unwrap_or(0.0), b.set_lean.unwrap_or(0.0), 1.0)
            && near(a.stiffness, b.stiffness, a.stiffness)
            && a.tension.iter().zip(&b.tension).all(|(a, b)| near(*a, *b, scale))
            && Side::BOTH.into_iter().all(|side| {
                let (feet, others) = (a.footing.feet.on(side), b.footing.feet.on(on(side)));
                near(*a.compression.on(side), *b.compression.on(on(side)), scale)
                    && near(feet.kick, others.kick, scale)
                    && near(feet.outward, others.outward, scale)
                    && near(feet.bearing, others.bearing, scale)
            })
    };
    match (here, there) {
        (Outcome::Stands(a), Outcome::Stands(b)) => stand(a, b),
        (Outcome::RunsAway(a), Outcome::RunsAway(b)) => near(*a, *b, 1.0),
        (Outcome::NothingHolds, Outcome::NothingHolds) => true,
        (Outcome::Tips(a), Outcome::Tips(b)) => {
            let other = match b {
                Tip::Left => Tip::Right,
                Tip::Right => Tip::Left,
                ahead => *ahead,
            };
            *a == if across { other } else { *b }
        }
        _ => false,
    }
}

fn same_margin(here: Option<Margin>, there: Option<Margin>) -> bool {
    match (here, there) {
        (None, None) => true,
        (Some(a), Some(b)) => {
            let lean = |margin: Margin| margin.lean.unwrap_or(0.0);
            // At a limit point the load hardly grows with the lean.
            a.multiple.is_finite() == b.multiple.is_finite()
                && (!a.multiple.is_finite() || (a.multiple - b.multiple).abs() <= 1e-6 * a.multiple.max(1.0))
                && (lean(a) - lean(b)).abs() <= 2e-3
        }
        _ => false,
    }
}

fn hold(with: impl Fn(&Rig, u64) -> Rig, across: bool) {
    for lean_is in EVERY_LEAN {
        for seed in 0..400 {
            let rig = random_rig(seed);
            let other = with(&rig, seed);
            let stretch = ropes(&rig, seed, lean_is);
            let (Ok(here), Ok(there)) = (stretched(&rig, &stretch), stretched(&other, &stretch)) else {
                assert!(stretched(&rig, &stretch).is_err() && stretched(&other, &stretch).is_err());
                continue;
            };
            assert!(same(&here, &there, across), "seed {seed} {lean_is:?}: {here:?}\n{there:?}");
            let (here, there) = (margin(&rig, &stretch).unwrap(), margin(&other, &stretch).unwrap());
            assert!(same_margin(here, there), "seed {seed} {lean_is:?}: {here:?} {there:?}");
        }
    }
}

#[test]
fn left_and_right_change_places_in_a_mirror() {
    hold(|rig, _| mirrored(rig), true);
}

#[test]
fn a_rig_turned_about_the_vertical_does_the_same() {
    hold(|rig, seed| turned(rig, 0.7 * seed as f64 + 0.1), false);
}
