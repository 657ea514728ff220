//! `outlean materials`: what must be carried to the site to build a rig.

use crate::files::{self, Form};
use crate::name;
use outlean_plan::materials_said;
use outlean_rig::{Fault, Materials, materials};
use outlean_rigfile::RigFile;
use serde::Serialize;
use std::process::ExitCode;

#[derive(Serialize)]
struct Output {
    materials: Materials,
}

/// Runs the command and says how it went.
pub fn run(args: &files::RigFiles) -> ExitCode {
    files::each(args, answer)
}

fn answer(file: &RigFile, form: &Form<'_>) -> Result<String, Fault> {
    let output = Output { materials: materials(&file.rig)? };
    let guys = name::guys(file);
    let voice = name::voice(&guys, form.units);
    let said = || files::page(form, &materials_said(&file.rig, &output.materials, file.job.lowered, &voice));
    Ok(form.said(&output, said))
}
