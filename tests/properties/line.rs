//! The load line and the haul line: which way they pull, and how hard.

use super::cases;
use outlean_rig::{
    Case, Field, Line, LineName, Load, Operation, Part, Path, Point, Rig, Stage, checks, solve,
};
use proptest::prelude::*;

proptest! {
    #![proptest_config(cases(1000))]

    /// Each angle is as seen square on, whatever the other is: left and outward positive.
    #[test]
    fn both_angles_of_the_load_can_be_read_off_a_photograph(side in -1.3..1.3_f64, out in -1.3..1.3_f64) {
        let load = Load { side_angle: side, outward_angle: out, ..Load::hanging(100.0) };
        let way = load.direction(Stage::HangingClear);
        prop_assert!((way.length() - 1.0).abs() < 1e-12 && way.z < 0.0);
        prop_assert!((libm::atan2(way.y, -way.z) - side).abs() < 1e-12);
        prop_assert!((libm::atan2(way.x, -way.z) - out).abs() < 1e-12);
    }

    /// Parts of a tackle, from the lead on: each sheave takes its toll, and together they carry the load.
    #[test]
    fn the_parts_of_a_tackle_carry_the_load(parts in 1..=12_u8, efficiency in 0.3..1.0_f64, which in 0..3_usize) {
        let operation = Operation::ALL[which];
        let mut rig = Rig::new(4.0, 1.2, 0.3, 100.0);
        rig.guys.push(outlean_rig::Guy::to(Point::new(-6.0, 0.0, 0.0)));
        rig.guys.push(outlean_rig::Guy::to(Point::new(6.0, 0.0, 0.0)));
        let path = Path::TackleAtHead { parts, to: Point::new(-8.0, 0.0, 0.0) };
        rig.line = Line { pulley_efficiency: efficiency, ..Line::along(path) };
        rig.case = Case::of(operation);
        let solution = solve(&rig).unwrap();
        let lead = solution.line.haul_tension;
        let (mut tension, mut carried, mut greatest) = (lead, 0.0, lead);
        for _ in 0..parts {
            match operation {
                Operation::Raising => tension *= efficiency,
                Operation::Holding => {}
                Operation::Lowering => tension /= efficiency,
            }
            carried += tension;
            greatest = greatest.max(tension);
        }
        let weight = rig.load.tension();
        prop_assert!((carried - weight).abs() < 1e-9 * weight);
        prop_assert!((solution.line.greatest_tension - greatest).abs() < 1e-9 * greatest);
        prop_assert!((solution.line.load.size() - weight).abs() < 1e-9 * weight, "the head has the load on it");
        let line = checks(&rig, &solution).into_iter().find(|check| check.part == Part::MainLine).unwrap();
        prop_assert!((line.demand - greatest).abs() < 1e-9 * greatest);
    }

    /// Over one pulley, and over a second.
    #[test]
    fn each_pulley_takes_its_toll(head in 0.3..1.0_f64, second in 0.3..1.0_f64, which in 0..3_usize) {
        let operation = Operation::ALL[which];
        let toll = |efficiency: f64| match operation {
            Operation::Raising => 1.0 / efficiency,
            Operation::Holding => 1.0,
            Operation::Lowering => efficiency,
        };
        let to = Point::new(-8.0, 2.0, 0.0);
        let weight = Load::hanging(100.0).tension();
        for (path, turned) in
            [(Path::StraightBack { to }, false), (Path::OverTheFront { to }, false), (Path::RedirectedMidBase { to }, true)]
        {
            let mut rig = Rig::new(4.0, 1.2, 0.3, 100.0);
            rig.line = Line { pulley_efficiency: head, redirect_efficiency: second, ..Line::along(path) };
            rig.case = Case::of(operation);
            let line = solve(&rig).unwrap().line;
            let first = weight * toll(head);
            let last = if turned { first * toll(second) } else { first };
            prop_assert!((line.haul_tension - first).abs() < 1e-9 * first);
            prop_assert!((line.after_redirect - last).abs() < 1e-9 * last);
            prop_assert!((line.haul.size() - first).abs() < 1e-9 * first);
            prop_assert!((line.greatest_tension - weight.max(first).max(last)).abs() < 1e-9 * weight);
        }
    }
}

#[test]
fn the_load_may_move_over_a_pulley_only_where_there_is_one() {
    assert!(!Line::hung().moves());
    assert!(Line::along(Path::StraightBack { to: Point::ORIGIN }).moves());
}

#[test]
fn of_a_line_that_ends_at_the_head_or_passes_it_nothing_is_hauled() {
    for operation in Operation::ALL {
        for path in [Path::Hung, Path::NotOverHead] {
            let line = Line { pulley_efficiency: 0.8, ..Line::along(path) };
            assert_eq!(line.haul_factor(operation).to_bits(), 0.0_f64.to_bits(), "{path:?}");
        }
    }
    // Its pulley hangs plumb below the head.
    let mut rig = Rig::new(4.0, 1.2, 0.3, 100.0);
    rig.guys.push(outlean_rig::Guy::to(Point::new(-6.0, 0.0, 0.0)));
    rig.line = Line { sling: 0.5, ..Line::along(Path::NotOverHead) };
    let solution = solve(&rig).unwrap();
    let hangs = solution.line.pulley - solution.layout.head;
    assert!((hangs.z + 0.5).abs() < 1e-12 && (hangs.length() - 0.5).abs() < 1e-12, "{hangs}");
}

/// On a sling longer than half the way a pulley would hang nearer to where its line goes than to the head.
#[test]
fn a_sling_of_more_than_half_the_way_is_refused() {
    let mut rig = Rig::new(4.0, 1.2, 0.3, 100.0);
    rig.guys.push(outlean_rig::Guy::to(Point::new(-6.0, 0.0, 0.0)));
    for path in [
        Path::RedirectedAtFoot { foot: outlean_rig::Side::Left, to: Point::new(-8.0, 0.0, 0.0) },
        Path::RedirectedMidBase { to: Point::new(-8.0, 0.0, 0.0) },
    ] {
        rig.line = Line::along(path);
        let head = solve(&rig).unwrap().layout.head;
        let way = match path {
            Path::RedirectedAtFoot { .. } => (rig.feet.at.left - head).length(),
            _ => (Point::ORIGIN - head).length(),
        };
        rig.line.sling = 0.5 * way + 1e-6;
        let fault = solve(&rig).unwrap_err();
        assert_eq!((fault.field, fault.value), (Field::Sling(LineName::Main), rig.line.sling));
        assert!(fault.allowed.least == 0.0 && (fault.allowed.most - 0.5 * way).abs() < 1e-12, "{fault}");
    }
}
