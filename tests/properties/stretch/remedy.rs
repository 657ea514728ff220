//! Remedies: each does, and a little less of it does not.

use super::{alike, hung};
use outlean_rig::{Cure, LeanIs, Outcome, Rig, Stretch, WANTED_MARGIN, margin, remedies, solve, stretched};
use outlean_tests::random::{Draw, random_rig};

/// A rig and its ropes with a cure less by what it is found to; `None` where there is no less.
fn a_little_less(rig: &Rig, stretch: &Stretch, cure: Cure) -> Option<(Rig, Stretch)> {
    let (mut rig, mut stretch) = (rig.clone(), stretch.clone());
    let solution = solve(&rig).unwrap();
    let way = solution.resultant.tipping_moment.signum();
    let holds: Vec<bool> = solution.guy_arm.iter().map(|arm| arm * way > 0.0).collect();
    match cure {
        Cure::Pretension { guy, against, tension } => {
            let (guy, against) = (usize::from(guy), usize::from(against));
            let less = tension - 10.5;
            if less <= rig.guys[guy].pretension {
                return None;
            }
            rig.guys[guy].pretension = less;
            rig.guys[against].pretension = -less * solution.guy_arm[guy] / solution.guy_arm[against];
        }
        Cure::Ropes(ropes) => {
            for (rope, _) in stretch.ropes.iter_mut().zip(&holds).filter(|(_, holds)| **holds) {
                rope.stiffness *= f64::from(ropes - 1);
            }
        }
        Cure::Stiffness(stiffness) => {
            for (rope, _) in stretch.ropes.iter_mut().zip(&holds).filter(|(_, holds)| **holds) {
                rope.stiffness = rope.stiffness.max(stiffness * 0.989);
            }
        }
        Cure::Lean(lean) => rig.lean = lean + way * 0.0501_f64.to_radians(),
        Cure::Setback(by) => {
            let less = by - by.signum() * 0.0501;
            for (guy, _) in rig.guys.iter_mut().zip(&holds).filter(|(_, holds)| **holds) {
                guy.anchor = guy.anchor + solution.layout.forward * (-way * less);
            }
        }
        _ => return None,
    }
    Some((rig, stretch))
}

fn reaches(rig: &Rig, stretch: &Stretch) -> bool {
    margin(rig, stretch).is_ok_and(|margin| margin.is_some_and(|margin| margin.multiple >= WANTED_MARGIN))
        && matches!(stretched(rig, stretch), Ok(Outcome::Stands(_)))
}

#[test]
fn each_is_the_smallest_that_does() {
    let mut met = [0; 5];
    for seed in 0..60 {
        let draw = &mut Draw::new(seed);
        let mut rig = hung(draw.between(0.2, 0.7), draw.between(150.0, 400.0));
        rig.guys[0].anchor = outlean_rig::Point::new(-draw.between(1.0, 7.0), 0.0, 0.0);
        let stretch = alike(&rig, draw.between(20_000.0, 150_000.0), LeanIs::SetBefore);
        let found = remedies(&rig, &stretch, WANTED_MARGIN).unwrap();
        if reaches(&rig, &stretch) {
            assert!(found.is_empty());
            continue;
        }
        for remedy in &found {
            assert!(
                remedy.margin >= WANTED_MARGIN && remedy.tension >= 0.0 && remedy.lean.abs() < 1.5,
                "{remedy:?}"
            );
            let kind = match remedy.cure {
                Cure::Pretension { .. } => 0,
                Cure::Ropes(_) => 1,
                Cure::Stiffness(_) => 2,
                Cure::Lean(_) => 3,
                _ => 4,
            };
            met[kind] += 1;
            if let Some((rig, stretch)) = a_little_less(&rig, &stretch, remedy.cure) {
                assert!(!reaches(&rig, &stretch), "seed {seed}: less than {remedy:?} does");
            }
        }
    }
    assert!(met.into_iter().all(|met| met > 3), "{met:?}");
}

#[test]
fn the_effect_is_that_of_the_changed_rig() {
    let rig = hung(25f64.to_radians(), 275.0);
    let stretch = alike(&rig, 44_500.0, LeanIs::SetBefore);
    assert!(matches!(stretched(&rig, &stretch), Ok(Outcome::RunsAway(_))));
    let found = remedies(&rig, &stretch, WANTED_MARGIN).unwrap();
    let ropes = found.iter().find(|remedy| matches!(remedy.cure, Cure::Ropes(_))).unwrap();
    let Cure::Ropes(number) = ropes.cure else { panic!("{ropes:?}") };
    let mut more = stretch.clone();
    more.ropes[0].stiffness *= f64::from(number);
    let stands = super::standing(&rig, &more);
    assert!((stands.lean - ropes.lean).abs() < 1e-12 && (stands.tension[0] - ropes.tension).abs() < 1e-9);
    assert!((margin(&rig, &more).unwrap().unwrap().multiple - ropes.margin).abs() < 1e-12);
    // A stiffer rope does what so many ropes do.
    let stiffness = found.iter().find_map(|remedy| match remedy.cure {
        Cure::Stiffness(stiffness) => Some(stiffness / 44_500.0),
        _ => None,
    });
    let times = stiffness.unwrap();
    assert!(times <= f64::from(number) * 1.01 && times > f64::from(number - 1), "{times} {number}");
}

#[test]
fn whatever_the_rig_there_is_an_answer() {
    for seed in 0..40 {
        let rig = random_rig(seed);
        for lean_is in super::EVERY_LEAN {
            let stretch = super::ropes(&rig, seed, lean_is);
            assert_eq!(
                remedies(&rig, &stretch, 3.0).is_err(),
                stretched(&rig, &stretch).is_err(),
                "seed {seed}"
            );
        }
    }
}
