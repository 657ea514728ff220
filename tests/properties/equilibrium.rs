//! The whole frame stands still: what the ground and the holdfasts do equals what is put on it.

use super::{cases, force_scale, solvable};
use outlean_rig::{Connection, Force, Guy, Path, Point, Rig, Side, Solution, Vector, resolve, solve};
use proptest::prelude::*;

/// Every force from outside on frame, ropes and pulleys together, with the point where it acts.
fn from_outside(rig: &Rig, solution: &Solution) -> Vec<(Point, Force)> {
    let forces = solution.forces().unwrap();
    let layout = &solution.layout;
    let mut all = Vec::new();
    for side in Side::BOTH {
        let (foot, leg) = (*rig.feet.at.on(side), rig.legs.on(side));
        all.push((foot, forces.footing.feet.on(side).reaction));
        let along = (layout.head - foot).normalize();
        all.push((foot + along * (leg.length / 2.0), Force::new(0.0, 0.0, -leg.weight())));
    }
    for (guy, force) in rig.guys.iter().zip(&forces.guys) {
        all.push((guy.anchor, Force::along((guy.anchor - layout.head).normalize(), force.tension)));
    }
    for (path, line) in rig.lines().map(|line| line.path).zip(solution.lines()) {
        all.push((line.pulley, line.load));
        let mut haul_end = |from: Point, to: Point| {
            all.push((to, Force::along((to - from).normalize(), line.after_redirect)));
        };
        match path {
            Path::Hung | Path::NotOverHead => {}
            Path::StraightBack { to } | Path::OverTheFront { to } | Path::TackleAtHead { to, .. } => {
                haul_end(line.pulley, to);
            }
            // The pulley is tied to a foot or hung between both: its pull is part of the reactions there.
            Path::RedirectedAtFoot { foot, to } => haul_end(*rig.feet.at.on(foot), to),
            Path::RedirectedOnLedger { to } => haul_end(layout.mid_base, to),
            Path::RedirectedMidBase { to } => {
                haul_end(layout.mid_base, to);
                all.push((layout.mid_base, -line.redirect.unwrap()));
            }
        }
    }
    all
}

fn moment(at: Point, force: Force) -> Vector {
    (at - Point::ORIGIN).cross(Vector::from_array(force.components()))
}

proptest! {
    #![proptest_config(cases(4000))]

    #[test]
    fn forces_and_moments_from_outside_come_to_nothing(seed: u64, sling in 0.0..4.0_f64) {
        let Some((mut rig, _)) = solvable(seed) else { return Ok(()) };
        if rig.line.sling > 0.0 {
            rig.line.sling = sling;
        }
        let Ok(solution) = solve(&rig) else { return Ok(()) };
        if solution.forces().is_none() {
            return Ok(());
        }
        let all = from_outside(&rig, &solution);
        let sum = all.iter().fold(Force::ZERO, |sum, (_, force)| sum + *force);
        let turn = all.iter().fold(Vector::ZERO, |sum, (at, force)| sum + moment(*at, *force));
        let scale = force_scale(&rig, &solution);
        prop_assert!(sum.size() < 1e-9 * scale, "{sum:?} left over at a scale of {scale} N");
        prop_assert!(turn.length() < 1e-8 * scale, "{turn:?} N m left over at a scale of {scale} N");
    }

    #[test]
    fn the_force_polygon_of_the_head_closes(seed: u64) {
        let Some((rig, solution)) = solvable(seed) else { return Ok(()) };
        let Some(forces) = solution.forces() else { return Ok(()) };
        let mut sum = solution.resultant.force;
        for side in Side::BOTH {
            let up = (solution.layout.head - *rig.feet.at.on(side)).normalize();
            sum += Force::along(up, *forces.compression.on(side));
        }
        for (guy, force) in rig.guys.iter().zip(&forces.guys) {
            sum += Force::along((guy.anchor - solution.layout.head).normalize(), force.tension);
        }
        prop_assert!(sum.size() < 1e-9 * force_scale(&rig, &solution), "{sum:?}");
    }

    #[test]
    fn guys_only_pull_and_at_most_two_work_together(seed: u64) {
        let Some((rig, solution)) = solvable(seed) else { return Ok(()) };
        let Some(forces) = solution.forces() else { return Ok(()) };
        prop_assert_eq!(forces.guys.len(), rig.guys.len());
        for (guy, force) in rig.guys.iter().zip(&forces.guys) {
            prop_assert!(force.tension >= 0.0);
            prop_assert!(guy.rigged || force.tension == 0.0);
        }
        let roles = forces.guys.iter().map(|guy| guy.role);
        let works = |role: outlean_rig::Role| role == outlean_rig::Role::Working;
        prop_assert_eq!(roles.clone().position(works), forces.working_guy.map(usize::from));
        prop_assert!(roles.filter(|role| works(*role)).count() <= 2);
    }

    #[test]
    fn a_foot_that_nothing_holds_down_never_pulls(seed: u64) {
        let Some((mut rig, _)) = solvable(seed) else { return Ok(()) };
        rig.feet.held_down = false;
        let solution = solve(&rig).unwrap();
        let Some(forces) = solution.forces() else { return Ok(()) };
        for side in Side::BOTH {
            let foot = forces.footing.feet.on(side);
            prop_assert!(!foot.lifts && foot.bearing >= -1e-8 * force_scale(&rig, &solution));
        }
    }

    /// A connection is a free body too: cut at the head, each leg turns about it under its foot's sideways thrust and
    /// the connection's pull, which must agree when the feet slide freely on level ground.
    #[test]
    fn a_ledger_up_the_legs_takes_the_thrust_by_its_arm_about_the_head(
        seed: u64,
        height in 0.0..0.4_f64,
    ) {
        let Some((mut rig, _)) = solvable(seed) else { return Ok(()) };
        let spread = (rig.feet.at.left - rig.feet.at.right).length();
        rig.feet.at.left = Point::new(0.0, spread / 2.0, 0.0);
        rig.feet.at.right = Point::new(0.0, -spread / 2.0, 0.0);
        rig.feet.connection = Connection::Ledger;
        rig.lean = rig.lean.clamp(-0.5, 1.0);
        let height = height * rig.legs.left.working_length().min(rig.legs.right.working_length());
        rig.feet.connection_height = height.min(5.0);
        rig.feet.held_down = true;
        let Ok(solution) = solve(&rig) else { return Ok(()) };
        let Some(forces) = solution.forces() else { return Ok(()) };
        let high = solution.layout.head_height();
        if height > 0.8 * high {
            return Ok(());
        }
        // Arms about the head, in height.
        let at_feet = forces.footing.spread_thrust * high;
        let at_connection = forces.footing.connection * (high - height);
        prop_assert!((at_feet - at_connection).abs() < 1e-6 * force_scale(&rig, &solution) * high,
            "{at_feet} against {at_connection}");
    }

    /// What runs between the feet pulls along the foot line, level or not: with it, each foot's share of the sideways
    /// force is the same, and the friction asked for is that of what is left.
    #[test]
    fn evened_feet_are_those_with_the_connection_s_pull_put_on_them(seed: u64) {
        let Some((_, solution)) = solvable(seed) else { return Ok(()) };
        let Some(forces) = solution.forces() else { return Ok(()) };
        let (layout, footing) = (&solution.layout, &forces.footing);
        let e = layout.foot_line;
        let across = Vector::new(e.x, e.y, 0.0).normalize();
        let pull = Force::along(e, footing.spread_thrust / e.dot(across));
        let scale = footing.feet.left.reaction.size() + footing.feet.right.reaction.size();
        for (side, pull) in [(Side::Left, pull), (Side::Right, -pull)] {
            let foot = footing.feet.on(side);
            let left_over = foot.reaction + pull;
            prop_assert!((left_over.component(across) - footing.net_sideways / 2.0).abs() <= 1e-9 * scale);
            let level = libm::hypot(left_over.x(), left_over.y());
            if left_over.z() > 1e-3 * scale {
                prop_assert!((foot.friction_evened.unwrap() - level / left_over.z()).abs() < 1e-6);
            }
            if foot.bearing > 1e-3 * scale {
                let level = libm::hypot(foot.reaction.x(), foot.reaction.y());
                prop_assert!((foot.friction_alone.unwrap() - level / foot.reaction.z()).abs() < 1e-6);
            }
        }
    }
}

/// Whatever their lengths: directions in a plane within rounding make no force out of it, others do.
#[test]
fn whether_directions_lie_in_a_plane_is_not_a_matter_of_their_length() {
    let (a, b) = (Vector::X, Vector::new(0.6, 0.8, 0.0));
    let force = Force::new(3.0, 4.0, 5.0);
    for lengths in [[1.0, 1.0, 1.0], [1e4, 1.0, 1.0], [1.0, 1e4, 1.0], [1.0, 1.0, 1e4], [1e-3, 1e-3, 1e-4]] {
        let made = |out: f64| {
            let c = Vector::new(0.8, -0.6, out);
            let directions = [a * lengths[0], b * lengths[1], c * lengths[2]];
            resolve(directions, force).map(|parts| {
                let made =
                    directions.iter().zip(parts).fold(Vector::ZERO, |all, (way, part)| all + *way * part);
                (made - Vector::from_array(force.components())).length()
            })
        };
        assert_eq!(made(2e-13), None, "{lengths:?}");
        assert!(made(1e-2).unwrap() < 1e-9, "{lengths:?}");
        assert!(made(1e-11).is_some(), "{lengths:?}");
    }
}

/// Where a connection is drawn higher than that, the little of the leg above it would take a pull without end.
#[test]
fn a_connection_near_the_head_counts_as_at_nine_tenths_of_the_leg() {
    let mut rig = Rig::new(4.0, 1.2, 0.3, 200.0);
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    rig.feet.connection = Connection::Ledger;
    let rise = solve(&rig).unwrap().layout.head_height() / 4.0;
    for (height, lever) in [(0.0, 1.0), (2.0 * rise, 2.0), (3.6 * rise, 10.0), (5.0, 10.0)] {
        rig.feet.connection_height = height;
        let footing = solve(&rig).unwrap().forces().unwrap().footing;
        assert!((footing.connection / footing.spread_thrust - lever).abs() < 1e-9, "{height}");
    }
}
