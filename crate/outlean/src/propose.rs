//! `outlean propose`: the smallest changes that bring a rig inside its limits.

use crate::files::{self, Form};
use crate::name;
use crate::words::words;
use outlean_rig::{Change, Fault, Governing, Lever, Proposal, Rig, governing, proposals};
use outlean_rigfile::{RigFile, percent, show};
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
    let mut lines = Vec::new();
    let governs = |governing: &Governing| {
        let limit = name::limit_in_case(governing.limit, governing.case, rig, guys);
        let ratio = percent(governing.ratio);
        let key = if governing.ratio.is_finite() { "propose.at" } else { "propose.limit" };
        words().fill(key, &[("limit", &limit), ("ratio", &ratio)])
    };
    let key = match (output.governing.holds(), output.proposals.is_empty()) {
        (true, _) => "propose.inside",
        (false, true) => "propose.none",
        (false, false) => "propose.outside",
    };
    lines.push(words().fill(key, &[("governs", &governs(&output.governing))]));
    for proposal in &output.proposals {
        let changes: Vec<_> = proposal.changes.iter().map(|change| said(*change, guys, form)).collect();
        let changes = changes.join(words().say("propose.and"));
        let line = words()
            .fill("propose.then", &[("changes", &changes), ("governs", &governs(&proposal.governing))]);
        lines.push("  ".to_owned() + &line);
    }
    files::page(form, &lines)
}

fn said(change: Change, guys: &[String], form: &Form<'_>) -> String {
    let guy = |number: u8| name::guy(number, guys).to_owned();
    match change {
        Change::Set { lever, from, to } => {
            let shown = |value: f64| show(value, lever.dimension(), form.units).to_string();
            let (key, guy) = match lever {
                Lever::Lean => ("change.lean", String::new()),
                Lever::Setback(number) => ("change.setback", guy(number)),
                Lever::Spread => ("change.spread", String::new()),
                Lever::HaulDirection => ("change.haul_direction", String::new()),
                Lever::Mass => ("change.mass", String::new()),
                other => return format!("{other:?}"),
            };
            words().fill(key, &[("guy", &guy), ("from", &shown(from)), ("to", &shown(to))])
        }
        Change::DoubleGuy(number) => words().fill("change.double_guy", &[("guy", &guy(number))]),
        Change::RedirectMidBase => words().say("change.redirect_mid_base").to_owned(),
        Change::PinFeet => words().say("change.pin_feet").to_owned(),
        Change::HoldFeetDown => words().say("change.hold_feet_down").to_owned(),
        other => format!("{other:?}"),
    }
}
