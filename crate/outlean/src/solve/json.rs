//! Readings as JSON, in SI units. The keys are in the program's README.

use super::{Solved, verdict};
use outlean_rig::{Check, Clearance, Finding, Governing, Rig, Solution, WorkingRange};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Output<'a> {
    title: Option<&'a str>,
    guy_names: &'a [Option<String>],
    rig: &'a Rig,
    solution: &'a Solution,
    checks: &'a [Check],
    governing: Governing,
    range: &'a WorkingRange,
    balance_leans: &'a [f64],
    findings: &'a [Finding],
    past: &'a [Governing],
    clearance: Option<Clearance>,
    not_assessed: Vec<&'static str>,
}

/// What the JSON of a solved rig holds. A number that is none (an infinite ratio) is null.
pub(super) fn output<'a>(solved: &'a Solved<'_>) -> Output<'a> {
    Output {
        title: solved.file.title.as_deref(),
        guy_names: &solved.file.guy_names,
        rig: &solved.file.rig,
        solution: &solved.solution,
        checks: &solved.checks,
        governing: solved.governing,
        range: &solved.range,
        balance_leans: &solved.balance_leans,
        findings: &solved.findings,
        past: &solved.past,
        clearance: solved.clearance,
        not_assessed: verdict::left_out(solved).collect(),
    }
}
