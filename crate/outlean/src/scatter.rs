//! `outlean scatter`: what rigs come to when tape, angles, load and ground are not quite as entered.

use crate::files::{self, Form};
use crate::name;
use crate::words::words;
use outlean_rig::{Band, Dimension, Field, Scatter, Uncertainty, uncertainty};
use outlean_rigfile::{percent, show};
use serde::Serialize;
use std::process::ExitCode;

/// What the command is given.
#[derive(clap::Args)]
pub struct Off {
    #[command(flatten)]
    files: files::RigFiles,
    /// How far every length may be off, either way, such as "5 cm".
    #[arg(long, default_value = "5 cm", value_parser = |text: &str| files::within(text, Field::LengthScatter))]
    length: f64,
    /// How far every angle may be off, such as "2 deg".
    #[arg(long, default_value = "2 deg", value_parser = |text: &str| files::within(text, Field::AngleScatter))]
    angle: f64,
    /// How far the load may be off, such as "10 %".
    #[arg(long, default_value = "10 %", value_parser = |text: &str| files::within(text, Field::LoadScatter))]
    load: f64,
    /// How far the strength of holdfasts and the friction of the ground may be off, such as "30 %".
    #[arg(long, default_value = "30 %", value_parser = |text: &str| files::within(text, Field::SoilScatter))]
    soil: f64,
    /// How many draws are made.
    #[arg(long, default_value_t = 10_000, value_parser = clap::value_parser!(u32).range(1..))]
    draws: u32,
    /// The seed of the draws: the same seed gives the same draws.
    #[arg(long, default_value_t = 1)]
    seed: u64,
}

#[derive(Serialize)]
struct Output {
    scatter: Scatter,
    seed: u64,
    uncertainty: Uncertainty,
}

/// Runs the command and says how it went.
pub fn run(args: &Off) -> ExitCode {
    let scatter = Scatter { length: args.length, angle: args.angle, load: args.load, soil: args.soil };
    files::each(&args.files, |file, form| {
        let uncertainty = uncertainty(&file.rig, &scatter, args.seed, args.draws)?;
        let output = Output { scatter, seed: args.seed, uncertainty };
        let guys = name::guys(file);
        Ok(form.said(&output, || text(&output, &guys, form)))
    })
}

fn text(output: &Output, guys: &[String], form: &Form<'_>) -> String {
    let found = &output.uncertainty;
    let force = |value: f64| show(value, Dimension::Force, form.units).to_string();
    let band = |part: &str, band: Option<Band>| {
        let Band { low, middle, high } = band?;
        let places =
            [("part", part), ("low", &force(low)), ("middle", &force(middle)), ("high", &force(high))];
        Some(format!("  {}", words().fill("scatter.band", &places)))
    };
    let solved = found.draws - found.impossible;
    if solved == 0 {
        // Nothing can be said of how many are past a limit.
        return files::page(form, &[words().fill("scatter.none", &[("draws", &found.draws.to_string())])]);
    }
    let share = |count: u32| percent(f64::from(count) / f64::from(solved));
    let mut lines = vec![words().fill("scatter.draws", &[("draws", &solved.to_string())])];
    lines.extend(band(words().say("part.leg.left"), found.compression.left));
    lines.extend(band(words().say("part.leg.right"), found.compression.right));
    lines.extend(guys.iter().zip(&found.guys).filter_map(|(guy, there)| band(guy, *there)));
    lines.push(
        words().fill("scatter.past", &[("past", &share(found.past)), ("tipping", &share(found.tipping))]),
    );
    if found.impossible > 0 {
        lines.push(words().fill("scatter.impossible", &[("count", &found.impossible.to_string())]));
    }
    files::page(form, &lines)
}
