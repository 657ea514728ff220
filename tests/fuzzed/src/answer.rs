//! Any text as an answer or as an entry of a form, in every dimension: a finite number or what stands in the way; what is shown
//! of a number reads as that number.

use outlean_rig::Dimension;
use outlean_rigfile::{Units, parse, parse_answer, parse_lean, show};

pub fn held(text: &str) {
    for dimension in Dimension::ALL {
        if let Ok(value) = parse(text, dimension) {
            assert!(value.is_finite());
            let answer = parse_answer(text, dimension).expect("what is a quantity is an answer");
            assert_eq!(answer.value_si, Some(value), "{dimension:?}");
            for units in [Units::Metric, Units::Us] {
                reads_back(value, dimension, units);
            }
        }
        if let Ok(answer) = parse_answer(text, dimension) {
            assert!(answer.number.is_finite() && answer.value_si.is_none_or(f64::is_finite));
        }
    }
    let _ = parse_lean(text);
}

/// What is shown is read back as the same, as far as it is shown.
fn reads_back(value: f64, dimension: Dimension, units: Units) {
    let shown = show(value, dimension, units).to_string();
    let read = parse(&shown, dimension).unwrap_or_else(|why| panic!("{value} is shown as {shown}: {why:?}"));
    let again = show(read, dimension, units).to_string();
    assert_eq!(shown, again, "{value} {dimension:?}");
}
