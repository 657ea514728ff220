//! Two guys splayed to either side hold together.

use super::mirror::mirrored;
use outlean_rig::{
    Forces, Guy, LeanIs, Line, Outcome, Path, Point, Rig, Role, Rope, Solution, Stretch, Tip, shared, solve,
    solve_at, stretched,
};

/// A frame on its own feet with a line hauled straight back, which draws it back onto two fore guys, or with its load hung,
/// which draws it onto two aft guys: the guys `ahead` of the foot line and so far to either side.
fn splayed(hauled: bool, ahead: f64, aside: f64) -> Rig {
    let mut rig = Rig::new(4.2, 1.5, 0.3, 180.0);
    if hauled {
        rig.line = Line::along(Path::StraightBack { to: Point::new(-7.0, 0.0, 0.0) });
    }
    for leg in [&mut rig.legs.left, &mut rig.legs.right] {
        leg.weight_per_metre = 40.0;
    }
    rig.feet.held_down = false;
    rig.guys.push(Guy::to(Point::new(ahead, aside, 0.0)));
    rig.guys.push(Guy::to(Point::new(ahead, -aside, 0.0)));
    rig
}

fn stands(solution: &Solution) -> &Forces {
    solution.forces().unwrap_or_else(|| panic!("it tips {:?}", solution.tips()))
}

fn close(a: f64, b: f64, scale: f64) {
    assert!((a - b).abs() <= 1e-9 * scale, "{a} is not {b}");
}

#[test]
fn a_pair_holds_half_each_where_one_alone_draws_the_frame_over() {
    for (hauled, ahead) in [(true, 5.0), (false, -6.0)] {
        let mut rig = splayed(hauled, ahead, 3.0);
        rig.lean = if hauled { 0.1 } else { 0.3 };
        let solution = solve(&rig).unwrap();
        let forces = stands(&solution);
        let [left, right] = [forces.guys[0], forces.guys[1]];
        close(left.tension, right.tension, left.tension);
        close(2.0 * left.tension * solution.guy_arm[0], solution.resultant.tipping_moment, 1e3);
        close(forces.compression.left, forces.compression.right, 1e3);
        assert_eq!([left.role, right.role, Role::Working], [Role::Working; 3]);
        assert_eq!(forces.working_guy, Some(0));

        for (gone, tip) in [(1, Tip::Left), (0, Tip::Right)] {
            let mut alone = rig.clone();
            alone.guys[gone].rigged = false;
            let alone = solve(&alone).unwrap();
            if hauled {
                assert_eq!(alone.tips(), Some(tip));
            } else {
                // What holds but a load that hangs only loads one leg the more.
                let legs = stands(&alone).compression;
                let [loaded, other] =
                    if gone == 1 { [legs.left, legs.right] } else { [legs.right, legs.left] };
                assert!(loaded > 1.5 * other, "{loaded} {other}");
            }
        }
    }
}

#[test]
fn which_of_a_pair_is_named_first_does_not_matter() {
    for (hauled, ahead) in [(true, 5.0), (false, -6.0)] {
        // Anything but symmetric, with a pretension and another guy in the middle that is named last.
        let mut rig = splayed(hauled, ahead, 3.0);
        rig.guys[1].anchor = Point::new(ahead * 1.2, -2.0, 0.4);
        rig.guys[1].pretension = 70.0;
        rig.guys.push(Guy::to(Point::new(ahead, 0.0, 0.0)));
        (rig.load.side_angle, rig.feet.held_down) = (0.03, true);
        let mut turned = rig.clone();
        turned.guys.swap(0, 1);
        let (here, there) = (solve(&rig).unwrap(), solve(&turned).unwrap());
        let (here, there) = (stands(&here), stands(&there));
        for (a, b) in [(0, 1), (1, 0), (2, 2)] {
            close(here.guys[a].tension, there.guys[b].tension, 1e3);
            assert_eq!(here.guys[a].role, there.guys[b].role);
        }
        assert_eq!(here.guys[2].role, Role::Slack);
        let mirror = solve(&mirrored(&rig)).unwrap();
        let mirror = stands(&mirror);
        close(here.compression.left, mirror.compression.right, 1e3);
        close(here.guys[0].tension, mirror.guys[0].tension, 1e3);
    }
}

#[test]
fn a_pair_carries_what_ropes_carry_that_hardly_stretch() {
    let mut met = 0;
    for number in 0..60 {
        let number = f64::from(number);
        let (hauled, ahead) = if number % 2.0 == 0.0 { (true, 4.0) } else { (false, -5.0) };
        let mut rig = splayed(hauled, ahead * (1.0 + 0.01 * number), 0.8 + 0.1 * number);
        rig.lean = 0.1 + 0.008 * number;
        // With weight the legs would fall forward unloaded, off the fore guys.
        (rig.legs.left.weight_per_metre, rig.legs.right.weight_per_metre) = (0.0, 0.0);
        let solution = solve(&rig).unwrap();
        let forces = stands(&solution);
        let scale = forces.compression.left + forces.guys[0].tension;
        let on = |stiffness: f64| {
            let ropes = [Rope { stiffness, give: 0.0 }; 2].into_iter().collect();
            stretched(&rig, &Stretch { leg_stiffness: 1e15, ropes, lean_is: LeanIs::Cut }).unwrap()
        };
        // Ten times as stiff, a tenth as far off, until there is but rounding.
        let off = [1e8, 1e9, 1e14].map(|stiffness| {
            let outcome = on(stiffness);
            let Outcome::Stands(found) = outcome else { panic!("{number}: {outcome:?}") };
            let guys = found.tension.iter().zip(&forces.guys).map(|(a, b)| (a - b.tension).abs());
            let legs = [
                (found.compression.left - forces.compression.left).abs(),
                (found.compression.right - forces.compression.right).abs(),
            ];
            guys.chain(legs).fold(0.0, f64::max) / scale
        });
        assert!(off[2] <= 1e-9, "{number}: {off:?}");
        assert!((0.05..0.2).contains(&(off[1] / off[0])) || off[0] < 1e-12, "{number}: {off:?}");
        met += u32::from(off[0] > 1e-9);
    }
    assert!(met > 30, "{met}");
}

/// Whatever stands where: what guys of like rope share on legs that do not give.
#[test]
fn any_pair_shares_as_like_ropes_do() {
    for number in 0..40 {
        let number = f64::from(number);
        let mut rig = splayed(number % 2.0 == 0.0, if number % 2.0 == 0.0 { 5.0 } else { -6.0 }, 3.0);
        rig.guys[0].anchor = rig.guys[0].anchor + outlean_rig::Vector::new(0.02, 0.05, 0.03) * number;
        rig.guys[1].anchor = rig.guys[1].anchor + outlean_rig::Vector::new(-0.02, 0.02, -0.01) * number;
        (rig.load.side_angle, rig.feet.held_down) = (0.004 * number, true);
        for leg in [&mut rig.legs.left, &mut rig.legs.right] {
            leg.weight_per_metre = 0.0;
        }
        let solution = solve(&rig).unwrap();
        let forces = stands(&solution);
        let ropes = [Rope { stiffness: 1e5, give: 0.0 }; 2].into_iter().collect();
        let found = shared(&rig, &Stretch { leg_stiffness: 1e15, ropes, lean_is: LeanIs::Cut }).unwrap();
        let outlean_rig::Balance::Stands(found) = found.balance else { panic!("{found:?}") };
        for (a, b) in forces.guys.iter().zip(&found.guys) {
            close(a.tension, b.tension, 1e3);
        }
    }
}

#[test]
fn a_pair_set_with_nothing_against_it_eases_together() {
    let slack = solve(&splayed(true, 5.0, 3.0)).unwrap();
    let wanted = stands(&slack).guys[0].tension;
    let mut rig = splayed(true, 5.0, 3.0);
    for guy in &mut rig.guys {
        guy.pretension = 3.0 * wanted;
    }
    let solution = solve(&rig).unwrap();
    for guy in &stands(&solution).guys {
        close(guy.tension, wanted, 1e3);
        assert_eq!(guy.role, Role::Working);
    }
    // One that was set to little goes slack, and its fellow eases to what is left.
    rig.feet.held_down = true;
    (rig.guys[0].pretension, rig.guys[1].pretension) = (0.1 * wanted, 4.0 * wanted);
    let solution = solve(&rig).unwrap();
    let forces = stands(&solution);
    close(forces.guys[1].tension, 2.0 * wanted, 1e3);
    assert_eq!(forces.guys[0].role, Role::Slack);
    assert_eq!((forces.guys[1].role, forces.working_guy), (Role::Working, Some(1)));
    // Upright with nothing to hold, both go slack.
    (rig.line, rig.load.mass) = (Line::hung(), 0.0);
    let upright = solve_at(&rig, 0.0).unwrap();
    assert!(stands(&upright).guys.iter().all(|guy| guy.tension == 0.0 && guy.role == Role::Slack));
}

#[test]
fn only_what_is_splayed_to_the_other_side_of_the_same_station_helps() {
    let works = |first: (f64, f64), other: (f64, f64), rigged: bool| {
        let mut rig = splayed(true, 5.0, 3.0);
        rig.feet.held_down = true;
        rig.guys[0].anchor = Point::new(first.0, first.1, 0.0);
        rig.guys[1].anchor = Point::new(other.0, other.1, 0.0);
        rig.guys[1].rigged = rigged;
        stands(&solve(&rig).unwrap()).guys[1].tension > 0.0
    };
    assert!(works((5.0, 3.0), (6.0, -1.0), true) && works((5.0, -3.0), (6.0, 1.0), true));
    // Not rigged, on the same side, in the middle, to a side, behind.
    assert!(!works((5.0, 3.0), (6.0, -1.0), false));
    assert!(!works((5.0, 3.0), (6.0, 3.0), true));
    assert!(!works((5.0, 3.0), (6.0, -0.5), true));
    assert!(!works((5.0, 0.3), (6.0, -3.0), true));
    assert!(!works((5.0, 3.0), (1.0, -4.0), true));
    assert!(!works((5.0, 3.0), (-6.0, -3.0), true));
    // Side guys help one another where nothing else holds.
    assert!(works((1.0, 4.0), (1.0, -4.0), true));
}
