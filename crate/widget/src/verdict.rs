//! The verdict: what follows from the rig, in one sentence.

use crate::name::part_name;
use crate::state::State;
use outlean_picture::{Words, limit_name, tip_key};
use outlean_rig::{
    Check, Dimension, Governing, Interval, Limit, Operation, Part, State as Assessed, Tip, checks,
};
use outlean_rigfile::{percent, show};

/// The sign of a verdict: where the rig stands with its working range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// In it.
    In,
    /// Within 1 % of an end.
    At,
    /// Outside it.
    Out,
    /// Not assessed.
    NotAssessed,
}

impl Sign {
    /// Its name in the page.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::In => "in",
            Self::At => "at",
            Self::Out => "out",
            Self::NotAssessed => "not_assessed",
        }
    }
}

/// A verdict: a sign, what is the case, and why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verdict {
    /// The sign.
    pub sign: Sign,
    /// What is the case.
    pub is: String,
    /// Why.
    pub why: String,
}

/// How near to 1 the governing ratio, or how near to an end the lean (rad), counts as at the end.
const AT_RATIO: f64 = 0.99;
const AT_LEAN: f64 = 0.002;

/// The verdict on a state.
pub fn verdict(state: &State, words: &Words) -> Verdict {
    let said = |sign, is: &str, why: String| Verdict { sign, is: words.say(is).to_owned(), why };
    if state.veiled() {
        return said(Sign::NotAssessed, "verdict.veiled", words.say("verdict.veiled_why").to_owned());
    }
    if let Some(tip) = state.solution().tips() {
        let (is, why) = match tip {
            Tip::Forward => ("verdict.tips_forward", "verdict.tips_forward_why"),
            Tip::Back => ("verdict.tips_back", "verdict.tips_back_why"),
            Tip::Left => ("verdict.tips_left", "verdict.tips_left_why"),
            Tip::Right => ("verdict.tips_right", "verdict.tips_right_why"),
        };
        return said(Sign::Out, is, words.say(why).to_owned());
    }
    let checks = checks(state.rig(), state.solution());
    if !checks.iter().any(|check| matches!(check.state, Assessed::Assessed | Assessed::Assumed)) {
        return said(Sign::NotAssessed, "verdict.unassessed", words.say("verdict.unassessed_why").to_owned());
    }
    let (lean, range, governing) = (state.rig().lean, state.range(), state.governing());
    if let Some(interval) = range.around(lean) {
        let at_end = (lean - interval.from).min(interval.to - lean) < AT_LEAN || governing.ratio > AT_RATIO;
        let (sign, is) = if at_end { (Sign::At, "verdict.at") } else { (Sign::In, "verdict.in") };
        let key = match (governing.limit, at_end) {
            (Limit::Part(_), false) => "verdict.in_why",
            (Limit::Part(_), true) => "verdict.at_why",
            (Limit::ClearReach | Limit::Headroom, _) => "verdict.limit",
            (Limit::Stretch, _) => "verdict.stretch",
            (Limit::ExtraLean, _) => "verdict.extra_lean",
            (Limit::FootSlides(_), _) => "verdict.in_slides",
            _ => "verdict.in_free",
        };
        let why = because(state, words, key, Some(interval), governing);
        return match unknown_guy(&checks) {
            Some(part) => {
                let is = words.fill("verdict.in_but", &[("part", &part_name(state, part, words))]);
                Verdict { sign, is, why }
            }
            None => said(sign, is, why),
        };
    }
    let Some(nearest) = range.intervals.iter().min_by(|a, b| away(a, lean).total_cmp(&away(b, lean))) else {
        let best =
            Governing { ratio: range.best_ratio, limit: range.best_limit, case: state.governing().case };
        let key = match best.limit {
            Limit::Tips(_) => "verdict.none_tips",
            _ if !best.ratio.is_finite() => "verdict.none_rule",
            Limit::Stretch => "verdict.none_stretch",
            Limit::ExtraLean => "verdict.none_extra_lean",
            Limit::FootSlides(_) => "verdict.none_slides",
            _ => "verdict.none_why",
        };
        return said(Sign::Out, "verdict.none", because(state, words, key, None, &best));
    };
    let key = match governing.limit {
        Limit::UprightStop => "verdict.out_stop",
        Limit::Tips(_) => "verdict.out_tips",
        Limit::FootSlides(_) => "verdict.out_slides",
        Limit::NoGeometry => "verdict.out_geometry",
        Limit::ClearReach | Limit::Headroom => "verdict.limit",
        Limit::Stretch if governing.ratio.is_finite() => "verdict.stretch",
        Limit::Stretch => "verdict.limit",
        Limit::ExtraLean => "verdict.extra_lean",
        _ => "verdict.out_why",
    };
    said(Sign::Out, "verdict.out", because(state, words, key, Some(nearest), governing))
}

/// A rope or holdfast of a guy that pulls and whose strength nobody stated: a range without it looks wider than it is.
fn unknown_guy(checks: &[Check]) -> Option<Part> {
    let guy = |part| matches!(part, Part::GuyRope(_) | Part::GuyHoldfast(_));
    let found = checks
        .iter()
        .find(|check| guy(check.part) && check.state == Assessed::NotAssessed && check.demand > 0.0);
    found.map(|check| check.part)
}

fn away(interval: &Interval, lean: f64) -> f64 {
    (interval.from - lean).max(lean - interval.to)
}

fn because(
    state: &State,
    words: &Words,
    key: &str,
    interval: Option<&Interval>,
    governing: &Governing,
) -> String {
    let angle = |lean: f64| show(lean, Dimension::Angle, state.units()).to_string();
    let part = match governing.limit {
        Limit::Part(part) => part_name(state, part, words),
        Limit::Tips(tip) => words.say(tip_key(tip)).to_owned(),
        limit => limit_name(words, state.rig(), &state.solution().layout, limit).unwrap_or_default(),
    };
    // Only said where something else than what the line is doing makes it harder.
    let now =
        checks(state.rig(), state.solution()).iter().filter_map(|check| check.ratio).fold(0.0, f64::max);
    let doing = if governing.case.operation == state.rig().case.operation || governing.ratio < now + 0.01 {
        ""
    } else {
        match governing.case.operation {
            Operation::Raising => words.say("verdict.while_raising"),
            Operation::Lowering => words.say("verdict.while_lowering"),
            Operation::Holding => words.say("verdict.while_holding"),
        }
    };
    let multiple = |times: f64| show(times, Dimension::Ratio, state.units()).to_string();
    let wanted = state.rig().limits.wanted_margin();
    words.fill(
        key,
        &[
            ("from", &interval.map(|i| angle(i.from)).unwrap_or_default()),
            ("to", &interval.map(|i| angle(i.to)).unwrap_or_default()),
            ("lean", &angle(state.range().best_lean)),
            ("part", &part),
            ("percent", &percent(governing.ratio)),
            ("multiple", &multiple(wanted / governing.ratio)),
            ("wanted", &multiple(wanted)),
            ("while", doing),
        ],
    )
}
