//! Readings as JSON, in SI units. The keys are in the program's README.

use super::Solved;
use super::giving::Giving;
use super::steps::{Explained, Step, steps};
use crate::cited::Cited;
use outlean_rig::{
    Check, Clearance, Finding, Governing, HoldfastPull, Part, Rig, Side, Slide, Solution, WorkingRange,
    slide, worked,
};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Output<'a> {
    guy_names: &'a [Option<String>],
    rig: &'a Rig,
    solution: &'a Solution,
    checks: Vec<CheckOutput<'a>>,
    slides: Vec<Explained<Slide>>,
    governing: Governing,
    range: &'a WorkingRange,
    balance_leans: &'a [f64],
    findings: Vec<FindingOutput<'a>>,
    past: &'a [Governing],
    holdfasts: Vec<HoldfastOutput>,
    clearance: Option<Clearance>,
    stretch: Option<&'a Giving>,
    not_assessed: Vec<&'static str>,
}

/// A check with its sources and its steps.
#[derive(Serialize)]
struct CheckOutput<'a> {
    #[serde(flatten)]
    check: &'a Check,
    rule_cited: Option<Cited>,
    source_cited: Option<Cited>,
    worked: Vec<Step>,
}

impl<'a> CheckOutput<'a> {
    fn of(solved: &Solved<'_>, check: &'a Check) -> Self {
        Self {
            check,
            rule_cited: check.rule.map(|rule| Cited::of(rule.source())),
            source_cited: check.source.map(Cited::of),
            worked: steps(worked(&solved.file.rig, &solved.solution, check.part)),
        }
    }
}

/// What pulls on a holdfast.
#[derive(Serialize)]
struct HoldfastOutput {
    part: Part,
    #[serde(flatten)]
    pull: HoldfastPull,
}

/// A finding with its source.
#[derive(Serialize)]
struct FindingOutput<'a> {
    #[serde(flatten)]
    finding: &'a Finding,
    cited: Cited,
    at_most: bool,
}

impl<'a> FindingOutput<'a> {
    fn of(finding: &'a Finding) -> Self {
        Self { finding, cited: Cited::of(finding.source), at_most: finding.rule.at_most() }
    }
}

/// What the JSON of a solved rig holds. A number that is none (an infinite ratio) is null.
pub(super) fn output<'a>(solved: &'a Solved<'_>) -> Output<'a> {
    Output {
        guy_names: &solved.file.guy_names,
        rig: &solved.file.rig,
        solution: &solved.solution,
        checks: solved.checks.iter().map(|check| CheckOutput::of(solved, check)).collect(),
        slides: Side::BOTH
            .into_iter()
            .filter_map(|side| slide(&solved.file.rig, &solved.solution, side))
            .map(|found| Explained::slide(found, &solved.file.rig, &solved.solution))
            .collect(),
        governing: solved.governing,
        range: &solved.range,
        balance_leans: &solved.balance_leans,
        findings: solved.findings.iter().map(FindingOutput::of).collect(),
        past: &solved.verdict.past,
        holdfasts: solved.holdfasts.iter().map(|&(part, pull)| HoldfastOutput { part, pull }).collect(),
        clearance: solved.clearance,
        stretch: solved.giving.as_ref(),
        not_assessed: solved
            .verdict
            .not_assessed
            .iter()
            .filter(|gap| gap.of_the_model())
            .filter_map(|gap| gap.name())
            .collect(),
    }
}
