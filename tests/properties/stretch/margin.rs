//! The load at run-away: a little less stands, a little more goes.

use super::{EVERY_LEAN, alike, hung, ropes, standing};
use outlean_rig::{
    FARTHEST_JUMP, LeanIs, Outcome, Stretch, StretchCheck, WANTED_MARGIN, least_share, margin, solve,
    stretch_checks, stretched,
};
use outlean_tests::by_hand::least_stiffness;
use outlean_tests::random::random_rig;

#[test]
fn a_rig_stands_just_below_its_margin_and_goes_just_above() {
    let mut tried = 0;
    for lean_is in [LeanIs::SetBefore, LeanIs::Cut] {
        for seed in 0..700 {
            let mut rig = random_rig(seed);
            rig.feet.held_down = true;
            let stretch = ropes(&rig, seed, lean_is);
            let Ok(Some(found)) = margin(&rig, &stretch) else { continue };
            let mass = rig.load.mass;
            // Beside the weight of the legs a load that is next to nothing shows nothing.
            if !found.multiple.is_finite() || !(0.05..15_000.0 / mass).contains(&found.multiple) {
                continue;
            }
            rig.load.mass = mass * found.multiple * (1.0 - 1e-4);
            let below = stretched(&rig, &stretch).unwrap();
            assert!(matches!(below, Outcome::Stands(_)), "seed {seed} {lean_is:?} {found:?}: {below:?}");
            rig.load.mass = mass * found.multiple * (1.0 + 1e-4);
            let above = stretched(&rig, &stretch).unwrap();
            let goes = matches!(above, Outcome::RunsAway(multiple) if (multiple - 1.0).abs() < 2e-4);
            assert!(goes, "seed {seed} {lean_is:?} {found:?}: {above:?}");
            tried += 1;
        }
    }
    assert!(tried > 500, "{tried}");
}

#[test]
fn what_stands_has_a_margin_above_one_and_what_runs_away_below() {
    for lean_is in EVERY_LEAN {
        let mut met = [0; 3];
        for seed in 0..1000 {
            let rig = random_rig(seed);
            let stretch = ropes(&rig, seed, lean_is);
            let (outcome, found) = (stretched(&rig, &stretch), margin(&rig, &stretch));
            if let Ok(Some(margin)) = &found {
                assert!((0.0..=FARTHEST_JUMP).contains(&margin.jump), "seed {seed} {lean_is:?}: {margin:?}");
            }
            match (&outcome, &found) {
                (Ok(Outcome::Stands(_)), Ok(Some(margin))) if margin.multiple >= 1.0 - 1e-9 => met[0] += 1,
                (Ok(Outcome::RunsAway(multiple)), Ok(Some(margin)))
                    if (multiple - margin.multiple).abs() < 1e-9 =>
                {
                    met[1] += 1;
                }
                (Ok(Outcome::NothingHolds), Ok(None)) => met[2] += 1,
                (Ok(Outcome::Tips(_)), Ok(margin))
                    if margin.is_none_or(|margin| margin.multiple >= 1.0 - 1e-9) => {}
                (Err(one), Err(other)) => assert_eq!((one.field, one.allowed), (other.field, other.allowed)),
                _ => panic!("seed {seed} {lean_is:?}: {outcome:?} {found:?}"),
            }
        }
        assert!(met.into_iter().all(|met| met > 60), "{met:?}");
    }
}

#[test]
fn under_load_ropes_a_hair_stiffer_than_the_least_stand_and_a_hair_softer_go() {
    let mut tried = 0;
    for seed in 0..600 {
        let mut rig = random_rig(seed);
        rig.feet.held_down = true;
        let stretch = Stretch { leg_stiffness: 1e13, ..ropes(&rig, seed, LeanIs::UnderLoad) };
        let Ok(Some(share)) = least_share(&rig, &stretch) else { continue };
        let scaled = |by: f64| {
            let mut stretch = stretch.clone();
            stretch.ropes.iter_mut().for_each(|rope| rope.stiffness *= share * by);
            stretch
        };
        if share == 0.0 || scaled(1.0).ropes.iter().any(|rope| rope.stiffness < 200.0) {
            continue;
        }
        let outcome = |by: f64| stretched(&rig, &scaled(by)).unwrap();
        assert!(matches!(outcome(1.0001), Outcome::Stands(_)), "seed {seed} {share}: {:?}", outcome(1.0001));
        assert!(
            matches!(outcome(0.9999), Outcome::RunsAway(_)),
            "seed {seed} {share}: {:?}",
            outcome(0.9999)
        );
        tried += 1;
    }
    assert!(tried > 200, "{tried}");
}

#[test]
fn an_upright_frame_buckles_at_the_closed_form() {
    // Both guys just taut: whichever way it tips, one is taut at once. The softer of the two lets it go.
    let rig = hung(0.0, 275.0);
    let solution = solve(&rig).unwrap();
    let layout = &solution.layout;
    let least = |i: usize| {
        let (length, arm) = (solution.guy_length[i], solution.guy_arm[i]);
        least_stiffness(rig.load.tension(), length, arm, layout.slant_height, layout.head_height())
    };
    for lean_is in [LeanIs::SetBefore, LeanIs::Cut] {
        let stretch = Stretch { leg_stiffness: 1e15, ..alike(&rig, 30_000.0, lean_is) };
        let found = margin(&rig, &stretch).unwrap().unwrap().multiple;
        let wanted = 30_000.0 / least(0).max(least(1));
        assert!((found / wanted - 1.0).abs() < 1e-9, "{lean_is:?}: {found} for {wanted}");
        let stands = standing(&rig, &stretch);
        assert!(stands.lean.abs() < 1e-9 && stands.tension.iter().all(|tension| tension.abs() < 1e-6));
        let soft = Stretch { leg_stiffness: 1e15, ..alike(&rig, 30_000.0 / wanted * 0.99, lean_is) };
        assert!(
            matches!(stretched(&rig, &soft), Ok(Outcome::RunsAway(multiple)) if (multiple - 0.99).abs() < 1e-6)
        );
    }
}

#[test]
fn no_load_on_the_head_never_runs_away() {
    let mut rig = hung(0.3, 0.0);
    for lean_is in EVERY_LEAN {
        let found = margin(&rig, &alike(&rig, 5_000.0, lean_is)).unwrap().unwrap();
        assert!(found.multiple.is_infinite() && found.lean.is_none(), "{lean_is:?}: {found:?}");
    }
    // Nor does a load that draws the frame to its balance lean.
    rig = hung(0.6, 100.0);
    rig.line = outlean_rig::Line::along(outlean_rig::Path::StraightBack {
        to: outlean_rig::Point::new(-8.0, 0.0, 0.0),
    });
    let found = margin(&rig, &alike(&rig, 500_000.0, LeanIs::SetBefore)).unwrap().unwrap();
    assert!(found.multiple > 20.0, "{found:?}");
}

#[test]
fn the_checks_are_the_margin_and_the_extra_lean() {
    let rig = hung(18f64.to_radians(), 2700.0 / outlean_rig::G);
    let stretch = alike(&rig, 66_700.0, LeanIs::SetBefore);
    let checks = stretch_checks(&rig, &stretch, WANTED_MARGIN).unwrap();
    let multiple = margin(&rig, &stretch).unwrap().unwrap().multiple;
    let found = standing(&rig, &stretch);
    let [stability, extra] = checks.as_slice() else { panic!("{checks:?}") };
    assert_eq!((stability.check, extra.check), (StretchCheck::Stability, StretchCheck::ExtraLean));
    assert!((stability.ratio - 3.0 / multiple).abs() < 1e-12 && stability.ratio > 1.0, "{stability:?}");
    let lean = (found.lean - 18f64.to_radians()).to_degrees();
    assert!((extra.ratio - lean / 3.0).abs() < 1e-9 && extra.ratio > 1.0, "{extra:?}");
    // Where it runs away there is no loaded lean, and where nothing holds no margin either.
    let soft = stretch_checks(&rig, &alike(&rig, 20_000.0, LeanIs::SetBefore), WANTED_MARGIN).unwrap();
    assert!(soft.len() == 1 && soft[0].ratio > 3.0, "{soft:?}");
    let mut loose = rig;
    loose.guys[0].rigged = false;
    let nothing = stretch_checks(&loose, &stretch, WANTED_MARGIN).unwrap();
    assert!(nothing.len() == 1 && nothing[0].ratio.is_infinite(), "{nothing:?}");
}
