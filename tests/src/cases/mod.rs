//! Independent cases: rigs solved elsewhere, with general-purpose structural programs, held against the core.
//!
//! A file of cases is JSON with a `convention` in words and a list of `cases`, each with `id`, `inputs` and
//! `outputs`. The convention: x forward, y left, z up, origin midway between level feet; no connection between
//! the feet, which are held down; a redirect at mid-base on its own holdfast; legs without a tip beyond the
//! lashing; one working guy, the aft guy unless it would have to push.

mod computed;
mod elastic;
mod input;
mod report;
mod trouble;

#[cfg(test)]
mod tests;

pub use report::{Failure, Report};
pub use trouble::Trouble;

use serde_json::Value;

/// Tolerance on relative differences.
pub const TOLERANCE: f64 = 1e-8;
/// Arms of the working guy below this share of the slant height magnify rounding: the tolerance is widened in
/// proportion.
pub const SHORT_ARM: f64 = 0.03;

/// Runs every case of a file's text.
///
/// # Errors
///
/// A sentence where the text is not JSON or holds no list of cases. What is wrong with a single case is part
/// of the report.
pub fn run(text: &str) -> Result<Report, String> {
    let file: Value = serde_json::from_str(text).map_err(|error| format!("this is not JSON: {error}"))?;
    let cases = file
        .get("cases")
        .and_then(Value::as_array)
        .ok_or("the file has no list `cases`: a file of cases is an object with `cases: [...]`")?;
    if cases.is_empty() {
        return Err("the list `cases` is empty: nothing was checked".into());
    }
    let mut report = Report::default();
    for (place, case) in cases.iter().enumerate() {
        let id = case.get("id").and_then(Value::as_str).map_or_else(|| format!("#{place}"), str::to_owned);
        run_case(&id, case, &mut report);
    }
    Ok(report)
}

fn run_case(id: &str, case: &Value, report: &mut Report) {
    report.cases += 1;
    let result = input::analysis(case).and_then(|analysis| match analysis {
        input::Analysis::Elastic => {
            report.elastic += 1;
            let set_up = input::read(case)?;
            for note in &set_up.notes {
                report.note(id, note);
            }
            let Some(stretch) = &set_up.stretch else { return Ok(()) };
            elastic::compare(id, &set_up, stretch, case, report)
        }
        input::Analysis::Determinate => {
            let set_up = input::read(case)?;
            for note in &set_up.notes {
                report.note(id, note);
            }
            let solution = outlean_rig::solve(&set_up.rig)
                .map_err(|fault| Trouble::new("inputs", &fault.to_string(), "a rig that the core takes"))?;
            let outputs = case
                .get("outputs")
                .and_then(Value::as_object)
                .ok_or_else(|| Trouble::new("outputs", "nothing", "an object of readings"))?;
            report.determinate += 1;
            computed::Computed::of(&set_up, &solution).compare(id, "", outputs, report)
        }
    });
    if let Err(trouble) = result {
        report.trouble(id, trouble);
    }
}
