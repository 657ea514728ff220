//! Settings: one that will do is found, what was moved is marked for what it is, an author's mistakes are named.

#![expect(
    clippy::float_cmp,
    clippy::expect_used,
    clippy::panic,
    reason = "tests stop, and shares of whole numbers are exact"
)]

mod common;

use common::kinds::{claim, set};
use outlean_course::{Condition, SetTemplate, Span, Template, Undrawn, Unsuited};
use outlean_rig::solve;
use outlean_rigfile::{DEG, Units, field};

#[test]
fn a_setting_is_found_and_marked() {
    let template = set();
    for seed in 0..200 {
        let drawn = template.draw(seed).unwrap();
        assert!(!drawn.mark(&drawn.rig).right, "seed {seed} begins right");
        let solved = drawn.solved();
        let solution = solve(&solved).unwrap();
        assert!(solution.layout.reach() >= 2.6 && solution.forces().unwrap().guys[0].tension <= 2400.0);
        let mark = drawn.mark(&solved);
        assert!(mark.right && mark.sentences[0].key == "set.right");
        for (span, value) in drawn.may.iter().zip(&drawn.example) {
            let begun = field(&span.field).unwrap().get(&drawn.rig).unwrap();
            assert!((span.least - 1e-9..=span.most + 1e-9).contains(value) || *value == begun);
        }
        // Something else changed, even to the same end.
        let mut cheated = solved.clone();
        cheated.load.mass = 40.0;
        let mark = drawn.mark(&cheated);
        assert!(!mark.right && mark.else_changed && mark.share == 0.0);
        assert!(mark.each.iter().all(|each| each.holds));
        let mut far = solved;
        field("aft.setback").unwrap().set(&mut far, 30.0).unwrap();
        let mark = drawn.mark(&far);
        assert!(!mark.right && !mark.else_changed && mark.too_far == ["aft.setback"]);
    }
}

#[test]
fn the_worked_example_moves_one_thing_alone_and_no_farther_than_it_must() {
    let mut template = set();
    template.until.truncate(1);
    template.vary.retain(|span| span.field != "aft.setback");
    template.may.reverse();
    let lean = field("lean").unwrap();
    for seed in 0..60 {
        let drawn = template.draw(seed).unwrap();
        // No setback changes the reach: it stays, and the lean moves to the first degree that will do.
        assert_eq!(Some(drawn.example[0]), field("aft.setback").unwrap().get(&drawn.rig));
        let begun = lean.get(&drawn.rig).unwrap();
        let first = (10..=45)
            .map(|degrees| f64::from(degrees) * DEG)
            .filter(|degrees| {
                let mut tried = drawn.rig.clone();
                lean.set(&mut tried, *degrees).unwrap();
                solve(&tried).unwrap().layout.reach() > 1.0204 * 2.6
            })
            .min_by(|a, b| (a - begun).abs().total_cmp(&(b - begun).abs()))
            .unwrap();
        assert!((drawn.example[1] - first).abs() < 1e-9, "{} and {first}", drawn.example[1]);
    }
}

#[test]
fn how_far_off_a_setting_is() {
    let drawn = set().draw(3).unwrap();
    let leaning = |degrees: f64| {
        let mut left = drawn.rig.clone();
        field("lean").unwrap().set(&mut left, degrees * DEG).unwrap();
        left
    };
    let mark = drawn.mark(&leaning(20.0));
    let reach = solve(&leaning(20.0)).unwrap().layout.reach();
    let off = mark.each[0].off.unwrap();
    assert!((off - (2.6 - reach)).abs() < 1e-12, "{off} short of 2.6 m");
    assert!((mark.share - 0.5).abs() < 1e-12 || mark.share == 0.0);
    assert_eq!(mark.sentences[0].key, "set.off");
    let mut free = drawn.clone();
    free.rig.guys.clear();
    free.may.truncate(1);
    let mark = free.mark(&free.rig);
    assert!(mark.each[1].unclear.is_some() && mark.each[1].off.is_none());
}

#[test]
fn an_authors_mistakes_in_a_setting_are_named() {
    let last = |template: SetTemplate| match template.draw(1).unwrap_err() {
        Undrawn::NoneFits { last, .. } => last,
        other => panic!("{other:?}"),
    };
    let until = |words: &str| {
        let mut template = set();
        template.until.truncate(1);
        template.until[0].claim = claim(words);
        template
    };
    assert_eq!(last(until("reach >= 0.2 m")), Unsuited::HoldsAlready);
    assert_eq!(last(until("reach >= 4.9 m")), Unsuited::OutOfReach);
    let mut still = set();
    still.may.clear();
    assert!(matches!(still.draw(1), Err(Undrawn::Count { count: 0, .. })));
    // What only two together reach is found as well.
    let together = set();
    assert!(together.draw(1).unwrap().example.iter().all(|value| value.is_finite()));
}

#[test]
fn a_lone_setting_between_the_coarse_ones_is_found() {
    let mut template = set();
    template.vary.clear();
    // Steps of 1° and 0.25 m leave 28° and 8.5 m, which a grid of seven values each does not have.
    let words = ["lean >= 27.3 deg", "lean <= 28.7 deg", "aft.setback >= 8.3 m", "aft.setback <= 8.7 m"];
    template.until = words.map(|words| Condition { claim: claim(words), says: words.into() }).into();
    let example = template.draw(1).unwrap().example;
    assert_eq!(
        example.iter().map(|value| (value * 1e6).round()).collect::<Vec<_>>(),
        [488_692.0, 8_500_000.0]
    );
    assert_eq!(Template::Set(template.clone()).tried(0..5), Ok(()));
    // Of more settings than are tried, one in a hundred that will do is found too.
    let span = |field: &str, most: f64, step: f64| Span {
        field: field.into(),
        least: 0.0,
        most,
        step,
        units: Units::Metric,
    };
    template.may.push(Span { least: 100.0, ..span("load.mass", 400.0, 1.0) });
    template.until.truncate(2);
    template.until.extend(
        ["aft.setback >= 8.3 m", "load.mass >= 306 kg"]
            .map(|words| Condition { claim: claim(words), says: words.into() }),
    );
    assert!(template.draw(1).is_ok());
    // What there is not is not found, and is not looked for without end.
    template.until[0].claim = claim("lean >= 46 deg");
    assert!(matches!(template.draw(1), Err(Undrawn::NoneFits { last: Unsuited::OutOfReach, .. })));
}
