//! Remedies: each does, and a little less of it does not.

use super::{alike, hung};
use outlean_rig::{
    Cure, LeanIs, Line, Outcome, Path, Point, Rig, Stretch, WANTED_MARGIN, margin, remedies, solve, stretched,
};
use outlean_tests::random::{Draw, random_rig};

/// A cure less by what it is found to; `None` where there is no less.
fn a_little_less(rig: &Rig, cure: Cure) -> Option<Cure> {
    let way = solve(rig).unwrap().resultant.tipping_moment.signum();
    Some(match cure {
        Cure::Pretension { guy, against, tension } => {
            let tension = tension - 10.5;
            if tension <= rig.guys[usize::from(guy)].pretension {
                return None;
            }
            Cure::Pretension { guy, against, tension }
        }
        Cure::Ropes(ropes) => Cure::Ropes(ropes - 1),
        Cure::Stiffness(stiffness) => Cure::Stiffness(stiffness * 0.989),
        Cure::Lean(lean) => Cure::Lean(lean + way * 0.0501_f64.to_radians()),
        Cure::Setback(by) => Cure::Setback(by - by.signum() * 0.0501),
        _ => return None,
    })
}

/// A rig and its ropes with a cure.
fn cured(rig: &Rig, stretch: &Stretch, cure: Cure) -> (Rig, Stretch) {
    let (mut rig, mut stretch) = (rig.clone(), stretch.clone());
    let solution = solve(&rig).unwrap();
    let way = solution.resultant.tipping_moment.signum();
    let holds: Vec<bool> = solution.guy_arm.iter().map(|arm| arm * way > 0.0).collect();
    match cure {
        Cure::Pretension { guy, against, tension } => {
            let (guy, against) = (usize::from(guy), usize::from(against));
            rig.guys[guy].pretension = tension;
            rig.guys[against].pretension = -tension * solution.guy_arm[guy] / solution.guy_arm[against];
        }
        Cure::Ropes(ropes) => {
            for (rope, _) in stretch.ropes.iter_mut().zip(&holds).filter(|(_, holds)| **holds) {
                rope.stiffness *= f64::from(ropes);
            }
        }
        Cure::Stiffness(stiffness) => {
            for (rope, _) in stretch.ropes.iter_mut().zip(&holds).filter(|(_, holds)| **holds) {
                rope.stiffness = rope.stiffness.max(stiffness);
            }
        }
        Cure::Lean(lean) => rig.lean = lean,
        Cure::Setback(by) => {
            // Aft guys farther back, fore guys farther ahead.
            for (guy, _) in rig.guys.iter_mut().zip(&holds).filter(|(_, holds)| **holds) {
                let out = if guy.anchor.x() < 0.0 { -by } else { by };
                guy.anchor = Point::new(guy.anchor.x() + out, guy.anchor.y(), guy.anchor.z());
            }
        }
        other => panic!("{other:?}"),
    }
    (rig, stretch)
}

/// A frame that its load draws forward, or that its haul line, straight back, draws back.
fn drawn(seed: u64) -> (Rig, Stretch) {
    let draw = &mut Draw::new(seed);
    let back = seed % 2 == 1;
    let lean = if back { draw.between(0.0, 0.3) } else { draw.between(0.2, 0.7) };
    let mut rig = hung(lean, draw.between(150.0, 400.0));
    rig.guys[0].anchor = Point::new(-draw.between(1.0, 7.0), 0.0, 0.0);
    rig.guys[1].anchor = Point::new(draw.between(2.0, 9.0), 0.0, 0.0);
    if back {
        rig.line = Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) });
    }
    let stretch = alike(&rig, draw.between(20_000.0, 150_000.0), LeanIs::SetBefore);
    (rig, stretch)
}

fn reaches(rig: &Rig, stretch: &Stretch) -> bool {
    margin(rig, stretch).is_ok_and(|margin| margin.is_some_and(|margin| margin.multiple >= WANTED_MARGIN))
        && matches!(stretched(rig, stretch), Ok(Outcome::Stands(_)))
}

#[test]
fn each_does_what_it_says_and_is_the_smallest_that_does() {
    // Of frames drawn forward and of frames drawn back.
    let (mut met, mut hardest) = ([[0; 5]; 2], 0.0_f64);
    for seed in 0..240 {
        let (rig, stretch) = drawn(seed);
        let found = remedies(&rig, &stretch, WANTED_MARGIN).unwrap();
        if reaches(&rig, &stretch) {
            assert!(found.is_empty());
            continue;
        }
        for remedy in &found {
            if let Cure::Pretension { tension, .. } = remedy.cure {
                hardest = hardest.max(tension / solve(&rig).unwrap().lines_on_head().size());
            }
            let kind = match remedy.cure {
                Cure::Pretension { .. } => 0,
                Cure::Ropes(_) => 1,
                Cure::Stiffness(_) => 2,
                Cure::Lean(_) => 3,
                _ => 4,
            };
            met[usize::from(seed % 2 == 1)][kind] += 1;
            let (there, ropes) = cured(&rig, &stretch, remedy.cure);
            let effect = margin(&there, &ropes).unwrap().unwrap().multiple;
            let alike = effect.is_infinite() && remedy.margin.is_infinite();
            assert!(
                effect >= WANTED_MARGIN && (alike || (effect / remedy.margin - 1.0).abs() < 1e-9),
                "seed {seed}: {effect} of {remedy:?}"
            );
            let stands = super::standing(&there, &ropes);
            let most = usize::from(seed % 2 == 1);
            assert!((stands.lean - remedy.lean).abs() < 1e-9, "seed {seed}: {remedy:?}");
            assert!((stands.tension[most] - remedy.tension).abs() < 1e-6 * remedy.tension.max(1.0));
            if let Some(less) = a_little_less(&rig, remedy.cure) {
                let (rig, stretch) = cured(&rig, &stretch, less);
                assert!(!reaches(&rig, &stretch), "seed {seed}: less than {remedy:?} does");
            }
            // Nor does as much the other way.
            if let Cure::Setback(by) = remedy.cure {
                for part in [0.3, 0.6, 0.9] {
                    let (rig, stretch) = cured(&rig, &stretch, Cure::Setback(-part * by));
                    assert!(!reaches(&rig, &stretch), "seed {seed}: the other way than {remedy:?}");
                }
            }
        }
    }
    assert!(met.into_iter().flatten().all(|met| met > 3), "{met:?}");
    assert!(hardest > 4.5, "nearly five times what the lines pull: {hardest}");
}

/// Of guys so long that they stretch more than a wider angle makes good the anchors come nearer, as little as does.
#[test]
fn long_guys_may_hold_nearer() {
    let mut met = 0;
    for seed in 0..60 {
        let draw = &mut Draw::new(seed);
        let mut rig = hung(draw.between(0.2, 0.6), draw.between(150.0, 400.0));
        rig.guys[0].anchor = Point::new(-draw.between(8.0, 25.0), 0.0, 0.0);
        let stretch = alike(&rig, draw.between(40_000.0, 200_000.0), LeanIs::SetBefore);
        let found = remedies(&rig, &stretch, WANTED_MARGIN).unwrap();
        let nearer = found.iter().find_map(|remedy| match remedy.cure {
            Cure::Setback(by) if by < 0.0 => Some(by),
            _ => None,
        });
        let Some(by) = nearer else { continue };
        let does = |by: f64| {
            let (rig, stretch) = cured(&rig, &stretch, Cure::Setback(by));
            reaches(&rig, &stretch)
        };
        assert!(does(by) && !does(by + 0.0501), "seed {seed}: {by} m");
        met += 1;
    }
    assert!(met > 5, "{met}");
}

/// A lean further back than the upright stop is no remedy.
#[test]
fn none_leans_the_frame_back_past_its_stop() {
    let mut met = [0, 0];
    for seed in (0..120).step_by(2) {
        let (mut rig, stretch) = drawn(seed);
        let lean = |rig: &Rig| {
            let found = remedies(rig, &stretch, WANTED_MARGIN).unwrap();
            found.iter().find_map(|remedy| match remedy.cure {
                Cure::Lean(lean) => Some(lean),
                _ => None,
            })
        };
        rig.limits.upright_stop = None;
        let Some(free) = lean(&rig) else { continue };
        for (place, stop) in [(0, free - 0.01), (1, free + 0.01)] {
            rig.limits.upright_stop = Some(stop);
            let found = lean(&rig);
            assert_eq!(found, if place == 0 { Some(free) } else { None }, "seed {seed}");
            met[place] += 1;
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
