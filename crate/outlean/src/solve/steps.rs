//! A check with the rule that it stands on and its steps.

use crate::cited::Cited;
use crate::words::words;
use outlean_rig::strength::{CheckRule, Value, Worked};
use outlean_rig::{Rig, Slide, Solution, StretchChecked, slide_worked};
use outlean_rigfile::key_of_variant;
use serde::Serialize;

/// A check, the source of its rule, its inputs and intermediate values.
#[derive(Serialize)]
pub(super) struct Explained<T> {
    #[serde(flatten)]
    pub check: T,
    rule_cited: Cited,
    worked: Vec<Step>,
}

/// A value on the way to a check.
#[derive(Serialize)]
pub(super) struct Step {
    #[serde(flatten)]
    value: Value,
    written: &'static str,
}

impl Explained<StretchChecked> {
    pub(super) fn stretch(check: StretchChecked) -> Self {
        let worked = steps(check.worked.clone());
        Self { rule_cited: Cited::of(check.rule.source()), check, worked }
    }
}

impl Explained<Slide> {
    pub(super) fn slide(check: Slide, rig: &Rig, solution: &Solution) -> Self {
        let worked = steps(slide_worked(rig, solution, check.side));
        Self { rule_cited: Cited::of(check.rule.source()), check, worked }
    }
}

pub(super) fn steps(worked: Worked) -> Vec<Step> {
    worked.into_iter().map(|value| Step { written: value.symbol.written(), value }).collect()
}

/// By which rule, and where that comes from.
pub(super) fn by_rule(rule: CheckRule) -> String {
    let said = words().say(&format!("check_rule.{}", key_of_variant(&rule))).to_owned();
    words().fill("parts.rule", &[("rule", &said), ("source", &Cited::said(rule.source()))])
}
