//! Where the resultant meets the ground, and what the ground gives to the feet, each against the same found from points
//! and moments.

use super::{cases, force_scale, solvable};
use outlean_rig::{Connection, Force, Line, Operation, Path, Point, Rig, Side, Solution, Tip, Vector, solve};
use proptest::prelude::*;

fn vector(force: Force) -> Vector {
    Vector::from_array(force.components())
}

proptest! {
    #![proptest_config(cases(2000))]

    /// On its line of action, at the level of the middle of the foot line, wherever it points down at that.
    #[test]
    fn the_resultant_meets_the_ground_on_its_line_of_action(seed: u64) {
        let Some((_, solution)) = solvable(seed) else { return Ok(()) };
        let Solution { layout, resultant, .. } = &solution;
        let force = vector(resultant.force);
        let points_at_it = force.z < 0.0 && layout.head_height() > 0.0;
        // Past a thousand kilometres it is as good as level.
        let far = force.length() * layout.head_height() > 1e5 * force.z.abs();
        prop_assert!(resultant.meets_ground.is_none() || points_at_it);
        if far || !points_at_it {
            return Ok(());
        }
        let (Some(point), Some(ahead)) = (resultant.meets_ground, resultant.ahead_of_feet) else {
            return Err(TestCaseError::fail("it points at the ground and meets it nowhere"));
        };
        let way = point - layout.head;
        prop_assert!((point - layout.mid_base).z.abs() <= 1e-9 * way.length());
        prop_assert!(way.cross(force).length() <= 1e-9 * way.length() * force.length());
        prop_assert!(way.dot(force) > 0.0);
        prop_assert!(((point - layout.mid_base).dot(layout.forward) - ahead).abs() <= 1e-9 * way.length());
    }

    #[test]
    fn the_lines_and_the_weight_of_the_legs_are_the_resultant(seed: u64) {
        let Some((rig, solution)) = solvable(seed) else { return Ok(()) };
        let weight = rig.legs.left.weight_at_head() + rig.legs.right.weight_at_head();
        let off = vector(solution.lines_on_head()) - Vector::Z * weight - vector(solution.resultant.force);
        prop_assert!(off.length() <= 1e-9 * force_scale(&rig, &solution));
    }

    /// With whatever runs between the feet: both together as without, kick and pressure its parts, and where it works
    /// each foot pushed as hard to the side as the other, which is what friction then has to hold.
    #[test]
    fn the_ground_gives_to_the_feet_what_their_parts_say(seed: u64) {
        let Some((mut rig, _)) = solvable(seed) else { return Ok(()) };
        rig.feet.connection = [Connection::None, Connection::Hobble, Connection::Ledger][(seed % 3) as usize];
        rig.feet.held_down = true;
        let Ok(solution) = solve(&rig) else { return Ok(()) };
        let Some(forces) = solution.forces() else { return Ok(()) };
        let (layout, footing) = (&solution.layout, &forces.footing);
        let near = 1e-9 * force_scale(&rig, &solution);
        let left = Vector::Z.cross(layout.forward);
        let ground = |side| vector(footing.ground(side, layout));
        let reaction = |side: Side| vector(footing.feet.on(side).reaction);
        let both = |of: &dyn Fn(Side) -> Vector| of(Side::Left) + of(Side::Right);
        prop_assert!((both(&ground) - both(&reaction)).length() <= near);
        let works = match rig.feet.connection {
            Connection::None => false,
            Connection::Hobble => footing.spread_thrust > near,
            Connection::Ledger => true,
        };
        if works {
            let apart = ground(Side::Left).dot(left) - ground(Side::Right).dot(left);
            prop_assert!(apart.abs() <= near, "{apart} N to the side of one more than of the other");
            // Nothing but the connection, which runs along the foot line, was added.
            let added = ground(Side::Left) - reaction(Side::Left);
            prop_assert!(added.cross(layout.foot_line).length() <= near);
        } else if footing.spread_thrust < -near || rig.feet.connection == Connection::None {
            prop_assert_eq!(both(&|side| ground(side) - reaction(side)), Vector::ZERO);
            prop_assert_eq!(ground(Side::Left), reaction(Side::Left));
        }
        for side in Side::BOTH {
            let foot = footing.feet.on(side);
            prop_assert!((foot.kick + reaction(side).dot(layout.forward)).abs() <= near);
            let area = rig.feet.bearing_area.filter(|_| foot.bearing >= 0.0);
            prop_assert_eq!(foot.pressure.is_some(), area.is_some(), "{}", foot.bearing);
            if let (Some(area), Some(pressure)) = (area, foot.pressure) {
                prop_assert!((pressure * area - foot.bearing).abs() <= near);
            }
            let given = ground(side);
            if let Some(needed) = foot.friction_needed.filter(|_| works || foot.lifts == (given.z < 0.0)) {
                let level = libm::hypot(given.x, given.y);
                prop_assert!((needed * given.z - level).abs() <= 1e-6 * level.max(1.0), "{needed} of {given}");
            }
        }
    }
}

/// Hauled up by more than hangs on it, an upright frame lifts both feet: it goes over the one that lifts less.
#[test]
fn a_frame_that_lifts_goes_over_the_foot_that_lifts_less() {
    for (aside, wanted) in [(3.0, Tip::Left), (-3.0, Tip::Right)] {
        let mut rig = Rig::new(4.0, 1.2, 0.0, 200.0);
        let to = Point::new(0.0, aside, 40.0);
        rig.line = Line { pulley_efficiency: 0.4, ..Line::along(Path::StraightBack { to }) };
        rig.case.operation = Operation::Raising;
        let held = solve(&rig).unwrap();
        let feet = held.forces().unwrap().footing.feet;
        assert!(feet.left.lifts && feet.right.lifts, "{feet:?}");
        assert_eq!((held.resultant.meets_ground, held.resultant.ahead_of_feet), (None, None), "it points up");
        // Hauled to the left the right foot lifts more.
        assert_eq!(feet.left.bearing > feet.right.bearing, aside > 0.0);
        rig.feet.held_down = false;
        assert_eq!(solve(&rig).unwrap().tips(), Some(wanted));
        // With less on it one foot lifts only, and it goes over the other.
        rig.line = Line::hung();
        rig.load.side_angle = 0.3 * aside.signum();
        assert_eq!(solve(&rig).unwrap().tips(), Some(wanted));
    }
}
