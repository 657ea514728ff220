//! What each part carries, against the same found another way: lashing, edge, hobble, a holdfast that ropes share.

use super::{cases, force_scale, solvable};
use outlean_rig::{
    Check, Connection, Edge, Guy, Line, Part, Path, Point, Rig, Side, Solution, Vector, checks, solve,
    stands_by,
};
use proptest::prelude::*;

fn check(rig: &Rig, solution: &Solution, part: Part) -> Check {
    *checks(rig, solution).iter().find(|check| check.part == part).unwrap()
}

proptest! {
    #![proptest_config(cases(2000))]

    #[test]
    fn a_lashing_is_held_to_what_makes_the_legs_slip_past_one_another(seed: u64) {
        let Some((rig, solution)) = solvable(seed) else { return Ok(()) };
        let Some(forces) = solution.forces().filter(|_| !stands_by(&rig, &solution)) else { return Ok(()) };
        let apart = (forces.compression.left - forces.compression.right).abs();
        prop_assert!((check(&rig, &solution, Part::Lashing).demand - apart).abs() <= 1e-12 * apart);
    }

    #[test]
    fn the_edge_bears_the_weight_of_both_feet(seed: u64) {
        let Some((mut rig, _)) = solvable(seed) else { return Ok(()) };
        rig.edge = Some(Edge::at(30.0));
        let Ok(solution) = solve(&rig) else { return Ok(()) };
        let Some(forces) = solution.forces().filter(|_| !stands_by(&rig, &solution)) else { return Ok(()) };
        let both: f64 = Side::BOTH.iter().map(|side| forces.footing.feet.on(*side).bearing.max(0.0)).sum();
        prop_assert!((check(&rig, &solution, Part::Edge).demand - both).abs() <= 1e-12 * force_scale(&rig, &solution));
    }

    /// A connection at the feet takes all of what parts them; along a foot line that slopes it must pull harder for it.
    #[test]
    fn a_connection_at_the_feet_evens_out_how_they_part(seed: u64, ledger: bool) {
        let Some((mut rig, _)) = solvable(seed) else { return Ok(()) };
        rig.feet.connection = if ledger { Connection::Ledger } else { Connection::Hobble };
        rig.feet.connection_height = 0.0;
        let Ok(solution) = solve(&rig) else { return Ok(()) };
        let Some(forces) = solution.forces() else { return Ok(()) };
        let footing = &forces.footing;
        let along = solution.layout.foot_line;
        let level = libm::hypot(along.x, along.y);
        let wanted = if ledger || footing.spread_thrust > 0.0 { footing.spread_thrust / level } else { 0.0 };
        prop_assert!((footing.connection - wanted).abs() <= 1e-9 * force_scale(&rig, &solution), "{footing:?}");
    }
}

/// Two guys aft, their ends `apart` to either side; the second is set, the first works.
fn splayed(apart: f64) -> Rig {
    let mut rig = Rig::new(4.0, 1.2, 0.3, 200.0);
    for side in [-1.0, 1.0] {
        rig.guys.push(Guy::to(Point::new(-6.0, side * apart, 0.0)));
    }
    rig.guys[1].pretension = 300.0;
    rig
}

#[test]
fn ropes_at_one_holdfast_pull_on_it_together_and_ropes_apart_do_not() {
    let rig = splayed(0.02);
    let solution = solve(&rig).unwrap();
    let forces = solution.forces().unwrap();
    let pull = |number: usize| {
        let way = solution.layout.head - rig.guys[number].anchor;
        way / way.length() * forces.guys[number].tension
    };
    assert!(forces.guys.iter().all(|guy| guy.tension > 100.0));
    let together: Vector = pull(0) + pull(1);
    for number in [0, 1] {
        let held = check(&rig, &solution, Part::GuyHoldfast(number)).demand;
        assert!((held - together.length()).abs() < 1e-5 * together.length(), "{held}");
    }
    // Each of the two might hold alone, at a holdfast of its own.
    let rig = splayed(0.4);
    let all: f64 = forces.guys.iter().map(|guy| guy.tension).sum();
    let solution = solve(&rig).unwrap();
    for number in [0, 1] {
        let alone = check(&rig, &solution, Part::GuyHoldfast(number)).demand;
        assert!((alone - all).abs() < 2e-3 * all, "{alone} of {all}");
    }
}

#[test]
fn a_slack_rope_at_a_holdfast_adds_nothing() {
    let mut rig = splayed(0.02);
    rig.guys[1].pretension = 0.0;
    let solution = solve(&rig).unwrap();
    let forces = solution.forces().unwrap();
    let (working, slack) = if forces.guys[0].tension > 0.0 { (0_u8, 1) } else { (1, 0) };
    assert!(forces.guys[slack].tension.abs() < 1e-12);
    let held = check(&rig, &solution, Part::GuyHoldfast(working)).demand;
    assert!((held - forces.guys[usize::from(working)].tension).abs() < 1e-9 * held);
}

/// A line that the edge bends leaves it there; one that clears it, or hangs where there is no edge above, does not.
#[test]
fn a_load_line_bears_on_the_edge_only_where_it_would_pass_behind_it() {
    let rig = |ahead: f64, level: f64| {
        let mut rig = Rig::new(4.0, 1.2, 0.2, 200.0);
        rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
        rig.edge = Some(Edge { level, ..Edge::at(ahead) });
        rig.line = Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) });
        rig
    };
    let reach = solve(&rig(0.3, 0.0)).unwrap().layout.reach();
    let load = |ahead: f64, level: f64| solve(&rig(ahead, level)).unwrap().line.load;
    // It hangs plumb where it clears the edge.
    assert!(load(reach - 0.01, 0.0).x().abs() < 1e-9);
    // Past it the line is pushed forward by as much as it would pass behind, over how far it falls to the edge.
    for (behind, level) in [(0.05, 0.0), (0.4, 0.0), (0.4, -1.0)] {
        let ahead = reach + behind;
        let solution = solve(&rig(ahead, level)).unwrap();
        let pulley = solution.line.pulley;
        let line = solution.line.load;
        let (dx, dz) = (ahead + solution.layout.setback(pulley), pulley.z() - level);
        assert!((line.x() / -line.z() - dx / dz).abs() < 1e-9, "{behind} {level}: {line:?}");
    }
}
