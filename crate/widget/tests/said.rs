#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]
//! Sentences of the course in words.

use outlean_course::{Fill, Sentence, With};
use outlean_picture::Words;
use outlean_rig::Dimension;
use outlean_rigfile::Units;
use outlean_widget::said;

#[test]
fn one_sentence_has_one_unit() {
    let words = Words::new([("tick.compares".to_owned(), "{left} here, held against {right}".to_owned())]);
    let compared = |left: f64, right: f64, units| {
        let fill = |name, value| Fill { name, with: With::Number(value, Dimension::Length) };
        let sentence =
            Sentence { key: "tick.compares".into(), fills: vec![fill("left", left), fill("right", right)] };
        said(&words, &sentence, units).replace('\u{2009}', " ")
    };
    assert_eq!(compared(0.11, 0.076, Units::Metric), "110 mm here, held against 76 mm");
    assert_eq!(compared(0.35, 0.12, Units::Metric), "350 mm here, held against 120 mm");
    assert_eq!(compared(1.46, 0.04, Units::Metric), "1.46 m here, held against 0.04 m");
    assert_eq!(compared(0.11, 0.076, Units::Us), "4.3 in here, held against 3 in");
}
