//! Marking: what is right, what is a slip, what is a unit, and that nothing typed can break it.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "tests stop"
)]

mod common;

use outlean_course::{MarkError, Question, Sentence, SlipKind, Verdict, With, WouldBe, draw, mark};
use outlean_rig::{Dimension, Quantity, solve, solve_at};
use outlean_rigfile::{LB, LBF, Units, show};
use proptest::prelude::*;

fn verdict(question: &Question, typed: &str, units: Units) -> Verdict {
    mark(question, typed, units).unwrap_or_else(|e| panic!("{typed}: {e:?}")).verdict
}

#[test]
fn the_right_number_is_right_in_every_unit() {
    for template in common::all() {
        for seed in 0..40 {
            let question = draw(&template, seed).unwrap();
            let newtons = question.answer;
            let typed = [
                (format!("{:.2}kN", newtons / 1e3), Units::Us),
                (format!("{:.2} kN", newtons / 1e3).replace('.', ","), Units::Us),
                (format!("{newtons:.0} N"), Units::Metric),
                (format!("{:.0} lbf", newtons / LBF), Units::Metric),
                (format!("{:.0}", newtons / LBF), Units::Us),
                (format!("{:.2}", newtons / 1e3), Units::Metric),
                (show(newtons, Dimension::Force, Units::Us).to_string(), Units::Metric),
            ];
            for (typed, units) in typed {
                assert_eq!(verdict(&question, &typed, units), Verdict::Right, "{typed}");
            }
        }
    }
}

#[test]
fn the_right_number_with_another_unit_is_told_apart() {
    let question = draw(&common::leg_with_line(), 5).unwrap();
    let newtons = question.answer;
    let slip = |typed: String, units| match verdict(&question, &typed, units) {
        Verdict::UnitSlip { wrote, meant } => (wrote, meant),
        other => panic!("{typed}: {other:?}"),
    };
    assert_eq!(slip(format!("{newtons:.0} kN"), Units::Metric), ("kN", "N"));
    assert_eq!(slip(format!("{:.2} N", newtons / 1e3), Units::Metric), ("N", "kN"));
    assert_eq!(slip(format!("{:.0} kN", newtons / LBF), Units::Metric), ("kN", "lbf"));
    assert_eq!(slip(format!("{:.2}", newtons / 1e3), Units::Us), ("lbf", "kN"));
    assert_eq!(slip(format!("{newtons:.0}"), Units::Metric), ("kN", "N"));
    assert_eq!(slip(format!("{:.0} kg", newtons / outlean_rig::G), Units::Metric), ("kg", "kN"));
    assert_eq!(slip(format!("{:.0} lb", newtons / outlean_rig::G / LB), Units::Us), ("lb", "lbf"));
    // A mass of any other size is a wrong number, and is said to be a mass.
    let marked = mark(&question, "999 kg", Units::Metric).unwrap();
    assert_eq!(marked.verdict, Verdict::Other);
    assert_eq!(marked.sentences[0].key, "note.mass");
    assert!((marked.given - 999.0 * outlean_rig::G).abs() < 1e-6);
}

#[test]
fn a_mass_is_no_force_by_accident() {
    let question = draw(&common::leg_with_line(), 5).unwrap();
    // As many kilograms as the answer has pounds-force.
    let typed = format!("{:.0} kg", question.answer / LBF);
    let marked = mark(&question, &typed, Units::Metric).unwrap();
    assert!(!matches!(marked.verdict, Verdict::UnitSlip { .. }), "{typed}: {:?}", marked.verdict);
}

#[test]
fn what_hangs_on_the_load_is_told_by_the_load() {
    for ask in [Quantity::OnHead, Quantity::HaulTension] {
        let mut template = common::leg_with_line();
        (template.ask, template.slips) = (ask, Vec::new());
        let question = draw(&template, 3).unwrap();
        for factor in [0.4, 0.9, 1.3] {
            let given = question.answer * factor;
            let marked = mark(&question, &format!("{given} N"), Units::Metric).unwrap();
            let Some(WouldBe::Load(mass)) = marked.would_be else { panic!("{:?}", marked.would_be) };
            let mut rig = question.rig.clone();
            rig.load.mass = mass;
            let there = ask.of(&solve(&rig).unwrap()).unwrap();
            assert!((there - given).abs() < 1e-6 * given, "{ask:?}: {there} is not {given}");
        }
        let nothing = mark(&question, "0", Units::Metric).unwrap();
        assert_eq!(nothing.would_be, Some(WouldBe::Nowhere));
    }
}

#[test]
fn nothing_is_a_guy_that_hangs_slack() {
    let question = draw(&common::guy(), 4).unwrap();
    for typed in ["0", "-2 kN"] {
        assert_eq!(mark(&question, typed, Units::Metric).unwrap().would_be, Some(WouldBe::Slack), "{typed}");
    }
}

#[test]
fn every_slip_is_recognised_by_its_number() {
    for template in common::all() {
        for seed in 0..200 {
            let question = draw(&template, seed).unwrap();
            for slip in &question.slips {
                for (typed, units) in [
                    (format!("{:.2} kN", slip.value / 1e3), Units::Metric),
                    (format!("{:.0}", slip.value / LBF), Units::Us),
                ] {
                    let marked = mark(&question, &typed, units).unwrap();
                    assert_eq!(marked.verdict, Verdict::Slip(slip.kind), "{} {typed}", template.id);
                    if let Some(rig) = slip.kind.rig(&question.rig) {
                        let there = question.ask.of(&solve(&rig).unwrap()).unwrap();
                        assert!((there - slip.value).abs() < 1e-9, "the answer is right on the slip's rig");
                    }
                }
            }
        }
    }
}

#[test]
fn the_forgotten_main_line_is_the_load_hung() {
    let question = draw(&common::leg_with_line(), 11).unwrap();
    let slip = question.slips.iter().find(|slip| slip.kind == SlipKind::ForgotMainLine).unwrap();
    let haul = solve(&question.rig).unwrap().line.haul_tension;
    assert!((slip.value + haul - question.answer).abs() < 1e-9);
}

#[test]
fn any_other_number_is_right_at_the_lean_it_is_answered_with() {
    let template = common::guy();
    let (mut leans, mut nowhere) = (0, 0);
    for seed in 0..60 {
        let question = draw(&template, seed).unwrap();
        for factor in [0.5, 0.93, 1.08, 1.3, 40.0] {
            let typed = format!("{:.2} kN", question.answer * factor / 1e3);
            let marked = mark(&question, &typed, Units::Metric).unwrap();
            match (marked.verdict, marked.would_be) {
                (Verdict::Near | Verdict::Other, Some(WouldBe::Lean(lean))) => {
                    let there = question.ask.of(&solve_at(&question.rig, lean).unwrap()).unwrap();
                    assert!((there - marked.given).abs() < 1e-3, "{there} is not {}", marked.given);
                    leans += 1;
                }
                (Verdict::Near | Verdict::Other, Some(WouldBe::Nowhere)) => {
                    assert!(factor > 10.0, "{typed} of {}", question.answer);
                    nowhere += 1;
                }
                (Verdict::Slip(_) | Verdict::UnitSlip { .. }, _) => {}
                other => panic!("{other:?}"),
            }
        }
    }
    assert!(leans > 100 && nowhere > 30, "{leans} {nowhere}");
}

#[test]
fn near_is_near() {
    // Without slips that lie as near.
    let mut template = common::leg_with_line();
    template.slips = vec![SlipKind::ForgotMainLine];
    let question = draw(&template, 2).unwrap();
    let at = |share: f64| verdict(&question, &format!("{:.6} N", question.answer * share), Units::Metric);
    assert_eq!(at(1.0499), Verdict::Right);
    assert_eq!(at(0.951), Verdict::Right);
    assert_eq!(at(1.06), Verdict::Near);
    assert_eq!(at(0.91), Verdict::Near);
    assert_eq!(at(1.11), Verdict::Other);
}

#[test]
fn what_cannot_be_read_names_what_was_typed_and_what_was_expected() {
    let question = draw(&common::leg_with_line(), 2).unwrap();
    for (typed, key) in [
        ("", "unreadable.empty"),
        ("heavy", "unreadable.number"),
        ("4 parsec", "unreadable.unit"),
        ("4 kNn", "unreadable.unit_like"),
        ("12 m", "unreadable.other_dimension"),
        ("1,234 N", "unreadable.comma"),
        ("9e99", "unreadable.too_large"),
    ] {
        let Err(MarkError::Unreadable(why)) = mark(&question, typed, Units::Metric) else {
            panic!("{typed} was read")
        };
        let says = |name: &str, with: &With| {
            why.sentence.fills.iter().any(|fill| fill.name == name && fill.with == *with)
        };
        assert!(
            says("typed", &With::Text(typed.into())) && says("expected", &With::Word("expected.force")),
            "{typed}"
        );
        assert_eq!(why.sentence.key, key, "{typed}");
        words_fit(&why.sentence);
    }
}

fn strings() -> serde_json::Map<String, serde_json::Value> {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../www/strings/en/question.json");
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// The sentence's key and words are in the strings, and every gap of it is filled.
fn words_fit(sentence: &Sentence) {
    let strings = strings();
    let text = strings.get(&sentence.key).unwrap_or_else(|| panic!("no words for {}", sentence.key));
    let text = text.as_str().unwrap();
    for gap in text.split('{').skip(1) {
        let (name, _) = gap.split_once('}').unwrap();
        let fill = sentence.fills.iter().find(|fill| fill.name == name);
        let fill = fill.unwrap_or_else(|| panic!("{}: nothing fills {{{name}}}", sentence.key));
        if let With::Word(key) = fill.with {
            assert!(strings.contains_key(key), "no word {key}");
        }
    }
}

#[test]
fn there_are_words_for_everything_said() {
    let mut said = Vec::new();
    for template in common::all() {
        for kind in SlipKind::ALL {
            if !kind.applies(&template.rig, template.ask) {
                continue;
            }
            // Each slip alone: all of them together would not keep apart.
            let mut alone = template.clone();
            alone.slips = vec![kind];
            let Ok(question) = draw(&alone, 1) else { continue };
            let value = question.slips[0].value;
            for typed in [format!("{value:.3} N"), "1 kg".into(), format!("{} N", question.answer)] {
                said.extend(mark(&question, &typed, Units::Metric).unwrap().sentences);
            }
            for typed in [
                format!("{} kN", question.answer),
                format!("{} kg", question.answer / outlean_rig::G),
                "900 kN".into(),
                format!("{} N", question.answer * 1.08),
            ] {
                said.extend(mark(&question, &typed, Units::Metric).unwrap().sentences);
            }
        }
    }
    let mut line = common::leg_with_line();
    (line.ask, line.slips) = (Quantity::OnHead, Vec::new());
    for (template, typed) in [(line, "1 kN"), (common::guy(), "0 kN")] {
        let question = draw(&template, 1).unwrap();
        said.extend(mark(&question, typed, Units::Metric).unwrap().sentences);
    }
    said.iter().for_each(words_fit);
    let mut keys: Vec<&str> = said.iter().map(|sentence| sentence.key.as_str()).collect();
    keys.sort_unstable();
    keys.dedup();
    for kind in SlipKind::ALL {
        let prefix = format!("slip.{}.", kind.name());
        assert!(keys.iter().any(|key| key.starts_with(&prefix)), "{prefix} was never said");
    }
    // And none that are never said.
    for key in strings()
        .keys()
        .filter(|key| ["slip.", "verdict.", "would_be."].iter().any(|start| key.starts_with(start)))
    {
        assert!(keys.contains(&key.as_str()), "{key} is never said");
    }
}

#[test]
fn what_is_asked_besides_forces_is_marked_too() {
    let mut template = common::leg_with_line();
    template.ask = Quantity::Reach;
    template.slips.clear();
    template.answer = outlean_rig::Allowed { least: 1.0, most: 3.0 };
    let question = draw(&template, 1).unwrap();
    assert_eq!(verdict(&question, &format!("{:.2} m", question.answer), Units::Us), Verdict::Right);
    assert_eq!(
        verdict(&question, &format!("{:.0}", question.answer * 100.0), Units::Metric),
        Verdict::UnitSlip { wrote: "m", meant: "cm" }
    );
}

proptest! {
    #[test]
    fn nothing_typed_breaks_it(typed in ".*", us: bool) {
        let question = draw(&common::leg_with_line(), 9).unwrap();
        let _ = mark(&question, &typed, if us { Units::Us } else { Units::Metric });
    }

    #[test]
    fn nothing_like_a_quantity_breaks_it(typed in "[-−+]?[0-9.,/e ]{0,8} ?(k?N|lbf?|kg|ft|in|'|\"|daN|t|m)?( [0-9]{0,3} ?(in|ft|N))?") {
        let question = draw(&common::guy(), 9).unwrap();
        if let Ok(marked) = mark(&question, &typed, Units::Metric) {
            prop_assert!(marked.given.is_finite());
            prop_assert!(!marked.sentences.is_empty());
        }
    }
}
