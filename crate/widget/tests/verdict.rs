#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]
//! What is said of a rig whose strengths are known in part.

use outlean_picture::Words;
use outlean_rig::{Edge, Guy, Point, Rig};
use outlean_rigfile::DEG;
use outlean_widget::state::State;
use outlean_widget::verdict::{Sign, verdict};

/// A hung load; an aft guy of these allowables, and a fore guy that hangs slack.
fn said(rope: Option<f64>, holdfast: Option<f64>) -> (Sign, String) {
    let mut rig = Rig::new(4.1, 1.3, 18.0 * DEG, 210.0);
    rig.limits.upright_stop = Some(8.0 * DEG);
    rig.guys.push(Guy {
        rope_allowable: rope,
        holdfast_allowable: holdfast,
        ..Guy::to(Point::new(-6.5, 0.0, 0.0))
    });
    rig.guys.push(Guy::to(Point::new(5.0, 0.0, 0.0)));
    let words = Words::new([("verdict.in_but".to_owned(), "but for the {part}".to_owned())]);
    let verdict = verdict(&State::new(rig).unwrap(), &words);
    (verdict.sign, verdict.is)
}

#[test]
fn a_guy_that_pulls_on_something_unknown_is_named_with_the_range() {
    let (sign, is) = said(Some(3000.0), None);
    assert_eq!(sign, Sign::In);
    assert!(is.starts_with("but for the ") && is.contains("holdfast"), "{is}");
    let (_, is) = said(None, Some(3000.0));
    assert!(is.starts_with("but for the ") && !is.contains("holdfast"), "{is}");
    // The fore guy is as unknown, but carries nothing.
    assert_eq!(said(Some(3000.0), Some(3000.0)), (Sign::In, "verdict.in".to_owned()));
}

#[test]
fn a_wish_that_ends_the_range_is_named_as_one_and_not_as_a_load() {
    let mut rig = Rig::new(4.1, 1.3, 12.0 * DEG, 210.0);
    rig.guys.push(Guy { holdfast_allowable: Some(2600.0), ..Guy::to(Point::new(-6.5, 0.0, 0.0)) });
    rig.guys.push(Guy::to(Point::new(5.0, 0.0, 0.0)));
    rig.edge = Some(Edge { clear_reach_wanted: Some(0.8), ..Edge::at(0.5) });
    let words = Words::new([
        ("verdict.limit".to_owned(), "ended by the {part}".to_owned()),
        ("limit.clear_reach".to_owned(), "clear reach".to_owned()),
    ]);
    let verdict = verdict(&State::new(rig).unwrap(), &words);
    assert_eq!((verdict.sign, verdict.is.as_str()), (Sign::Out, "verdict.out"));
    assert_eq!(verdict.why, "ended by the clear reach");
}

#[test]
fn feet_on_friction_are_told_by_the_friction_they_need() {
    let mut rig = Rig::new(3.25, 1.05, 20.0 * DEG, 210.0);
    rig.feet.pinned = false;
    rig.feet.friction = Some(0.5);
    rig.guys.push(Guy {
        rope_allowable: Some(9000.0),
        holdfast_allowable: Some(9000.0),
        ..Guy::to(Point::new(-5.2, 0.0, 0.0))
    });
    let words = Words::new([("verdict.in_slides".to_owned(), "the feet need {percent}".to_owned())]);
    let told = |rig: Rig| verdict(&State::new(rig).unwrap(), &words);
    assert_eq!(told(rig.clone()).why.replace('\u{2009}', " "), "the feet need 81 %");
    // Held at no lean: the nearest asks for too much of it as well.
    rig.feet.friction = Some(0.01);
    assert_eq!(told(rig).why, "verdict.none_slides");
}
