//! Rig files given on the command line: one, many, or a folder of them, answered across all cores.

use crate::bounded;
use crate::diagnostics;
use crate::fault;
use crate::out;
use crate::words::words;
use clap::ValueEnum;
use outlean_rig::{Dimension, Fault, Field};
use outlean_rigfile::{RigFile, Severity, Units, parse, parse_answer, percent, show};
use rayon::prelude::*;
use serde::Serialize;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Goes up when a key of any JSON that is printed changes its meaning or goes away.
const VERSION: u32 = 2;

/// All files were answered; that a frame tips is an answer too.
const ANSWERED: u8 = 0;
/// A file has problems, all of them told.
const PROBLEMS: u8 = 1;
/// A file cannot be read, or the command was not understood (clap's own code as well).
const NO_INPUT: u8 = 2;

/// So many files are answered before they are printed.
const AT_ONCE: usize = 64;

/// What every command on rig files is given.
#[derive(clap::Args)]
#[command(after_help = "Exit codes:
  0  every file answered; that a frame tips is a result too
  1  a file has errors, all of them told on standard error
  2  the command was not understood, or a file cannot be read")]
pub struct RigFiles {
    /// Rig files, or folders of them.
    #[arg(value_name = "RIG.toml", required = true)]
    files: Vec<PathBuf>,
    /// Print JSON in SI units instead of text, of several files one object to a line; its keys are in PROGRAM.md
    /// beside it, `crate/outlean/README.md` of the source.
    #[arg(long)]
    json: bool,
    /// Units of the text.
    #[arg(long, value_enum, default_value_t = UnitChoice::Metric)]
    units: UnitChoice,
}

impl RigFiles {
    /// The files and folders, as given.
    pub fn files(&self) -> &[PathBuf] {
        &self.files
    }

    /// Units of the text.
    pub fn units(&self) -> Units {
        self.units.into()
    }
}

#[derive(Clone, Copy, ValueEnum)]
pub enum UnitChoice {
    /// kN, m, kg.
    Metric,
    /// lbf, feet and inches, lb.
    Us,
}

impl From<UnitChoice> for Units {
    fn from(choice: UnitChoice) -> Self {
        match choice {
            UnitChoice::Metric => Self::Metric,
            UnitChoice::Us => Self::Us,
        }
    }
}

/// How one file is to be answered.
pub struct Form<'a> {
    /// What it is called: its title, else its path.
    pub heading: &'a str,
    path: &'a str,
    title: Option<&'a str>,
    /// Units of text.
    pub units: Units,
    json: Option<Json>,
}

#[derive(Clone, Copy)]
enum Json {
    Pretty,
    Line,
}

impl Form<'_> {
    /// The answer as JSON or, where text is asked for, as `text` gives it.
    pub fn said<T: Serialize>(&self, answer: &T, text: impl FnOnce() -> String) -> String {
        #[derive(Serialize)]
        struct Whole<'a, T> {
            version: u32,
            file: &'a str,
            title: Option<&'a str>,
            #[serde(flatten)]
            answer: &'a T,
            caution: &'a str,
        }
        let Some(json) = self.json else { return text() };
        let whole = Whole {
            version: VERSION,
            file: self.path,
            title: self.title,
            answer,
            caution: words().say("caution"),
        };
        // Nothing in it can fail: no map with odd keys, no writer.
        let text = match json {
            Json::Pretty => serde_json::to_string_pretty(&whole),
            Json::Line => serde_json::to_string(&whole),
        };
        text.map(|text| text + "\n").unwrap_or_default()
    }
}

/// Lines of text under the heading of a file, the caution below them.
pub fn page(form: &Form<'_>, lines: &[String]) -> String {
    format!("{}\n\n{}\n\n{}\n", form.heading, lines.join("\n"), words().say("caution"))
}

/// A quantity on the command line, in its SI unit; of no use where it is not one of that kind, with what to write.
pub fn quantity(text: &str, wanted: Dimension) -> Result<f64, String> {
    parse(text, wanted).map_err(|_| words().fill("argument.quantity", &[("written", text)]))
}

/// The same of what `field` may be; beyond that of no use, with what is allowed, in units like those written.
pub fn within(text: &str, field: Field) -> Result<f64, String> {
    let dimension = field.dimension();
    let value = quantity(text, dimension)?;
    let allowed = field.allowed();
    if (allowed.least..=allowed.most).contains(&value) {
        return Ok(value);
    }
    let unit = parse_answer(text, dimension).ok().and_then(|written| written.unit);
    let of_us = unit.is_some_and(|unit| ["ft", "in", "yd", "lb", "lbf", "kip"].contains(&unit.symbol));
    let shown = |value: f64| match dimension {
        Dimension::Ratio => percent(value),
        _ => show(value, dimension, if of_us { Units::Us } else { Units::Metric }).to_string(),
    };
    let places = [("written", text), ("least", &shown(allowed.least)), ("most", &shown(allowed.most))];
    Err(words().fill("argument.range", &places))
}

/// What is to be printed of one file.
#[derive(Default)]
struct Told {
    out: String,
    errors: String,
    code: u8,
}

/// Answers every file as `answer` says, prints the answers in their order, and says how it went.
pub fn each(
    args: &RigFiles,
    answer: impl Fn(&RigFile, &Form<'_>) -> Result<String, Fault> + Sync,
) -> ExitCode {
    let mut code = ANSWERED;
    let files: Vec<PathBuf> = args
        .files
        .iter()
        .flat_map(|path| {
            let found = inside(path).map_err(|why| cannot_read(path, &why)).and_then(|files| {
                let none = || words().fill("solve.no_files", &[("folder", &path.display().to_string())]);
                if files.is_empty() { Err(none()) } else { Ok(files) }
            });
            found.unwrap_or_else(|why| {
                out::tell(&(why + "\n"));
                code = NO_INPUT;
                Vec::new()
            })
        })
        .collect();
    let json = args.json.then_some(if files.len() > 1 { Json::Line } else { Json::Pretty });
    let units = args.units.into();
    let apart = files.len() > 1 && json.is_none();
    // Some at a time, so that what is answered is soon read.
    for (place, some) in files.chunks(AT_ONCE).enumerate() {
        let told: Vec<Told> = some.par_iter().map(|path| one(path, units, json, &answer)).collect();
        for (number, one) in told.iter().enumerate() {
            let before = if apart && place + number > 0 { "\n" } else { "" };
            if let Err(why) = out::put(&mut std::io::stdout().lock(), &format!("{before}{}", one.out)) {
                return out::unprinted(&why);
            }
            out::tell(&one.errors);
            code = code.max(one.code);
        }
    }
    code.into()
}

fn one(
    path: &Path,
    units: Units,
    json: Option<Json>,
    answer: &impl Fn(&RigFile, &Form<'_>) -> Result<String, Fault>,
) -> Told {
    let (file, mut errors) = match read(path) {
        Ok(read) => read,
        Err(Unread { errors, code }) => return Told { errors, code, ..Told::default() },
    };
    let path = path.display().to_string();
    let title = file.title.as_deref();
    let form = Form { heading: title.unwrap_or(&path), path: &path, title, units, json };
    match answer(&file, &form) {
        Ok(out) => Told { out, errors, code: ANSWERED },
        Err(fault) => {
            errors += &unsolved(&path, &fault, units);
            Told { errors, code: PROBLEMS, ..Told::default() }
        }
    }
}

/// Says why a rig that was read cannot be solved. Reading has solved it once already; this is for what only other
/// leans bring out.
pub fn unsolved(path: &str, fault: &Fault, units: Units) -> String {
    words().fill("solve.fault", &[("file", path), ("fault", &fault::said(fault, units))]) + "\n"
}

/// Why a file is no rig: what to say, and the exit code.
pub struct Unread {
    pub errors: String,
    pub code: u8,
}

/// The rig in a file, and what there is to say of it all the same.
pub fn read(path: &Path) -> Result<(RigFile, String), Unread> {
    let source = bounded::text(path, outlean_rigfile::MOST_BYTES)
        .map_err(|why| Unread { errors: cannot_read(path, &why) + "\n", code: NO_INPUT })?;
    let path = path.display().to_string();
    let (file, problems) = outlean_rigfile::read(&source);
    let mut errors = diagnostics::problems(&path, &source, &problems);
    let Some(file) = file else {
        let count = problems.iter().filter(|problem| problem.severity == Severity::Error).count();
        let key = if count == 1 { "solve.one_error" } else { "solve.errors" };
        errors += &words().fill(key, &[("file", &path), ("count", &count.to_string())]);
        errors.push('\n');
        return Err(Unread { errors, code: PROBLEMS });
    };
    Ok((file, errors))
}

pub fn cannot_read(path: &Path, why: &std::io::Error) -> String {
    words().fill("solve.cannot_read", &[("file", &path.display().to_string()), ("why", &why.to_string())])
}

/// The rig files in a folder, by name, or the file itself.
fn inside(path: &Path) -> std::io::Result<Vec<PathBuf>> {
    if !path.is_dir() {
        return Ok(vec![path.to_owned()]);
    }
    let mut files = Vec::new();
    for entry in std::fs::read_dir(path)? {
        let file = entry?.path();
        if file.extension().is_some_and(|ending| ending == "toml") && file.is_file() {
            files.push(file);
        }
    }
    files.sort();
    Ok(files)
}
