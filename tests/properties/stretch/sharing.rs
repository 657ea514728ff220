//! What guys share on rigid legs.

use super::{alike, hung};
use outlean_rig::{
    Balance, Guy, LeanIs, Outcome, Part, Point, Role, Rope, Station, Stretch, Tip, checks, shared, solve,
    stretched,
};
use outlean_tests::random::random_rig;

#[test]
fn every_guy_carries_by_its_stiffness_and_arm_and_together_they_hold_the_moment() {
    let mut stand = 0;
    for seed in 0..800 {
        let rig = random_rig(seed);
        let stretch = super::ropes(&rig, seed, LeanIs::Cut);
        let (Ok(found), Ok(solution)) = (shared(&rig, &stretch), solve(&rig)) else { continue };
        let Balance::Stands(forces) = &found.balance else { continue };
        let mut moment = 0.0;
        let mut most: Option<(usize, f64)> = None;
        for (i, guy) in rig.guys.iter().enumerate() {
            let (rope, arm) = (&stretch.ropes[i], solution.guy_arm[i]);
            let unstretched = solution.guy_length[i] / (1.0 + guy.pretension / rope.stiffness) + rope.give;
            let longer = solution.guy_length[i] + arm * found.turned - unstretched;
            let wanted = if guy.rigged { (rope.stiffness * longer / unstretched).max(0.0) } else { 0.0 };
            let tension = forces.guys[i].tension;
            assert!((tension - wanted).abs() <= 1e-9 * rope.stiffness, "seed {seed}: {tension} for {wanted}");
            let works = arm * solution.resultant.tipping_moment > 0.0;
            let role = match (guy.rigged, tension == 0.0) {
                (false, _) => Role::NotRigged,
                (true, true) => Role::Slack,
                _ if works => Role::Working,
                _ => Role::Pretensioned,
            };
            assert_eq!(forces.guys[i].role, role, "seed {seed}");
            if role == Role::Working && most.is_none_or(|(_, most)| tension > most) {
                most = Some((i, tension));
            }
            moment += tension * arm;
        }
        assert_eq!(forces.working_guy.map(usize::from), most.map(|(i, _)| i), "seed {seed}");
        let scale = crate::force_scale(&rig, &solution)
            .max(forces.guys.iter().fold(0.0, |a, guy| guy.tension.max(a)));
        assert!(
            (moment - solution.resultant.tipping_moment).abs() <= 1e-9 * scale * solution.layout.slant_height,
            "seed {seed}: {moment} for {}",
            solution.resultant.tipping_moment
        );
        stand += 1;
    }
    assert!(stand > 300, "{stand}");
}

#[test]
fn it_is_what_hardly_stretching_guys_carry() {
    let mut held = 0;
    for seed in 0..800 {
        let mut rig = random_rig(seed);
        rig.guys.iter_mut().for_each(|guy| guy.pretension = 0.0);
        // Each twice as stiff as the one before; legs much stiffer than all.
        let rope = |i: usize| Rope { stiffness: 1e8 * f64::from(1_u32 << i), give: 0.0 };
        let stretch = Stretch {
            leg_stiffness: 1e15,
            ropes: (0..rig.guys.len()).map(rope).collect(),
            lean_is: LeanIs::Cut,
        };
        let (Ok(found), Ok(solution)) = (shared(&rig, &stretch), solve(&rig)) else { continue };
        let Balance::Stands(sharing) = &found.balance else { continue };
        let arm = solution.guy_arm.iter().fold(0.0_f64, |most, arm| most.max(arm.abs()));
        // A frame that turns by more than a hair is no longer where it was.
        let hardly = found.turned.abs() < 1e-5;
        if sharing.guys.iter().filter(|guy| guy.tension > 0.0).count() < 2 || arm < 0.5 || !hardly {
            continue;
        }
        let outcome = stretched(&rig, &stretch).unwrap();
        let Outcome::Stands(stands) = outcome else { panic!("seed {seed}: {outcome:?} {found:?}") };
        let scale = crate::force_scale(&rig, &solution);
        for (tension, guy) in stands.tension.iter().zip(&sharing.guys) {
            assert!(
                (tension - guy.tension).abs() <= 3e-4 * scale,
                "seed {seed}: {tension} for {}",
                guy.tension
            );
        }
        assert!((stands.compression.left - sharing.compression.left).abs() <= 3e-4 * scale, "seed {seed}");
        held += 1;
    }
    assert!(held > 60, "{held}");
}

/// However guys on like ropes share, each is held against as much by its check.
#[test]
fn no_guy_carries_more_than_it_is_held_against() {
    let (mut held, mut shares) = (0, 0);
    for seed in 0..2000 {
        let mut rig = random_rig(seed);
        rig.guys.iter_mut().for_each(|guy| guy.pretension = 0.0);
        let Ok(solution) = solve(&rig) else { continue };
        let (Some(_), Ok(found)) = (solution.forces(), shared(&rig, &alike(&rig, 1e9, LeanIs::Cut))) else {
            continue;
        };
        let Balance::Stands(forces) = &found.balance else { continue };
        let all = checks(&rig, &solution);
        for (number, (guy, force)) in (0_u8..).zip(rig.guys.iter().zip(&forces.guys)) {
            if !guy.rigged || Station::of(guy.anchor, &solution.layout) == Station::Side {
                continue;
            }
            let check = all.iter().find(|check| check.part == Part::GuyRope(number)).unwrap();
            assert!(
                check.demand >= force.tension * (1.0 - 1e-9),
                "seed {seed}: guy {number} is held against {} and carries {}",
                check.demand,
                force.tension
            );
            held += 1;
            shares += i32::from(
                force.tension > 0.0 && solution.forces().unwrap().guys[usize::from(number)].tension == 0.0,
            );
        }
    }
    assert!(held > 500 && shares > 50, "{held} {shares}");
}

#[test]
fn what_no_guy_opposes_tips() {
    let mut rig = hung(0.3, 200.0);
    rig.guys[0].rigged = false;
    let stretch = alike(&rig, 50_000.0, LeanIs::SetBefore);
    assert_eq!(shared(&rig, &stretch).unwrap().balance, Balance::Tips(Tip::Forward));
    rig.lean = -0.3;
    let back = shared(&rig, &stretch).unwrap();
    assert!(back.turned < 0.0);
    let Balance::Stands(forces) = back.balance else { panic!("the fore guy holds it") };
    assert_eq!((forces.working_guy, forces.guys[1].role), (Some(1), Role::Working));
    rig.guys[1].rigged = false;
    assert_eq!(shared(&rig, &stretch).unwrap().balance, Balance::Tips(Tip::Back));
}

#[test]
fn two_like_guys_carry_alike_and_a_stiffer_one_more() {
    let mut rig = hung(0.3, 200.0);
    rig.guys[0].anchor = Point::new(-5.7, 1.5, 0.0);
    rig.guys[1] = Guy::to(Point::new(-5.7, -1.5, 0.0));
    let tensions = |left: f64| {
        let mut stretch = alike(&rig, 50_000.0, LeanIs::SetBefore);
        stretch.ropes[0].stiffness = left;
        let Balance::Stands(forces) = shared(&rig, &stretch).unwrap().balance else { panic!("it stands") };
        (forces.guys[0].tension, forces.guys[1].tension)
    };
    let (a, b) = tensions(50_000.0);
    assert!((a - b).abs() < 1e-9 * a);
    let (stiffer, softer) = tensions(150_000.0);
    assert!((stiffer / softer - 3.0).abs() < 1e-9, "{stiffer} {softer}");
}
