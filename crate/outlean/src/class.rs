//! `outlean class`: many learners' records as one table by objective.

use crate::bounded;
use crate::files;
use crate::out;
use crate::words::words;
use outlean_course::{Class, DAY, Gathered, RECORD_BYTES, Reason, class_csv, date, read_record};
use serde::Serialize;
use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What the command is given.
#[derive(clap::Args)]
#[command(after_help = "Exit codes:
  0  every file read whole
  1  a file, or part of one, is damaged and set aside: named on standard error; the table holds all the rest
  2  the command was not understood, or a file cannot be read")]
pub struct Records {
    /// Records as learners export them, JSON.
    #[arg(value_name = "RECORD.json", required = true)]
    files: Vec<PathBuf>,
    /// Print the table as JSON.
    #[arg(long, conflicts_with = "csv")]
    json: bool,
    /// Print every attempt as CSV.
    #[arg(long)]
    csv: bool,
    /// Print the table as CSV: a line each learner, the share right of each objective.
    #[arg(long, conflicts_with_all = ["csv", "json"])]
    table: bool,
}

/// Runs the command and says how it went.
pub fn run(args: &Records) -> ExitCode {
    let mut code = 0_u8;
    let mut known = Gathered::default();
    for path in &args.files {
        match bounded::read(path, RECORD_BYTES) {
            Ok(bytes) => match read_record(&String::from_utf8_lossy(&bytes)) {
                Ok(record) => {
                    let (key, told) = match known.add(record) {
                        Ok(aside) => ("class.attempt", aside),
                        Err(why) => ("class.file", vec![why]),
                    };
                    for why in told {
                        code = code.max(1);
                        out::tell(&said(key, path, &why));
                    }
                }
                Err(why) => {
                    code = code.max(1);
                    out::tell(&said("class.file", path, &why.0));
                }
            },
            Err(why) => {
                code = 2;
                out::tell(&(files::cannot_read(path, &why) + "\n"));
            }
        }
    }
    let answer = match (args.csv, args.table, args.json) {
        (true, ..) => outlean_course::csv(known.records()),
        (_, true, _) => class_csv(&known.table()),
        (_, _, true) => json(&known.table()),
        _ => text(&known.table()),
    };
    out::print(&answer, code.into())
}

fn said(key: &str, path: &Path, why: &Reason) -> String {
    let most = why.allowed.most().unwrap_or_default().to_string();
    let allowed = words().fill(&format!("record.allowed.{}", why.allowed.name()), &[("most", &most)]);
    let value = if why.value.is_empty() { words().say("record.missing") } else { &why.value };
    let file = path.display().to_string();
    words().fill(key, &[("file", &file), ("field", &why.field), ("value", value), ("allowed", &allowed)])
        + "\n"
}

fn json(table: &Class) -> String {
    #[derive(Serialize)]
    struct Whole<'a> {
        version: u32,
        #[serde(flatten)]
        table: &'a Class,
    }
    // Nothing in it can fail: no map with odd keys, no writer.
    serde_json::to_string_pretty(&Whole { version: 1, table }).map(|text| text + "\n").unwrap_or_default()
}

fn text(table: &Class) -> String {
    let mut out = String::new();
    for row in &table.learners {
        let _ = writeln!(out, "{}", row.learner.0);
        for (objective, cell) in table.objectives.iter().zip(&row.cells) {
            let name = if objective.is_empty() { words().say("class.no_objective") } else { objective };
            let line = match cell {
                Some(cell) => words().fill(
                    if cell.attempts == 1 { "class.one" } else { "class.cell" },
                    &[
                        ("objective", name),
                        ("attempts", &cell.attempts.to_string()),
                        ("share", &format!("{} %", cell.percent())),
                        ("last", &date(cell.last / DAY)),
                    ],
                ),
                None => words().fill("class.none", &[("objective", name)]),
            };
            let _ = writeln!(out, "  {line}");
        }
    }
    let _ = writeln!(out, "\n{}", words().say("class.practical"));
    out
}
