//! Worked solutions and causes: every formula shown comes to the core's own number.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "tests stop"
)]

mod common;

use outlean_course::{Expr, Symbol, Worked, causes, draw, worked};
use outlean_rig::{Quantity, Rig, Side};
use outlean_rigfile::Units;

/// The value of the last step.
fn end(worked: &Worked) -> f64 {
    worked.steps.last().expect("there are steps").value
}

#[test]
fn the_last_step_is_the_answer_and_every_formula_holds() {
    for template in common::all() {
        for seed in 0..2000 {
            let question = draw(&template, seed).unwrap();
            let worked = worked(&question.rig, question.ask).unwrap();
            let scale = question.answer.abs();
            assert!((end(&worked) - question.answer).abs() <= 1e-9 * scale, "{}", template.id);
            for step in &worked.steps {
                let numbers = step.numbers.as_ref().map(Expr::value);
                let by_hand =
                    numbers.unwrap_or_else(|| panic!("{}: {} has no formula", template.id, step.key));
                let apart = (by_hand.expect("numbers throughout") - step.value).abs();
                assert!(apart <= 1e-9 * (1.0 + step.value.abs()), "{}: {}", template.id, step.key);
            }
        }
    }
}

#[test]
fn causes_sum_to_the_answer() {
    for template in common::all() {
        for seed in 0..500 {
            let question = draw(&template, seed).unwrap();
            let shares = causes(&question.rig, question.ask).unwrap();
            let sum: f64 = shares.iter().map(|share| share.value).sum();
            assert!((sum - question.answer).abs() <= 1e-9 * question.answer);
        }
    }
}

#[test]
fn the_leg_with_the_line_carries_its_share_and_the_haul_lines_pull() {
    // 275 kg at 24 degrees, 4.65 m to the lashing, feet 1.5 m apart, aft anchor 7.5 m back; by an independent
    // vector sum: moment 2.6969 kN × 1.8666 m, guy arm 3.0824 m.
    let mut rig = common::leg_with_line().rig;
    rig.lean = 24f64.to_radians();
    rig.load.mass = 275.0;
    let shares = causes(&rig, Quantity::LegCompression(Side::Left)).unwrap();
    assert_eq!(shares.len(), 2);
    assert!((shares[1].value - 275.0 * outlean_rig::G).abs() < 1e-9);
    let share = by_hand(4.65, 1.5, 24f64.to_radians(), 275.0 * outlean_rig::G, 7.5);
    assert!((shares[0].value - share).abs() < 1e-9);
}

/// A leg's share with the load hung, by horizontal and vertical balance of the head instead of moments.
fn by_hand(length: f64, spread: f64, lean: f64, load: f64, setback: f64) -> f64 {
    let slant = libm::sqrt(length * length - spread * spread / 4.0);
    let (reach, height) = (slant * libm::sin(lean), slant * libm::cos(lean));
    // Guy slope and frame slope: A·cos β = P·sin λ, W + A·sin β = P·cos λ.
    let tan_guy = height / (setback + reach);
    let press = load / (libm::cos(lean) - libm::sin(lean) * tan_guy);
    press * length / (2.0 * slant)
}

#[test]
fn the_steps_go_the_way_of_the_board() {
    let question = draw(&common::leg_with_line(), 4).unwrap();
    let worked = worked(&question.rig, question.ask).unwrap();
    let keys: Vec<&str> = worked.steps.iter().map(|step| step.key).collect();
    assert_eq!(
        keys,
        [
            "working_length",
            "slant_height",
            "reach",
            "head_height",
            "load",
            "moment",
            "guy_length",
            "guy_arm",
            "guy",
            "press",
            "leg",
            "haul_line",
            "leg_with_haul_line"
        ]
    );
    let strings: serde_json::Map<String, serde_json::Value> = serde_json::from_str(
        &std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/../../www/strings/en/question.json"))
            .unwrap(),
    )
    .unwrap();
    for template in common::all() {
        let question = draw(&template, 4).unwrap();
        let worked = outlean_course::worked(&question.rig, question.ask).unwrap();
        for step in &worked.steps {
            assert!(strings.contains_key(&format!("step.{}", step.key)), "no words for {}", step.key);
        }
        for symbol in worked.given.iter().map(|g| g.symbol).chain(worked.steps.iter().map(|s| s.symbol)) {
            let name = serde_json::to_value(symbol).unwrap();
            let key = format!("symbol.{}", name.as_str().unwrap());
            assert!(strings.contains_key(&key), "no words for {key}");
        }
        for share in causes(&question.rig, question.ask).unwrap() {
            let name = serde_json::to_value(share.cause).unwrap();
            let key = format!("cause.{}", name.as_str().unwrap());
            assert!(strings.contains_key(&key), "no words for {key}");
        }
    }
}

#[test]
fn plain_text_and_mathml_say_the_same() {
    let mut rig = common::leg_with_line().rig;
    rig.lean = 24f64.to_radians();
    let worked = worked(&rig, Quantity::LegCompression(Side::Left)).unwrap();
    let step = worked.steps.iter().find(|step| step.symbol == Symbol::Reach).unwrap();
    assert_eq!(step.plain(Units::Metric), "r = a·sin λ = 4.59\u{2009}m·sin 24° = 1.87\u{2009}m");
    let last = worked.steps.last().unwrap();
    assert!(last.plain(Units::Metric).starts_with("N = N_W + T = "), "{}", last.plain(Units::Metric));
    assert!(last.plain(Units::Us).contains("lbf"));
    for step in &worked.steps {
        for units in [Units::Metric, Units::Us] {
            let text = step.mathml(units);
            assert!(balanced(&text), "{text}");
            // Each number of the plain text stands in the MathML.
            for number in step.plain(units).split(|c: char| !(c.is_ascii_digit() || c == '.')) {
                assert!(text.contains(number), "{number} in {text}");
            }
        }
    }
}

/// Whether every tag is closed in its place.
fn balanced(markup: &str) -> bool {
    let mut open = Vec::new();
    for tag in markup.split('<').skip(1) {
        let tag = tag.split('>').next().unwrap_or_default();
        if let Some(name) = tag.strip_prefix('/') {
            if open.pop() != Some(name) {
                return false;
            }
        } else {
            open.push(tag.split(' ').next().unwrap_or_default());
        }
    }
    open.is_empty()
}

#[test]
fn a_rig_that_is_not_plain_keeps_its_numbers_and_loses_only_the_formulas_that_do_not_hold() {
    let mut rig = common::leg_with_line().rig;
    rig.legs.right.length = 5.4;
    let ask = Quantity::LegCompression(Side::Left);
    let worked = worked(&rig, ask).unwrap();
    let answer = ask.of(&outlean_rig::solve(&rig).unwrap()).unwrap();
    assert!((end(&worked) - answer).abs() < 1e-9);
    let slant = worked.steps.iter().find(|step| step.symbol == Symbol::SlantHeight).unwrap();
    assert_eq!(slant.formula, None);
    let reach = worked.steps.iter().find(|step| step.symbol == Symbol::Reach).unwrap();
    assert!(reach.formula.is_some());
}

#[test]
fn a_load_swung_outward_or_aside_is_worked_out_to_the_cores_answer() {
    for (outward, aside) in [(0.2, 0.0), (0.0, 0.1), (-0.1, 0.05)] {
        for template in common::all() {
            let mut rig = template.rig.clone();
            (rig.load.outward_angle, rig.load.side_angle) = (outward, aside);
            let solution = outlean_rig::solve(&rig).unwrap();
            let Some(answer) = template.ask.of(&solution) else { continue };
            let worked = worked(&rig, template.ask).unwrap();
            assert!((end(&worked) - answer).abs() < 1e-9 * (1.0 + answer.abs()), "{}", template.id);
            // The last formulas hold whatever the load does: they go by what presses on the frame.
            if matches!(template.ask, Quantity::LegCompression(_)) {
                assert!(worked.steps.last().unwrap().formula.is_some(), "{}", template.id);
            }
        }
    }
}

#[test]
fn other_readings_are_worked_out_too() {
    let rig = common::leg_with_line().rig;
    let straight = common::straight_back(Quantity::OnHead).rig;
    for (rig, ask) in [
        (&rig, Quantity::HaulTension),
        (&rig, Quantity::OnHead),
        (&straight, Quantity::OnHead),
        (&straight, Quantity::HaulTension),
        (&rig, Quantity::Reach),
        (&rig, Quantity::HeadHeight),
        (&rig, Quantity::GuyTension(1)),
        (&rig, Quantity::TippingMoment),
    ] {
        let worked = worked(rig, ask).unwrap();
        let answer = ask.of(&outlean_rig::solve(rig).unwrap()).unwrap();
        assert!((end(&worked) - answer).abs() <= 1e-9 * (1.0 + answer.abs()), "{ask:?}");
    }
}

#[test]
fn a_frame_that_tips_has_nothing_to_work_out() {
    let rig = Rig::new(4.65, 1.5, 0.4, 200.0);
    assert!(worked(&rig, Quantity::LegCompression(Side::Left)).unwrap().steps.is_empty());
    assert!(causes(&rig, Quantity::LegCompression(Side::Left)).unwrap().is_empty());
}
