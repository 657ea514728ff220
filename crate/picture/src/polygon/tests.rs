//! The polygon of rigs of every kind: it closes where the frame stands, its labels have room, its arrows are parallel
//! to what they stand for.

use super::*;
use crate::sample::{Solved, any_rig, frame, hauled, hold, keeps, said, words};
use crate::{Shape, Step, Words};
use outlean_rig::{Guy, Line, Path, Point, Rig, SecondLine};
use proptest::prelude::*;

const SIZES: [(f64, f64, f64); 4] =
    [(420.0, 480.0, 1.0), (280.0, 320.0, 0.85), (328.0, 284.0, 0.85), (700.0, 900.0, 2.1)];

fn drawn(solved: &Solved, size: (f64, f64, f64), words: &Words) -> Polygon {
    polygon(&PolygonInput { of: solved.on(size, words), px_per_newton: None, seats: None })
}

fn of(rig: Rig) -> Polygon {
    drawn(&Solved::of(rig).unwrap(), SIZES[0], &words())
}

/// What is left over, and the greatest force, N.
fn left_over(polygon: &Polygon) -> (f64, f64) {
    let sum = |part: fn(&Acting) -> f64| polygon.acting.iter().map(part).sum::<f64>();
    let greatest = polygon.acting.iter().map(|force| force.size).fold(0.0, f64::max);
    (libm::hypot(sum(|force| force.forward), sum(|force| force.up)), greatest)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn it_closes_wherever_the_frame_stands_and_its_labels_have_room(rig in any_rig()) {
        if let Some(solved) = Solved::of(rig) {
            let words = words();
            for size in SIZES {
                let polygon = drawn(&solved, size, &words);
                keeps(&polygon.scene, &polygon.labels)?;
                let (left, greatest) = left_over(&polygon);
                prop_assert_eq!(polygon.closed, solved.solution.tips().is_none());
                if polygon.closed {
                    prop_assert!(left <= 1e-9 * greatest, "{left} N of {greatest} N");
                } else {
                    prop_assert!(!polygon.acting.iter().any(|force| force.key.0 == "legs"));
                }
            }
        }
    }
}

#[test]
fn every_arrow_stays_on_the_plate_at_any_lean_of_the_range() {
    for lean in [2.0, 15.0, 30.0, 44.0, 60.0] {
        let polygon = of(frame(lean));
        let plate = Area { left: 0.0, top: 0.0, right: 420.0, bottom: 480.0 };
        for item in polygon.scene.items.iter().filter(|item| matches!(item.role, Role::Shaft(_))) {
            let Shape::Path(path) = &item.shape else { panic!("a shaft is a path") };
            let (left, top, right, bottom) = path.bounds().unwrap();
            assert!(plate.holds(Area { left, top, right, bottom }), "{lean}: {}", item.part);
        }
    }
}

#[test]
fn nothing_is_rescaled_or_moved_while_the_frame_leans_within_its_range() {
    let start = |polygon: &Polygon| match polygon.scene.items.iter().find(|item| item.part == "start") {
        Some(item) => item.shape.clone(),
        None => panic!("it has a start"),
    };
    let first = of(frame(8.0));
    for lean in [12.0, 20.0, 31.0] {
        let polygon = of(frame(lean));
        assert!((polygon.px_per_newton - first.px_per_newton).abs() < 1e-15);
        assert_eq!(start(&polygon), start(&first));
    }
}

#[test]
fn arrows_are_parallel_to_the_ropes_and_legs_that_they_stand_for() {
    let solved = Solved::of(frame(27.0)).unwrap();
    let polygon = drawn(&solved, SIZES[0], &words());
    let layout = &solved.solution.layout;
    let tilt = |part: &str| {
        let item =
            polygon.scene.items.iter().find(|item| item.part == part && matches!(item.role, Role::Shaft(_)));
        match &item.unwrap().shape {
            Shape::Path(path) => match path.steps[..] {
                [Step::Move(a, b), Step::Line(c, d)] => libm::atan2(d - b, c - a),
                _ => panic!("a shaft is one stroke"),
            },
            _ => panic!("a shaft is a path"),
        }
    };
    let rope = solved.rig.guys[0].anchor - layout.head;
    assert!((tilt("guy") - libm::atan2(-rope.z, rope.x)).abs() < 1e-9);
    let up = layout.up_the_frame;
    assert!((tilt("legs") - libm::atan2(-up.z, up.x)).abs() < 1e-9);
    assert!((tilt("load") - core::f64::consts::FRAC_PI_2).abs() < 1e-9);
}

#[test]
fn the_scale_of_the_figure_is_taken_or_halved_until_it_fits() {
    let (solved, words) = (Solved::of(frame(20.0)).unwrap(), words());
    let scaled = |px_per_newton| {
        let input = PolygonInput {
            of: Subject { over: &[], ..solved.on(SIZES[0], &words) },
            px_per_newton,
            seats: None,
        };
        polygon(&input).px_per_newton
    };
    let fits = scaled(None);
    assert!((scaled(Some(fits * 1.01)) / fits - 1.01).abs() < 1e-9 || scaled(Some(fits * 1.01)) < fits);
    for given in [fits * 64.0, fits / 64.0, 3.0, f64::NAN] {
        let power = libm::log2(scaled(Some(given)) / if given.is_nan() { fits } else { given });
        assert!((power - libm::round(power)).abs() < 1e-9, "{given}");
    }
}

#[test]
fn sides_that_would_lie_on_one_another_stand_side_by_side() {
    let mut rig = frame(0.0);
    rig.guys.clear();
    let polygon = of(rig);
    assert!(polygon.closed);
    let x = |part: &str| {
        let item =
            polygon.scene.items.iter().find(|item| item.part == part && matches!(item.role, Role::Shaft(_)));
        match &item.unwrap().shape {
            Shape::Path(path) => path.bounds().unwrap().0,
            _ => panic!("a shaft is a path"),
        }
    };
    assert!((x("load") - x("legs")).abs() > 6.0);
}

#[test]
fn a_frame_that_tips_says_so_and_stays_open() {
    let mut rig = frame(20.0);
    rig.guys.clear();
    let polygon = of(rig);
    let said = said(&polygon.scene);
    assert!(!polygon.closed && said.contains(&"the frame tips forward".to_owned()));
    assert!(said.contains(&"load".to_owned()) && !said.contains(&"both legs".to_owned()));
}

#[test]
fn a_second_line_and_a_pretensioned_guy_are_sides_too() {
    let mut rig = hauled(20.0, Path::StraightBack { to: Point::new(-9.0, 0.0, 0.0) });
    rig.second = Some(SecondLine {
        line: Line::along(Path::StraightBack { to: Point::new(-8.0, 2.0, 0.0) }),
        share: 0.3,
        peak_factor: None,
    });
    for (guy, x) in rig.guys.iter_mut().zip([-6.0, 6.0]) {
        *guy = Guy { pretension: 500.0, ..Guy::to(Point::new(x, 0.0, 0.0)) };
    }
    let polygon = of(rig);
    let keys: Vec<_> = polygon.acting.iter().map(|force| force.key).collect();
    let lines = [("load", 0), ("load", 1), ("weight", 0), ("haul line", 0), ("haul line", 1)];
    assert_eq!(keys, [&lines[..], &[("guy", 0), ("guy", 1), ("legs", 0)]].concat());
    assert!(polygon.closed);
}

#[test]
fn pictures_are_drawn_as_they_were() {
    let to = Point::new(-0.5, -11.0, 0.2);
    let redirected = Path::RedirectedAtFoot { foot: Side::Left, to };
    hold("polygon", "redirected_at_foot", &of(hauled(24.0, redirected)).scene);
    let back = Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) };
    hold("polygon", "straight_back", &of(hauled(35.0, back)).scene);
    let mut tips = frame(15.0);
    tips.guys.clear();
    hold("polygon", "tips", &of(tips).scene);
}
