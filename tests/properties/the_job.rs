//! Pulls on holdfasts, luffing, clear reach: what the job asks beside whether it stands.

use super::solvable;
use outlean_rig::{
    Clearance, Edge, FARTHEST_BACK, Guy, Haul, Lever, Limit, Line, Luffing, Part, Path, Point, Reaching, Rig,
    Side, governing, holdfast_pulls, solve, solve_at, stands_by,
};

fn leaning(lean: f64) -> Rig {
    let mut rig = Rig::new(4.0, 1.2, lean.to_radians(), 250.0);
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    rig.guys.push(Guy::to(Point::new(6.0, 0.0, 0.0)));
    rig
}

/// What the ground holds up at the feet and down at the holdfasts is what weighs.
#[test]
fn holdfasts_and_feet_carry_all_that_weighs() {
    let (mut stand, mut lift) = (0, 0);
    for seed in 0..1500 {
        let Some((rig, solution)) = solvable(seed) else { continue };
        let Some(forces) = solution.forces().filter(|_| !stands_by(&rig, &solution)) else { continue };
        let pulls = holdfast_pulls(&rig, &solution);
        let feet = forces.footing.feet.left.bearing + forces.footing.feet.right.bearing;
        // Of two lines midway between the feet each names what both do there.
        let twice = pulls.iter().any(|(part, _)| *part == Part::RedirectPulley);
        let once = pulls.iter().filter(|(part, _)| !(twice && *part == Part::SecondRedirect));
        let uplift: f64 = once.map(|(_, pull)| pull.uplift).sum();
        let load: f64 = solution.lines().map(|line| -line.load.z()).sum();
        let weight = rig.legs.left.weight() + rig.legs.right.weight();
        let all: f64 = pulls.iter().map(|(_, pull)| pull.size).sum();
        let off = feet - uplift - load - weight;
        assert!(off.abs() < 1e-8 * (all + load.abs() + weight + 1.0), "seed {seed}: {off} N of {load} N");
        for (part, pull) in &pulls {
            assert!(
                (pull.level * pull.level + pull.uplift * pull.uplift - pull.size * pull.size).abs()
                    < 1e-6 * (1.0 + pull.size * pull.size)
            );
            if let Part::GuyHoldfast(number) = part {
                let tension = forces.guys[usize::from(*number)].tension;
                assert!((pull.size - tension).abs() < 1e-9 * (1.0 + tension), "seed {seed} {part:?}");
            }
            lift += u32::from(pull.uplift > 0.0);
        }
        stand += 1;
    }
    assert!(stand > 400 && lift > 800, "{stand} stand, {lift} holdfasts lift");
}

#[test]
fn ropes_tied_together_pull_together_and_a_pulley_between_the_feet_pulls_up() {
    let mut rig = leaning(20.0);
    let to = Point::new(-6.0, 0.03, 0.0);
    rig.line = Line::along(Path::RedirectedMidBase { to });
    let solution = solve(&rig).unwrap();
    let pulls = holdfast_pulls(&rig, &solution);
    let parts: Vec<_> = pulls.iter().map(|(part, _)| *part).collect();
    let wanted = [Part::GuyHoldfast(0), Part::GuyHoldfast(1), Part::HaulHoldfast, Part::RedirectPulley];
    assert_eq!(parts, wanted);
    let [aft, fore, haul, pulley] = [0, 1, 2, 3].map(|i| pulls[i].1);
    assert_eq!(aft, haul);
    let tension = solution.forces().unwrap().guys[0].tension;
    assert!(aft.size > tension + 0.5 * solution.line.after_redirect);
    // The level part of the haul line adds nothing to what lifts.
    let (length, height) = (solution.guy_length[0], solution.layout.head_height());
    assert!((aft.uplift - tension * height / length).abs() < 1e-9);
    assert!(fore.size == 0.0 && fore.angle.is_none());
    let redirect = solution.line.redirect.unwrap();
    assert!((pulley.uplift - redirect.z()).abs() < 1e-9 && pulley.uplift > 2000.0);
    let level = libm::sqrt(redirect.x() * redirect.x() + redirect.y() * redirect.y());
    assert!((pulley.angle.unwrap() - libm::atan2(redirect.z(), level)).abs() < 1e-12);
    // One tied to a foot hangs on no holdfast of its own.
    rig.line = Line::along(Path::RedirectedAtFoot { foot: Side::Left, to });
    assert_eq!(holdfast_pulls(&rig, &solve(&rig).unwrap()).len(), 3);
}

#[test]
fn luffing_pulls_what_the_guy_carries_where_it_carries_most() {
    let rig = leaning(20.0);
    let there = 35f64.to_radians();
    let found = Luffing::of(&rig, 0, there).unwrap().unwrap();
    let tension = |lean: f64| solve_at(&rig, lean).unwrap().forces().unwrap().guys[0].tension;
    assert!((found.tension - tension(there)).abs() < 1e-9 && (found.at - there).abs() < 1e-12);
    // Its length from head to anchor, by hand.
    let slant = libm::sqrt(16.0 - 0.36);
    let long = |lean: f64| libm::sqrt(36.0 + slant * slant + 2.0 * 6.0 * slant * libm::sin(lean));
    assert!((found.comes_in - (long(rig.lean) - long(there))).abs() < 1e-12 && found.comes_in < 0.0);
    assert!(!found.changes_sides);
    // Through a 3:1 of pulleys that pass on 0.8: 2.44 in, 1 + 1.25 + 1.5625 out.
    let hands = Haul::against(found.tension, 3, 0.8, 250.0).unwrap();
    assert!((hands.hands - found.tension / 2.44).abs() < 1e-9);
    assert!((found.holds_back(3, 0.8) - found.tension / 3.8125).abs() < 1e-9);
    // Back again it carries as much, and comes in.
    let back = Luffing::of(&Rig { lean: there, ..rig.clone() }, 0, rig.lean).unwrap().unwrap();
    assert!((back.tension - found.tension).abs() < 1e-9 && (back.comes_in + found.comes_in).abs() < 1e-12);
    // A fore guy has nothing to do, one that is not there is none, and nothing is brought past where it tips.
    assert!(Luffing::of(&rig, 1, there).unwrap().unwrap().tension < 1e-9);
    assert_eq!(Luffing::of(&rig, 2, there), Ok(None));
    assert_eq!(
        Luffing::of(&Rig { guys: rig.guys[1..].iter().copied().collect(), ..rig.clone() }, 0, there),
        Ok(None)
    );
    // Hauled straight back the guys change sides at the balance lean.
    let mut back = leaning(20.0);
    back.line = Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) });
    for guy in [0, 1] {
        let most = [50f64.to_radians(), back.lean][usize::from(guy)];
        let found = Luffing::of(&back, guy, 50f64.to_radians()).unwrap().unwrap();
        assert!(found.changes_sides && found.tension > 100.0 && (found.at - most).abs() < 1e-12, "{found:?}");
    }
}

#[test]
fn a_clear_reach_asks_for_a_lean_and_a_setback() {
    let mut rig = leaning(10.0);
    assert_eq!(Reaching::of(&rig, 0.5), Ok(None), "no edge");
    rig.edge = Some(Edge::at(0.7));
    let slant = libm::sqrt(16.0 - 0.36);
    let found = Reaching::of(&rig, 0.9).unwrap().unwrap();
    assert!((libm::sin(found.lean) * slant - 1.6).abs() < 1e-8);
    // Nothing is assessed: it may stay where it is.
    assert_eq!(found.setback, Some((0, 6.0)));
    // Of a rope that does not do at 6 m.
    rig.guys[0].rope_allowable = Some(1_300.0);
    let found = Reaching::of(&rig, 0.9).unwrap().unwrap();
    let there = Rig { lean: found.lean, ..rig.clone() };
    assert_eq!(found.governing, governing(&there, found.lean).unwrap());
    assert_eq!(found.governing.limit, Limit::Part(Part::GuyRope(0)));
    assert!(found.governing.ratio > 1.0);
    let (guy, setback) = found.setback.unwrap();
    let ratio = |setback: f64| {
        let mut set = there.clone();
        Lever::Setback(guy).set(&mut set, setback);
        governing(&set, set.lean).unwrap().ratio
    };
    assert!(guy == 0 && setback > 6.0 && ratio(setback) <= 1.0 && ratio(setback - 0.01) > 1.0);
    rig.guys[0].rope_allowable = Some(700.0);
    assert_eq!(Reaching::of(&rig, 0.9).unwrap().unwrap().setback, None);
    assert_eq!(Reaching::of(&rig, 4.0), Ok(None), "farther than the frame is high");
    assert!(Reaching::of(&rig, f64::NAN).unwrap().is_none());
}

/// Hauled in from a lean as let out to it: as hard, where it is hardest on the way.
#[test]
fn a_guy_carries_as_much_on_the_way_back() {
    let (mut between, mut sides) = (0, 0);
    for seed in 0..400 {
        let Some((rig, solution)) = solvable(seed) else { continue };
        let there = Rig { lean: rig.lean + 0.6, ..rig.clone() };
        for guy in (0_u8..).zip(&rig.guys).filter_map(|(guy, set)| set.rigged.then_some(guy)) {
            let (out, back) = (Luffing::of(&rig, guy, there.lean), Luffing::of(&there, guy, rig.lean));
            let (Ok(out), Ok(back)) = (out, back) else { continue };
            assert_eq!(out.is_some(), back.is_some(), "seed {seed}, guy {guy}");
            let (Some(out), Some(back)) = (out, back) else { continue };
            let scale = super::force_scale(&rig, &solution);
            assert!((out.tension - back.tension).abs() < 1e-6 * scale, "seed {seed}: {out:?} {back:?}");
            assert!((out.comes_in + back.comes_in).abs() < 1e-9 && out.changes_sides == back.changes_sides);
            assert!(!out.changes_sides || out.tension > 0.0, "seed {seed}: {out:?}");
            between += u32::from(rig.lean + 0.01 < back.at && back.at < there.lean - 0.01);
            sides += u32::from(back.changes_sides);
        }
    }
    assert!(between >= 10 && sides >= 50, "{between} {sides}");
}

/// Of every case the least: of a pulley on a sling that hangs otherwise in each.
#[test]
fn a_clear_reach_is_there_in_the_case_that_has_least_of_it() {
    let (mut met, mut by_another, mut others) = (0, 0, 0);
    for seed in 0..600 {
        let Some((rig, _)) = solvable(seed) else { continue };
        let Some(edge) = &rig.edge else { continue };
        let wanted = 0.4;
        let Some(found) = Reaching::of(&rig, wanted).unwrap() else { continue };
        let reach = |case| {
            let there = Rig { case, lean: found.lean, ..rig.clone() };
            Clearance::of(edge, &there, &solve(&there).unwrap()).clear_reach
        };
        let least = rig.cases().into_iter().map(reach).fold(f64::INFINITY, f64::min);
        assert!(least >= wanted, "seed {seed}: {least} at {found:?}");
        let holding = |case| {
            let there = Rig { case, lean: found.lean, ..rig.clone() };
            solve(&there).unwrap().forces().and_then(|forces| forces.working_guy)
        };
        if let Some((guy, _)) = found.setback {
            assert_eq!(holding(found.governing.case), Some(guy), "seed {seed}: {found:?}");
            others += u32::from(holding(rig.case) != Some(guy));
        }
        if found.lean > FARTHEST_BACK {
            // Or the first at which every line has a length.
            met += u32::from(least < wanted + 1e-6);
            by_another += u32::from(least < wanted + 1e-6 && reach(rig.case) > wanted + 1e-3);
        }
    }
    assert!(met >= 50 && by_another >= 5 && others >= 2, "{met} {by_another} {others}");
}
