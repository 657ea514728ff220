//! Parts one by one: where the resultant meets the ground, bending of a leg, what is held against what, who stands
//! where.

use super::{cases, force_scale, solvable};
use outlean_rig::strength::timber::Grade;
use outlean_rig::strength::{Cordage, Hardware};
use outlean_rig::{
    Basis, Edge, Guy, Layout, Leg, Limit, Line, Part, Path, Point, Rig, SecondLine, Side, State, Station,
    Vector, checks, holdfast_pulls, limits_at, solve,
};
use proptest::prelude::*;

proptest! {
    #![proptest_config(cases(2000))]

    #[test]
    fn the_resultant_meets_the_ground_on_its_own_line_and_on_the_side_it_tips_to(seed: u64) {
        let Some((mut rig, _)) = solvable(seed) else { return Ok(()) };
        let z = rig.feet.at.left.z();
        rig.feet.at.right = Point::new(rig.feet.at.right.x(), rig.feet.at.right.y(), z);
        let Ok(solution) = solve(&rig) else { return Ok(()) };
        let (layout, resultant) = (&solution.layout, &solution.resultant);
        let (Some(point), Some(ahead)) = (resultant.meets_ground, resultant.ahead_of_feet) else { return Ok(()) };
        prop_assert!((point.z() - z).abs() < 1e-9 * (1.0 + ahead.abs()));
        let way = Vector::from_array(resultant.force.components());
        let off = (point - layout.head).cross(way).length();
        prop_assert!(off < 1e-7 * way.length() * (1.0 + ahead.abs()));
        prop_assert!((ahead - (point - layout.mid_base).dot(layout.forward)).abs() < 1e-9 * (1.0 + ahead.abs()));
        // Its vertical part at that distance ahead is all that turns the frame.
        let moment = -resultant.force.z() * ahead;
        prop_assert!((moment - resultant.tipping_moment).abs() < 1e-7 * force_scale(&rig, &solution) * (1.0 + ahead.abs()));
    }

    /// By how far each foot is from the head as seen from above.
    #[test]
    fn each_leg_of_a_frame_bends_by_its_own_weight_and_slope(seed: u64) {
        let Some((rig, solution)) = solvable(seed) else { return Ok(()) };
        let Some(forces) = solution.forces() else { return Ok(()) };
        for side in Side::BOTH {
            let way = solution.layout.head - *rig.feet.at.on(side);
            let wanted = rig.legs.on(side).midspan_moment(libm::hypot(way.x, way.y));
            let found = *forces.leg_moment.on(side);
            prop_assert!((found - wanted).abs() < 1e-9 * (1.0 + wanted.abs()), "{} for {}", found, wanted);
        }
    }

    /// By the forces on the lower half of a pole on two supports.
    #[test]
    fn a_leg_bends_as_a_pole_on_two_supports_with_a_free_tip(
        span in 1.0..9.0_f64,
        tip in 0.0..3.0_f64,
        weight in 1.0..300.0_f64,
        slope in 0.0..1.0_f64,
    ) {
        let leg = Leg::of(span + tip, tip, weight);
        let across = weight * slope;
        let at_foot = across * leg.length * (span - leg.length / 2.0) / span;
        let moment = at_foot * span / 2.0 - across * (span / 2.0) * (span / 4.0);
        prop_assert!((leg.midspan_moment(span * slope) - moment).abs() < 1e-9 * (1.0 + weight * span * span));
        prop_assert!((leg.weight_at_head() + leg.weight_at_foot() - leg.weight()).abs() < 1e-9 * leg.weight());
    }
}

#[test]
fn each_guy_is_held_against_its_own_rope_and_holdfast() {
    let mut rig = Rig::new(4.0, 1.2, 0.35, 100.0);
    let strong = |rope, holdfast, x| Guy {
        rope_allowable: rope,
        holdfast_allowable: holdfast,
        ..Guy::to(Point::new(x, 0.0, 0.0))
    };
    rig.guys.push(strong(Some(2000.0), Some(1000.0), -6.0));
    rig.guys.push(strong(None, Some(500.0), 6.0));
    let solution = solve(&rig).unwrap();
    let tension = solution.forces().unwrap().guys[0].tension;
    let all = checks(&rig, &solution);
    let find = |part: Part| *all.iter().find(|check| check.part == part).unwrap();
    let rope = find(Part::GuyRope(0));
    // What someone says, on a basis that is not known.
    assert_eq!((rope.allowable, rope.state, rope.basis), (Some(2000.0), State::Assumed, Basis::Unknown));
    assert!((rope.demand - tension).abs() < 1e-12 && (rope.ratio.unwrap() - tension / 2000.0).abs() < 1e-12);
    let holdfast = find(Part::GuyHoldfast(0));
    assert!((holdfast.ratio.unwrap() - tension / 1000.0).abs() < 1e-12);
    let unknown = find(Part::GuyRope(1));
    assert_eq!((unknown.ratio, unknown.state), (None, State::NotAssessed));
    assert_eq!(find(Part::GuyHoldfast(1)).ratio, Some(0.0));
    assert_eq!(find(Part::Lashing).state, State::ConfirmOnSite);
}

#[test]
fn a_side_guy_stands_more_than_twice_as_far_along_the_foot_line_as_square_to_it() {
    let layout = Layout::of(&Rig::new(4.0, 1.2, 0.3, 0.0), 0.3).unwrap();
    for (x, y, station) in [
        (-5.0, 0.0, Station::Aft),
        (-5.0, 9.9, Station::Aft),
        (-5.0, 10.0, Station::Aft),
        (-5.0, -10.1, Station::Side),
        (5.0, 9.9, Station::Fore),
        (5.0, 10.1, Station::Side),
        (0.0, -3.0, Station::Side),
    ] {
        assert_eq!(Station::of(Point::new(x, y, 0.0), &layout), station, "({x}, {y})");
    }
}

/// Six guys, two lines over their own redirects, an edge, and something said of every strength.
fn everything() -> Rig {
    let mut rig = Rig::new(4.0, 1.2, 0.35, 250.0);
    for (x, y) in [(-6.0, 0.0), (-6.0, 2.0), (-6.0, -2.0), (6.0, 0.0), (6.0, 2.0), (6.0, -2.0)] {
        rig.guys.push(Guy {
            rope_allowable: Some(3000.0),
            holdfast_allowable: Some(4000.0),
            ..Guy::to(Point::new(x, y, 0.0))
        });
    }
    let line = |y: f64| Line::along(Path::RedirectedMidBase { to: Point::new(-8.0, y, 0.0) });
    rig.line = line(1.0);
    rig.second = Some(SecondLine { line: line(-1.0), share: 0.4, peak_factor: None });
    rig.edge = Some(Edge::at(1.0));
    (rig.feet.bearing_allowable, rig.feet.bearing_area) = (Some(1e5), Some(0.02));
    for side in Side::BOTH {
        rig.legs.on_mut(side).pole.tip_diameter = Some(0.12);
    }
    let (rope, metal) = (
        Cordage { breaking: Some(3e4), knot_efficiency: Some(0.6), ..Cordage::default() },
        Hardware { breaking: Some(3e4), ..Hardware::default() },
    );
    let gear = &mut rig.gear;
    gear.timber.grade = Some(Grade::C24);
    (gear.line, gear.second, gear.sling.cordage) = (rope, rope, rope);
    (gear.pulley, gear.connector, gear.redirect) = (metal, metal, metal);
    (gear.haul_allowable, gear.second_haul_allowable) = (Some(3000.0), Some(3000.0));
    gear.factor = Some(10.0);
    rig
}

/// Two to a guy, two legs, the lashing, six to a line, two feet and the edge under them.
#[test]
fn a_rig_of_everything_has_every_part() {
    let rig = everything();
    let all = checks(&rig, &solve(&rig).unwrap());
    let parts: Vec<_> = all.iter().map(|check| check.part).collect();
    assert!(parts.iter().enumerate().all(|(place, part)| !parts[..place].contains(part)), "{parts:?}");
    assert_eq!(parts.len(), 2 * 6 + 2 + 1 + 2 * 6 + 2 + 1, "{parts:?}");
}

/// How near every part is of which enough is known, and what pulls at every holdfast.
#[test]
fn a_rig_of_everything_has_every_limit_and_holdfast() {
    let rig = everything();
    let solution = solve(&rig).unwrap();
    let near = limits_at(&rig, rig.lean).unwrap();
    let known: Vec<_> = checks(&rig, &solution).into_iter().filter(|check| check.ratio.is_some()).collect();
    assert!(known.len() > 20, "{known:?}");
    for check in known {
        assert!(near.iter().any(|met| met.limit == Limit::Part(check.part)), "{:?}", check.part);
    }
    assert_eq!(holdfast_pulls(&rig, &solution).len(), 6 + 2 * 2);
}
