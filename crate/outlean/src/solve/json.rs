//! Readings as JSON, in SI units. The keys are in the program's README.

use super::{Solved, verdict};
use crate::words::words;
use outlean_rig::{Check, Clearance, Finding, Governing, Rig, Solution, WorkingRange};
use serde::Serialize;

/// Goes up when a key changes its meaning or goes away.
const VERSION: u32 = 2;

#[derive(Serialize)]
struct Output<'a> {
    version: u32,
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
    caution: String,
}

/// One JSON object and a line end. A number that is none (an infinite ratio) is null.
pub(super) fn json(solved: &Solved) -> String {
    let output = Output {
        version: VERSION,
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
        caution: words().say("caution").to_owned(),
    };
    // Nothing in it can fail: no map with odd keys, no writer.
    serde_json::to_string_pretty(&output).map(|text| text + "\n").unwrap_or_default()
}
