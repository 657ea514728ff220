//! `outlean solve`: a rig file in, readings out, as text to read aloud or as JSON.

mod json;
mod name;
mod text;
mod verdict;

use crate::diagnostics;
use crate::words::words;
use clap::ValueEnum;
use outlean_rig::{Check, Clearance, Fault, Finding, Governing, Rig, Solution, WorkingRange};
use outlean_rigfile::{RigFile, Units};
use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

/// The rig was solved; that it tips is a result too.
const SOLVED: u8 = 0;
/// The file has problems, all of them told.
const PROBLEMS: u8 = 1;
/// The file cannot be read, or the command was not understood (clap's own code as well).
const NO_INPUT: u8 = 2;

/// What `outlean solve` is given.
#[derive(clap::Args)]
#[command(after_help = "Exit codes:
  0  solved; that the frame tips is a result too
  1  the file has errors, all of them told on standard error
  2  the command was not understood, or the file cannot be read")]
pub struct Args {
    /// The rig file.
    #[arg(value_name = "RIG.toml")]
    file: PathBuf,
    /// Print JSON in SI units instead of text; its keys are in the program's README.
    #[arg(long)]
    json: bool,
    /// Units of the text.
    #[arg(long, value_enum, default_value_t = UnitChoice::Metric)]
    units: UnitChoice,
}

#[derive(Clone, Copy, ValueEnum)]
enum UnitChoice {
    /// kN, m, kg.
    Metric,
    /// lbf, feet and inches, lb.
    Us,
}

/// A rig and everything the core says of it.
pub(crate) struct Solved {
    file: RigFile,
    solution: Solution,
    checks: Vec<Check>,
    governing: Governing,
    range: WorkingRange,
    balance_leans: Vec<f64>,
    findings: Vec<Finding>,
    past: Vec<Governing>,
    clearance: Option<Clearance>,
}

impl Solved {
    fn of(file: RigFile) -> Result<Self, Fault> {
        let rig: &Rig = &file.rig;
        let solution = outlean_rig::solve(rig)?;
        Ok(Self {
            checks: outlean_rig::checks(rig, &solution).to_vec(),
            governing: outlean_rig::governing(rig, rig.lean)?,
            range: outlean_rig::working_range(rig)?,
            balance_leans: outlean_rig::balance_leans(rig)?.to_vec(),
            findings: outlean_rig::findings(rig)?.to_vec(),
            past: verdict::past(rig)?,
            clearance: rig.edge.as_ref().map(|edge| Clearance::of(edge, rig, &solution)),
            solution,
            file,
        })
    }
}

/// Runs the command and says how it went.
pub fn run(args: &Args) -> ExitCode {
    let path = args.file.display().to_string();
    let source = match std::fs::read_to_string(&args.file) {
        Ok(source) => source,
        Err(why) => {
            eprintln!("{}", words().fill("solve.cannot_read", &[("file", &path), ("why", &why.to_string())]));
            return NO_INPUT.into();
        }
    };
    let (file, problems) = outlean_rigfile::read(&source);
    eprint!("{}", diagnostics::problems(&path, &source, &problems));
    let Some(file) = file else {
        let count = problems.iter().filter(|p| p.severity == outlean_rigfile::Severity::Error).count();
        let key = if count == 1 { "solve.one_error" } else { "solve.errors" };
        eprintln!("{}", words().fill(key, &[("file", &path), ("count", &count.to_string())]));
        return PROBLEMS.into();
    };
    let solved = match Solved::of(file) {
        Ok(solved) => solved,
        Err(fault) => {
            // The reader has solved the rig once already; this is for what only other leans bring out.
            eprintln!("{}", words().fill("solve.fault", &[("file", &path), ("fault", &fault.to_string())]));
            return PROBLEMS.into();
        }
    };
    let units = match args.units {
        UnitChoice::Metric => Units::Metric,
        UnitChoice::Us => Units::Us,
    };
    let said = if args.json { json::json(&solved) } else { text::text(&solved, &path, units) };
    // Whoever closes the pipe early has read enough.
    let _ = std::io::stdout().write_all(said.as_bytes());
    SOLVED.into()
}
