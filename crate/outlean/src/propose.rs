//! `outlean propose`: the smallest changes that bring a rig inside its limits.

use crate::files::{self, Form};
use crate::name;
use outlean_plan::{governing_said, proposal_said};
use outlean_rig::{Fault, Governing, Proposal, Rig, governing, proposals};
use outlean_rigfile::RigFile;
use serde::Serialize;
use std::process::ExitCode;

#[derive(Serialize)]
struct Output {
    governing: Governing,
    proposals: Vec<Proposal>,
}

/// Runs the command and says how it went.
pub fn run(args: &files::RigFiles) -> ExitCode {
    files::each(args, answer)
}

fn answer(file: &RigFile, form: &Form<'_>) -> Result<String, Fault> {
    let rig = &file.rig;
    let output = Output { governing: governing(rig, rig.lean)?, proposals: proposals(rig) };
    let guys = name::guys(file);
    Ok(form.said(&output, || text(&output, rig, &guys, form)))
}

fn text(output: &Output, rig: &Rig, guys: &[String], form: &Form<'_>) -> String {
    let voice = name::voice(guys, form.units);
    let key = match (output.governing.holds(), output.proposals.is_empty()) {
        (true, _) => "propose.inside",
        (false, true) => "propose.none",
        (false, false) => "propose.outside",
    };
    let governs = governing_said(&output.governing, rig, &voice);
    let mut lines = vec![voice.fill(key, &[("governs", &governs)])];
    let proposals = output.proposals.iter();
    lines.extend(proposals.map(|proposal| "  ".to_owned() + &proposal_said(proposal, rig, &voice)));
    files::page(form, &lines)
}
