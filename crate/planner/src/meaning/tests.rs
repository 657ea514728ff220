//! What is marked is what the field says.

use super::*;
use outlean_picture::{Anchor, Item, Role, Shape, width};
use outlean_rig::{Dimension, solve};
use outlean_rigfile::{edit, fields, read};

const SITES: [&str; 5] = [
    include_str!("../../../outlean/sites/slate-bench.toml"),
    include_str!("../../../outlean/sites/mill-race.toml"),
    include_str!("../../../outlean/sites/peat-bank.toml"),
    include_str!("../../../outlean/sites/sea-stairs.toml"),
    include_str!("../../../outlean/sites/lock-wall.toml"),
];

/// Every key, guys by their number.
fn keys(rig: &Rig) -> impl Iterator<Item = String> {
    let guys = rig.guys.len();
    fields().flat_map(move |spec| {
        let all = if spec.key.starts_with("guy.") { guys } else { 1 };
        (0..all).map(|guy| spec.key.replace('N', &guy.to_string()))
    })
}

/// What a mark comes to, m or rad.
fn measured(measure: Measure) -> Option<f64> {
    match measure {
        Measure::Tape(from, to) => Some((to - from).length()),
        Measure::Angle(_, from, to) => Some(from.angle_between(to)),
        Measure::Spot(_) => None,
    }
}

#[test]
fn a_tape_and_an_angle_are_as_long_as_their_field_says() {
    let mut marked = std::collections::BTreeSet::new();
    // A bollard higher than the feet, which no site has.
    let raised = edit(SITES[0], "line.to.up", Some("0.8 m")).unwrap();
    for text in SITES.into_iter().chain([raised.as_str()]) {
        let rig = read(text).0.unwrap().rig;
        let solution = solve(&rig).unwrap();
        for key in keys(&rig) {
            let Some(found) = meaning(&key, &rig, &solution) else { continue };
            let field = field(&key).unwrap();
            assert!(
                matches!(field.dimension(), Dimension::Length | Dimension::Angle | Dimension::Area),
                "{key}"
            );
            let (Some(there), Some(said)) = (measured(found.measure), field.get(&rig)) else { continue };
            assert!((there - said.abs()).abs() < 1e-9, "{key}: {there} for {said}");
            marked.insert(key);
        }
    }
    for key in [
        "legs.length",
        "legs.lashing_below_tip",
        "feet.spread",
        "feet.connection_height",
        "limits.upright_stop",
        "load.at_edge.outward_angle",
        "edge.ahead",
        "edge.level",
        "edge.litter_drop",
        "edge.clear_reach",
        "edge.headroom",
        "line.to.back",
        "line.to.left",
        "line.to.up",
        "line.sling",
        "second.to.back",
        "guy.0.setback",
        "guy.1.offset",
        "guy.1.rise",
        "guy.1.ahead",
    ] {
        assert!(marked.contains(key), "{key} is on no site: {marked:?}");
    }
}

/// A value as long as most are.
const VALUE: &str = "12 ft 10 in";

/// The words of a lettering, its ends and its baseline, px.
fn ends(item: &Item, k: f64) -> Option<(&str, f64, f64, f64)> {
    let (Shape::Text { x, y, text, anchor }, Role::Text(lettering, tone)) = (&item.shape, item.role) else {
        return None;
    };
    let style = lettering.style(tone, k);
    let long = width(text, style.face, style.size);
    let left = match anchor {
        Anchor::Start => *x,
        Anchor::Middle => x - long / 2.0,
        Anchor::End => x - long,
    };
    Some((text, left, left + long, *y))
}

/// Wherever the sketch is narrow or high, what is marked and its number are on it, and nothing is no number.
#[test]
fn a_mark_is_on_its_plate_with_its_number() {
    for text in SITES {
        let rig = read(text).0.unwrap().rig;
        let solution = solve(&rig).unwrap();
        for (key, (width, height, k)) in keys(&rig).flat_map(|key| {
            [(280.0, 150.0, 1.0), (460.0, 230.0, 1.0), (900.0, 420.0, 2.0)].map(|plate| (key.clone(), plate))
        }) {
            let Some(found) = meaning(&key, &rig, &solution) else { continue };
            let scene = sketched(&rig, &solution, Some(&found), VALUE, Plate { width, height, k });
            let on = |x: f64, y: f64| (0.0..=width).contains(&x) && (0.0..=height).contains(&y);
            let numbers: Vec<_> = scene.items.iter().filter_map(|item| ends(item, k)).collect();
            let [(text, left, right, y)] = numbers.as_slice() else { panic!("{key}: {numbers:?}") };
            assert!(*text == VALUE && on(*left, *y) && on(*right, *y), "{key} on {width}: {numbers:?}");
            let marks = scene.items.iter().filter(|item| item.part == "measured");
            let mut count = 0;
            for item in marks {
                let Shape::Path(path) = &item.shape else { panic!("{key}: {item:?}") };
                let (left, top, right, bottom) = path.bounds().unwrap();
                assert!(
                    on(left, top) && on(right, bottom),
                    "{key} on {width}: {left} {top} {right} {bottom}"
                );
                count += 1;
            }
            assert!(count > 0, "{key}");
        }
    }
}

/// What is not measured on the frame has no mark; a field of which nothing is said has its place.
#[test]
fn what_is_no_dimension_is_not_marked() {
    let rig = read(SITES[0]).0.unwrap().rig;
    let solution = solve(&rig).unwrap();
    for key in ["load.mass", "guy.0.breaking", "timber.grade", "plan.people", "guy.5.setback", "title", ""] {
        assert_eq!(meaning(key, &rig, &solution), None, "{key}");
    }
    let unsaid = meaning("guy.0.rise", &rig, &solution).unwrap();
    assert!(matches!(unsaid.measure, Measure::Spot(_)) && unsaid.wide, "{unsaid:?}");
}
