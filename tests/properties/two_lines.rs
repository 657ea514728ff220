//! Two lines to one load, its stages, and the edge.

use super::{cases, force_scale, solvable};
use outlean_rig::{
    Case, Clearance, Connection, Edge, Guy, Line, Operation, Path, Point, Rig, Scenario, SecondLine, Side,
    Solution, Stage, Swing, solve, solve_at, working_range,
};
use proptest::prelude::*;

fn near(a: &Solution, b: &Solution, close: f64) -> bool {
    let loads = (a.resultant.force - b.resultant.force).size() < close;
    let (Some(a), Some(b)) = (a.forces(), b.forces()) else { return loads && a.tips() == b.tips() };
    let guys = a.guys.iter().zip(&b.guys).all(|(a, b)| (a.tension - b.tension).abs() < close);
    loads
        && guys
        && Side::BOTH.iter().all(|side| {
            let feet = (a.footing.feet.on(*side).reaction - b.footing.feet.on(*side).reaction).size();
            (a.compression.on(*side) - b.compression.on(*side)).abs() < close && feet < close
        })
}

proptest! {
    #![proptest_config(cases(1500))]

    /// Two lines along one path carry together what one carries alone.
    #[test]
    fn a_line_and_its_twin_share_the_load(seed: u64, share in 0.0..1.0_f64) {
        let Some((mut rig, _)) = solvable(seed) else { return Ok(()) };
        (rig.second, rig.case.scenario) = (None, Scenario::Shared);
        let Ok(alone) = solve(&rig) else { return Ok(()) };
        rig.second = Some(SecondLine { line: rig.line, share, peak_factor: None });
        let both = solve(&rig).unwrap();
        prop_assert!(near(&alone, &both, 1e-6 * force_scale(&rig, &alone)));
        let second = both.second.unwrap();
        prop_assert!((second.load.size() - share * alone.line.load.size()).abs() < 1e-6 * alone.line.load.size().max(1.0));
    }

    /// When the main line is lost, the second alone is a line with the peak factor for its dynamic factor.
    #[test]
    fn the_second_line_catches_with_its_peak_factor(seed: u64, peak in 1.0..5.0_f64, share in 0.0..1.0_f64) {
        let Some((mut rig, _)) = solvable(seed) else { return Ok(()) };
        (rig.second, rig.case.scenario) = (None, Scenario::Shared);
        rig.load.dynamic_factor = peak;
        let Ok(alone) = solve(&rig) else { return Ok(()) };
        rig.load.dynamic_factor = 1.0;
        rig.second = Some(SecondLine { line: rig.line, share, peak_factor: Some(peak) });
        rig.case.scenario = Scenario::MainLost;
        let caught = solve(&rig).unwrap();
        prop_assert!(near(&alone, &caught, 1e-6 * force_scale(&rig, &caught)));
        prop_assert!(caught.line.load.size() < 1e-12);
    }

    /// A line that would pass behind the edge runs over it, one that passes ahead of it runs as it would.
    #[test]
    fn a_line_bears_on_the_edge_or_clears_it(ahead in -1.0..3.0_f64, lean in 0.0..0.9_f64, out in -0.3..0.3_f64) {
        let mut rig = Rig::new(4.0, 1.2, lean, 200.0);
        rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
        rig.guys.push(Guy::to(Point::new(6.0, 0.0, 0.0)));
        rig.load.outward_angle = out;
        let free = solve(&rig).unwrap();
        let edge = Edge { level: 0.25, ..Edge::at(ahead) };
        rig.edge = Some(edge);
        let solution = solve(&rig).unwrap();
        let pull = solution.line.load;
        let drop = solution.line.pulley.z() - edge.level;
        let passes = solution.line.pulley.x() + drop * libm::tan(out);
        prop_assert_eq!(solution.line.bears_on_edge, passes < ahead);
        if passes < ahead {
            let at_edge = solution.line.pulley.x() + drop * pull.x() / -pull.z();
            prop_assert!((at_edge - ahead).abs() < 1e-9);
            prop_assert!((pull.size() - free.line.load.size()).abs() < 1e-9 * pull.size());
        } else {
            prop_assert!((pull - free.line.load).size() < 1e-9);
        }
        let room = Clearance::of(&edge, &rig, &solution);
        prop_assert!((room.clear_reach - (solution.line.pulley.x() - ahead)).abs() < 1e-12);
        prop_assert!((room.headroom - drop).abs() < 1e-12);
    }
}

/// A line hung on the ledger puts half the pull of its pulley on each foot and bends the ledger in its middle.
#[test]
fn a_redirect_on_the_ledger_loads_both_feet() {
    let to = Point::new(-6.0, 0.0, 0.0);
    let mut rig = Rig::new(4.0, 1.2, 0.3, 200.0);
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    rig.feet.connection = Connection::Ledger;
    rig.line = Line::along(Path::RedirectedMidBase { to });
    let own = solve(&rig).unwrap();
    rig.line = Line::along(Path::RedirectedOnLedger { to });
    let hung = solve(&rig).unwrap();
    let pull = hung.line.redirect.unwrap();
    let (own, hung) = (own.forces().unwrap(), hung.forces().unwrap());
    for side in Side::BOTH {
        let more = own.footing.feet.on(side).reaction - hung.footing.feet.on(side).reaction;
        assert!((more - pull.scaled(0.5)).size() < 1e-9, "{more:?}");
    }
    assert!(own.footing.ledger_moment.abs() < 1e-12);
    assert!((hung.footing.ledger_moment - pull.size() * 1.2 / 4.0).abs() < 1e-9);
}

/// Every operation at every stage that is given, with the main line lost where that can be assessed.
#[test]
fn a_rig_has_the_cases_it_must_stand() {
    let mut rig = Rig::new(4.0, 1.2, 0.3, 200.0);
    assert_eq!(rig.cases().as_slice(), [Case::of(Operation::Holding)]);
    rig.load.at_edge = Some(Swing { side: 0.0, outward: 0.2 });
    assert_eq!(rig.cases().len(), 2);
    let line = Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) });
    rig.second = Some(SecondLine { line, share: 0.0, peak_factor: None });
    assert_eq!((rig.cases().len(), rig.main_lost_is_assessed()), (6, false));
    rig.second = Some(SecondLine { line, share: 0.0, peak_factor: Some(2.0) });
    assert_eq!((rig.cases().len(), rig.main_lost_is_assessed()), (12, true));
    rig.load.on_tag_lines = Some(Swing::NONE);
    assert_eq!(rig.cases().len(), outlean_rig::MAX_CASES);
    assert!(rig.cases().iter().any(|case| {
        *case == Case { operation: Operation::Raising, stage: Stage::AtEdge, scenario: Scenario::MainLost }
    }));
}

/// The range narrows with every stage and scenario that is looked at, and names the one that governs.
#[test]
fn what_is_looked_at_narrows_the_range() {
    let mut rig = Rig::new(4.0, 1.2, 0.3, 200.0);
    rig.guys.push(Guy { rope_allowable: Some(2500.0), ..Guy::to(Point::new(-6.0, 0.0, 0.0)) });
    rig.guys.push(Guy::to(Point::new(6.0, 0.0, 0.0)));
    let end = |rig: &Rig| working_range(rig).unwrap().intervals.last().copied().unwrap();
    let hanging = end(&rig);
    rig.load.at_edge = Some(Swing { side: 0.0, outward: 0.15 });
    let at_edge = end(&rig);
    assert!(at_edge.to < hanging.to - 0.05 && at_edge.to_case.stage == Stage::AtEdge);
    rig.second = Some(SecondLine { line: Line::hung(), share: 0.0, peak_factor: Some(2.0) });
    let lost = end(&rig);
    assert!(lost.to < at_edge.to - 0.05 && lost.to_case.scenario == Scenario::MainLost);
    // At its end the rope carries just what it may, in that case.
    let there = solve_at(&Rig { case: lost.to_case, ..rig.clone() }, lost.to).unwrap();
    let tension = there.forces().unwrap().guys[0].tension;
    assert!((2480.0..=2500.0).contains(&tension), "{tension}");
}

/// A wanted clear reach keeps the frame out, a wanted headroom keeps it up.
#[test]
fn wanted_room_bounds_the_range() {
    let mut rig = Rig::new(4.0, 1.2, 0.5, 200.0);
    rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
    rig.guys.push(Guy::to(Point::new(6.0, 0.0, 0.0)));
    rig.edge = Some(Edge {
        litter_drop: 1.5,
        clear_reach_wanted: Some(0.5),
        headroom_wanted: Some(1.0),
        ..Edge::at(0.5)
    });
    let range = working_range(&rig).unwrap();
    let [inside] = range.intervals.as_slice() else { panic!("{range:?}") };
    let slant = libm::sqrt(4.0 * 4.0 - 0.6 * 0.6);
    assert!((inside.from - libm::asin(1.0 / slant)).abs() < 2e-4, "{}", inside.from.to_degrees());
    assert!((inside.to - libm::acos(2.5 / slant)).abs() < 2e-4, "{}", inside.to.to_degrees());
    assert_eq!(inside.from_limit, outlean_rig::Limit::ClearReach);
    assert_eq!(inside.to_limit, outlean_rig::Limit::Headroom);
}
