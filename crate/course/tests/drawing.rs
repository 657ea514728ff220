//! Drawing: the same seed, the same question; every question makes sense.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "tests stop"
)]

mod common;

use outlean_course::{DrawError, EstimateTemplate, Question, SlipKind, Tolerance, Unfit, draw};
use outlean_rig::{Allowed, Line, Quantity, solve};

#[test]
fn the_same_seed_draws_the_same_question() {
    for template in common::all() {
        let again: EstimateTemplate =
            serde_json::from_str(&serde_json::to_string(&template).unwrap()).unwrap();
        for seed in [0, 1, 77, u64::MAX] {
            assert_eq!(draw(&template, seed).unwrap(), draw(&again, seed).unwrap());
        }
    }
}

#[test]
fn other_seeds_and_other_templates_draw_other_questions() {
    let template = common::leg_with_line();
    let renamed = EstimateTemplate { id: "another".into(), ..template.clone() };
    let answers = |template: &EstimateTemplate| -> Vec<u64> {
        (0..40).map(|seed| draw(template, seed).unwrap().answer.to_bits()).collect()
    };
    let mut all = answers(&template);
    all.extend(answers(&renamed));
    all.sort_unstable();
    all.dedup();
    assert!(all.len() > 60, "{} of 80 differ", all.len());
}

#[test]
fn a_question_survives_its_json() {
    for template in common::all() {
        let question = draw(&template, 3).unwrap();
        let read: Question = serde_json::from_str(&serde_json::to_string(&question).unwrap()).unwrap();
        // Text to number and back may move the last bit; the rig's own numbers are short and do not.
        assert_eq!(read.rig, question.rig);
        assert!((read.answer - question.answer).abs() < 1e-9);
        assert_eq!(read.slips.len(), question.slips.len());
    }
}

#[test]
fn every_question_makes_sense() {
    for template in common::all() {
        let mut sides = [0, 0];
        for seed in 0..300 {
            let question = draw(&template, seed).unwrap_or_else(|e| panic!("{}: {e:?}", template.id));
            let solution = solve(&question.rig).unwrap();
            assert!(solution.tips().is_none());
            assert_eq!(question.ask.of(&solution), Some(question.answer));
            let Allowed { least, most } = template.answer;
            assert!((least..=most).contains(&question.answer));
            let tolerance = question.tolerance.around(question.answer);
            assert_eq!(question.slips.len(), template.slips.len());
            for (i, slip) in question.slips.iter().enumerate() {
                assert!((slip.value - question.answer).abs() > 2.0 * tolerance);
                for other in &question.slips[..i] {
                    assert!((slip.value - other.value).abs() > tolerance);
                }
            }
            if let Quantity::LegCompression(side) = question.ask {
                sides[side as usize] += 1;
            }
        }
        if matches!(template.ask, Quantity::LegCompression(_)) {
            assert!(sides.iter().all(|times| *times > 100), "left and right come up: {sides:?}");
        }
    }
}

#[test]
fn a_mirrored_question_has_the_same_answer() {
    // The part asked for goes along with the rig: the leg with the line stays the leg with the line.
    let mut template = common::leg_with_line();
    template.vary.retain(|vary| matches!(vary, outlean_course::Vary::Sides));
    let questions: Vec<Question> = (0..20).map(|seed| draw(&template, seed).unwrap()).collect();
    assert!(questions.iter().any(|q| q.ask != template.ask));
    for question in &questions {
        assert!((question.answer - questions[0].answer).abs() < 1e-9);
    }
}

#[test]
fn an_authors_mistakes_are_named() {
    let template = common::leg_with_line();
    let refused = |template: EstimateTemplate| draw(&template, 1).unwrap_err();
    let moment = EstimateTemplate { ask: Quantity::TippingMoment, ..template.clone() };
    assert_eq!(refused(moment), DrawError::NotAsked(Quantity::TippingMoment));
    let mut hung = template.clone();
    hung.rig.line = Line::hung();
    assert_eq!(refused(hung), DrawError::SlipDoesNotApply(SlipKind::ForgotMainLine));
    let out_of_reach = EstimateTemplate { answer: Allowed { least: 1e5, most: 2e5 }, ..template.clone() };
    assert!(matches!(
        refused(out_of_reach),
        DrawError::NoneFits { last: Unfit::OutOfRange(_), drawn } if drawn > 100
    ));
    for (relative, absolute) in [(0.0, 0.0), (-0.1, 5.0), (0.6, 0.0), (f64::NAN, 1.0), (0.05, f64::INFINITY)]
    {
        let vague = EstimateTemplate { tolerance: Tolerance { relative, absolute }, ..template.clone() };
        assert!(matches!(refused(vague), DrawError::Tolerance(_)), "{relative} {absolute}");
    }
    let mut tips = template.clone();
    tips.rig.guys.clear();
    tips.vary.clear();
    assert!(matches!(refused(tips), DrawError::NoneFits { last: Unfit::Tips(_), .. }));
    let close = EstimateTemplate { tolerance: Tolerance { relative: 0.3, absolute: 0.0 }, ..template };
    assert!(matches!(
        refused(close),
        DrawError::NoneFits { last: Unfit::SlipNearAnswer(..) | Unfit::SlipsCoincide(..), .. }
    ));
}
