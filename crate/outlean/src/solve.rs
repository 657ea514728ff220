//! `outlean solve`: rig files in, readings out, as text to read aloud or as JSON.

mod giving;
mod json;
mod standing;
mod steps;
mod text;

use crate::files::{self, Form};
use outlean_plan::{Verdict, lifts};
use outlean_rig::{
    Check, Clearance, Fault, Finding, Governing, HoldfastPull, Part, Rig, Solution, WorkingRange,
};
use outlean_rigfile::RigFile;
use std::process::ExitCode;

/// A rig and everything the core says of it.
pub(crate) struct Solved<'a> {
    file: &'a RigFile,
    solution: Solution,
    checks: Vec<Check>,
    governing: Governing,
    range: WorkingRange,
    balance_leans: Vec<f64>,
    findings: Vec<Finding>,
    verdict: Verdict,
    holdfasts: Vec<(Part, HoldfastPull)>,
    clearance: Option<Clearance>,
    giving: Option<giving::Giving>,
}

impl<'a> Solved<'a> {
    fn of(file: &'a RigFile) -> Result<Self, Fault> {
        let rig: &Rig = &file.rig;
        let solution = outlean_rig::solve(rig)?;
        let checks = outlean_rig::checks(rig, &solution).to_vec();
        Ok(Self {
            verdict: Verdict::on(rig, &solution, &checks, &lifts(rig, None)?)?,
            governing: outlean_rig::governing(rig, rig.lean)?,
            range: outlean_rig::working_range(rig)?,
            balance_leans: outlean_rig::balance_leans(rig)?.to_vec(),
            findings: outlean_rig::findings(rig)?.to_vec(),
            holdfasts: outlean_rig::holdfast_pulls(rig, &solution).to_vec(),
            clearance: Clearance::least(rig, rig.lean),
            giving: giving::Giving::of(rig)?,
            solution,
            checks,
            file,
        })
    }
}

/// Runs the command and says how it went.
pub fn run(args: &files::RigFiles) -> ExitCode {
    files::each(args, answer)
}

fn answer(file: &RigFile, form: &Form<'_>) -> Result<String, Fault> {
    let solved = Solved::of(file)?;
    Ok(form.said(&json::output(&solved), || text::text(&solved, form.heading, form.units)))
}
