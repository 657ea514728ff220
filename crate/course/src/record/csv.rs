//! Records as tables for spreadsheets (RFC 4180), from which no cell can run as a formula.

use super::Record;
use crate::Class;
use crate::date::moment;

const COLUMNS: &str =
    "learner,time,lesson,question,objective,lesson_version,seed,response,share,verdict,seconds,hints";

/// The attempts of records as CSV with a head, lines ended by CR LF. What stands aside is not in it.
#[must_use]
pub fn csv<'a>(records: impl IntoIterator<Item = &'a Record>) -> String {
    let mut out = format!("{COLUMNS}\r\n");
    for record in records {
        for attempt in &record.attempts {
            let number = |number: Option<u32>| number.map(|number| number.to_string()).unwrap_or_default();
            let cells = [
                cell(&record.learner.0),
                moment(attempt.time),
                cell(&attempt.lesson),
                cell(&attempt.question),
                cell(&attempt.objective),
                cell(&attempt.lesson_version),
                attempt.seed.to_string(),
                cell(&attempt.response),
                attempt.mark.share.to_string(),
                cell(&attempt.mark.verdict),
                number(attempt.seconds),
                number(attempt.hints),
            ];
            out.push_str(&cells.join(","));
            out.push_str("\r\n");
        }
    }
    out
}

/// A class table as CSV with a head, a line each learner, lines ended by CR LF: the share right of each objective, 0 to 1,
/// empty where nothing was answered. The head of answers whose objective is not known is empty.
#[must_use]
pub fn class_csv(table: &Class) -> String {
    let head = table.objectives.iter().map(|objective| cell(objective));
    let mut out = line("learner".to_owned(), head);
    for row in &table.learners {
        let shares = row.cells.iter().map(|each| each.map(|each| each.share.to_string()).unwrap_or_default());
        out.push_str(&line(cell(&row.learner.0), shares));
    }
    out
}

fn line(first: String, rest: impl Iterator<Item = String>) -> String {
    let mut line = rest.fold(first, |line, cell| line + "," + &cell);
    line.push_str("\r\n");
    line
}

/// A text as a cell. One that a spreadsheet could take for a formula gets an apostrophe before it, which shows what it
/// is (OWASP, "CSV Injection").
#[must_use]
fn cell(text: &str) -> String {
    const RUNS: [char; 8] = ['=', '+', '-', '@', '＝', '＋', '－', '＠'];
    let runs = text.starts_with(['\t', '\r', '\n']) || text.trim_start().starts_with(RUNS);
    let mark = if runs { "'" } else { "" };
    let quoted =
        text.contains([',', '"', '\r', '\n', ';', '\t']) || text.starts_with(' ') || text.ends_with(' ');
    if quoted || !mark.is_empty() {
        format!("\"{mark}{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}
