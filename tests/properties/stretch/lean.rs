//! When a frame has the lean that its rig says.

use super::{alike, hung, standing};
use outlean_rig::{LeanIs, Load, Outcome, Stretch, solve, stretched};
use outlean_tests::random::{Draw, random_rig};

#[test]
fn under_load_the_tensions_are_the_rigid_ones() {
    let mut stand = 0;
    for seed in 0..500 {
        let rig = random_rig(seed);
        let stretch = super::ropes(&rig, seed, LeanIs::UnderLoad);
        let Ok(Outcome::Stands(found)) = stretched(&rig, &stretch) else { continue };
        let solution = solve(&rig).unwrap();
        let forces = solution.forces().unwrap();
        let scale = crate::force_scale(&rig, &solution);
        assert!((found.lean - rig.lean).abs() < 1e-12);
        for (tension, guy) in found.tension.iter().zip(&forces.guys) {
            assert!((tension - guy.tension).abs() < 1e-9 * scale, "seed {seed}");
        }
        assert!((found.compression.left - forces.compression.left).abs() < 1e-9 * scale, "seed {seed}");
        assert_eq!(found.footing.feet.left.lifts, forces.footing.feet.left.lifts, "seed {seed}");
        stand += 1;
    }
    assert!(stand > 200, "{stand}");
}

#[test]
fn set_at_the_lean_that_leads_there_it_comes_to_the_lean_under_load() {
    let mut there = 0;
    for seed in 0..200 {
        let draw = &mut Draw::new(seed);
        let mut rig = hung(draw.between(0.1, 0.8), draw.between(100.0, 400.0));
        // The fore guy far out of the way of either.
        rig.guys.pop();
        if draw.chance(0.5) {
            rig.legs.left.weight_per_metre = 60.0;
            rig.legs.right.weight_per_metre = 40.0;
        }
        let stiffness = draw.between(20_000.0, 200_000.0);
        let Ok(Outcome::Stands(loaded)) = stretched(&rig, &alike(&rig, stiffness, LeanIs::UnderLoad)) else {
            continue;
        };
        let set = loaded.set_lean.unwrap();
        assert!(set < loaded.lean, "seed {seed}");
        let mut before = rig.clone();
        before.lean = set;
        let again = standing(&before, &alike(&before, stiffness, LeanIs::SetBefore));
        assert!((again.lean - loaded.lean).abs() < 1e-4, "seed {seed}: {} for {}", again.lean, loaded.lean);
        assert!((again.tension[0] / loaded.tension[0] - 1.0).abs() < 1e-5, "seed {seed}");
        assert!((again.stiffness / loaded.stiffness - 1.0).abs() < 1e-4, "seed {seed}");
        there += 1;
    }
    assert!(there > 100, "{there}");
}

#[test]
fn as_set_it_stands_on_the_weight_of_its_legs_as_without_stretch() {
    let mut stand = 0;
    for seed in 0..500 {
        let mut rig = random_rig(seed);
        rig.load = Load::hanging(0.0);
        let mut stretch = super::ropes(&rig, seed, LeanIs::SetBefore);
        stretch.ropes.iter_mut().for_each(|rope| rope.give = 0.0);
        let (Ok(outcome), Ok(solution)) = (stretched(&rig, &stretch), solve(&rig)) else { continue };
        let Some(forces) = solution.forces() else {
            assert!(!matches!(outcome, Outcome::Stands(_)), "seed {seed}");
            continue;
        };
        let Outcome::Stands(found) = outcome else { panic!("seed {seed}: {outcome:?}") };
        let scale = crate::force_scale(&rig, &solution);
        // A guy whose pretension nothing opposes eases to what balance needs.
        for (tension, guy) in found.tension.iter().zip(&forces.guys) {
            assert!(
                (tension - guy.tension).abs() < 1e-8 * scale,
                "seed {seed}: {tension} for {}",
                guy.tension
            );
        }
        assert!((found.lean - rig.lean).abs() < 1e-9 && (found.set_lean.unwrap() - rig.lean).abs() < 1e-9);
        stand += 1;
    }
    assert!(stand > 150, "{stand}");
}

#[test]
fn of_opposed_pretensions_one_is_given_and_the_other_follows() {
    for given in [0, 1] {
        let mut rig = hung(0.3, 0.0);
        rig.guys[given].pretension = 500.0;
        let arms = solve(&rig).unwrap().guy_arm;
        let found = standing(&rig, &alike(&rig, 50_000.0, LeanIs::SetBefore));
        assert!((found.tension[given] - 500.0).abs() < 1e-6);
        let follows = -500.0 * arms[given] / arms[1 - given];
        assert!((found.tension[1 - given] - follows).abs() < 1e-6, "{follows}");
        // Loaded, the aft guy gains what the fore guy loses and more; it leans less than without.
        rig.load = Load::hanging(200.0);
        let loaded = standing(&rig, &alike(&rig, 50_000.0, LeanIs::SetBefore));
        assert!(loaded.tension[0] > found.tension[0] && loaded.tension[1] < found.tension[1]);
        let slack = standing(&hung(0.3, 200.0), &alike(&rig, 50_000.0, LeanIs::SetBefore));
        assert!(loaded.lean < slack.lean - 0.01, "{} {}", loaded.lean, slack.lean);
    }
}

#[test]
fn guys_cut_out_of_balance_settle_where_they_balance() {
    let mut rig = hung(0.3, 0.0);
    rig.guys[0].pretension = 600.0;
    let stretch = Stretch { leg_stiffness: 1e12, ..alike(&rig, 40_000.0, LeanIs::Cut) };
    let found = standing(&rig, &stretch);
    // Back from where they were cut, the fore guy taut against the aft one.
    assert!(found.lean < 0.3 - 0.01 && found.tension[1] > 100.0 && found.tension[0] < 600.0, "{found:?}");
    assert_eq!(found.set_lean, Some(found.lean));
}

/// Let go where it stands loaded, on guys cut to what they are there, it comes to rest without its load at the lean from
/// which it was loaded, however far back that is and whatever lets go or comes taut on the way.
#[test]
fn it_was_set_where_it_comes_to_rest_without_its_load() {
    let mut met = 0;
    for seed in 0..2000 {
        let rig = random_rig(seed);
        // Cut guys take the legs for unpressed: of legs that hardly give it is all one.
        let legs = Stretch { leg_stiffness: 1e12, ..super::ropes(&rig, seed, LeanIs::UnderLoad) };
        let Ok(Outcome::Stands(loaded)) = stretched(&rig, &legs) else { continue };
        let Some(set) = loaded.set_lean else { continue };
        let mut cut = rig.clone();
        for (guy, tension) in cut.guys.iter_mut().zip(&loaded.tension) {
            (guy.rigged, guy.pretension) = (*tension > 0.0, *tension);
        }
        let mut ropes = Stretch { lean_is: LeanIs::Cut, ..legs };
        ropes.ropes.iter_mut().for_each(|rope| rope.give = 0.0);
        let again = standing(&cut, &ropes);
        assert!((again.lean - loaded.lean).abs() < 1e-4, "seed {seed}: {} for {}", again.lean, loaded.lean);
        assert!((again.set_lean.unwrap() - set).abs() < 1e-4, "seed {seed}: {:?} for {set}", again.set_lean);
        met += 1;
    }
    assert!(met > 1100, "{met}");
}
