//! `outlean crew`: what hands must pull to haul the load, to raise the frame and to luff it.

use crate::files;
use crate::name;
use crate::words::words;
use outlean_plan::Crew;
use outlean_rig::{Dimension, Field, LineName};
use std::process::ExitCode;

/// What the command is given.
#[derive(clap::Args)]
pub struct Team {
    #[command(flatten)]
    files: files::RigFiles,
    /// What each person is taken to pull, such as "200 N".
    #[arg(long, value_parser = pull)]
    each: f64,
    /// Parts of rope of the simple system of pulleys that the team hauls through; 1 for none.
    #[arg(long, default_value_t = 1, value_parser = clap::value_parser!(u8).range(1..=12))]
    parts: u8,
    /// Efficiency of each of its pulleys.
    #[arg(long, default_value = "80 %", value_parser = efficiency)]
    efficiency: f64,
    /// A lean, from the vertical, to which the loaded frame is to be luffed by its guys, such as "30 deg".
    #[arg(long, value_name = "LEAN", allow_hyphen_values = true, value_parser = |text: &str| files::within(text, Field::Lean))]
    luff_to: Option<f64>,
}

/// Runs the command and says how it went.
pub fn run(team: &Team) -> ExitCode {
    let &Team { each, parts, efficiency, luff_to, .. } = team;
    let team_given = outlean_plan::Team { each: Some(each), parts, efficiency, luff_to };
    files::each(&team.files, |file, form| {
        let crew = Crew::of(&file.rig, &team_given)?;
        let guys = name::guys(file);
        Ok(form.said(&crew, || files::page(form, &crew.said(&name::voice(&guys, form.units)))))
    })
}

/// A pull: a force, and more than none.
fn pull(text: &str) -> Result<f64, String> {
    let pull = files::quantity(text, Dimension::Force)?;
    if pull > 0.0 { Ok(pull) } else { Err(words().fill("argument.pull", &[("written", text)])) }
}

/// An efficiency that a pulley may have.
fn efficiency(text: &str) -> Result<f64, String> {
    let efficiency = files::quantity(text, Dimension::Ratio)?;
    let allowed = Field::PulleyEfficiency(LineName::Main).allowed();
    if (allowed.least..=allowed.most).contains(&efficiency) {
        return Ok(efficiency);
    }
    Err(words().fill("argument.efficiency", &[("written", text)]))
}
