//! `outlean reach`: the lean that a wanted clear reach asks for, and what that costs.

use crate::files::{self, Form};
use crate::name;
use crate::words::words;
use outlean_plan::Voice;
use outlean_rig::{Dimension, Reaching, Rig};
use outlean_rigfile::percent;
use serde::Serialize;
use std::process::ExitCode;

/// What the command is given.
#[derive(clap::Args)]
pub struct Wanted {
    #[command(flatten)]
    files: files::RigFiles,
    /// The clear reach wanted in front of the edge, such as "60 cm".
    #[arg(long, allow_hyphen_values = true, value_parser = |text: &str| files::quantity(text, Dimension::Length))]
    clear: f64,
}

#[derive(Serialize)]
struct Output {
    clear: f64,
    reaching: Option<Reaching>,
}

/// Runs the command and says how it went.
pub fn run(wanted: &Wanted) -> ExitCode {
    files::each(&wanted.files, |file, form| {
        let output = Output { clear: wanted.clear, reaching: Reaching::of(&file.rig, wanted.clear)? };
        let guys = name::guys(file);
        Ok(form.said(&output, || text(&output, &file.rig, &name::voice(&guys, form.units), form)))
    })
}

fn text(output: &Output, rig: &Rig, voice: &Voice<'_>, form: &Form<'_>) -> String {
    let clear = voice.length(output.clear);
    let Some(Reaching { lean, governing, setback }) = &output.reaching else {
        let key = if rig.edge.is_none() { "reach.no_edge" } else { "reach.nowhere" };
        return files::page(form, &[words().fill(key, &[("clear", &clear)])]);
    };
    let lean = voice.angle(*lean);
    let mut lines = vec![words().fill("reach.lean", &[("clear", &clear), ("lean", &lean)])];
    let limit = voice.limit_in_case(governing.limit, governing.case, rig);
    let key = match (governing.holds(), governing.ratio.is_finite()) {
        (true, _) => "reach.inside",
        (false, true) => "reach.outside",
        (false, false) => "reach.does_not_stand",
    };
    lines.push(words().fill(key, &[("limit", &limit), ("ratio", &percent(governing.ratio))]));
    if !governing.holds() {
        lines.push(match setback {
            Some((guy, setback)) => {
                let setback = voice.length(*setback);
                words().fill("reach.setback", &[("guy", voice.guy(*guy)), ("setback", &setback)])
            }
            None => words().say("reach.no_setback").to_owned(),
        });
    }
    files::page(form, &lines)
}
