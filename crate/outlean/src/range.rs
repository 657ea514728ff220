//! `outlean range`: at which leans all that is assessed holds, and each limit by itself.

use crate::files::{self, Form};
use crate::name;
use crate::words::words;
use outlean_plan::Voice;
use outlean_rig::{
    FARTHEST_BACK, FARTHEST_OUT, Fault, Limit, Rig, WorkingRange, limits_at, range_within, working_range,
};
use outlean_rigfile::RigFile;
use serde::Serialize;
use std::process::ExitCode;

#[derive(Serialize)]
struct Output {
    range: WorkingRange,
    limits: Vec<Alone>,
    balance_leans: Vec<f64>,
    main_lost_is_assessed: bool,
}

/// A limit and the leans at which it alone is not passed.
#[derive(Serialize)]
struct Alone {
    limit: Limit,
    range: WorkingRange,
}

/// Runs the command and says how it went.
pub fn run(args: &files::RigFiles) -> ExitCode {
    files::each(args, answer)
}

fn answer(file: &RigFile, form: &Form<'_>) -> Result<String, Fault> {
    let rig = &file.rig;
    let mut limits = Vec::new();
    for limit in limits_of(rig) {
        limits.push(Alone { limit, range: range_within(rig, limit)? });
    }
    let output = Output {
        range: working_range(rig)?,
        limits,
        balance_leans: outlean_rig::balance_leans(rig)?.to_vec(),
        main_lost_is_assessed: rig.main_lost_is_assessed(),
    };
    let guys = name::guys(file);
    Ok(form.said(&output, || text(&output, rig, &name::voice(&guys, form.units), form)))
}

/// Every limit that the rig meets at some lean, in the order in which they are met from the one farthest back.
fn limits_of(rig: &Rig) -> Vec<Limit> {
    let mut all = Vec::new();
    for step in 0..=22 {
        let lean = FARTHEST_BACK + (FARTHEST_OUT - FARTHEST_BACK) * f64::from(step) / 22.0;
        for met in limits_at(rig, lean).into_iter().flatten() {
            if !all.contains(&met.limit) {
                all.push(met.limit);
            }
        }
    }
    all
}

fn text(output: &Output, rig: &Rig, voice: &Voice<'_>, form: &Form<'_>) -> String {
    let angle = |lean: f64| voice.angle(lean);
    let leans = |range: &WorkingRange| {
        let stretches = range.intervals.iter().map(|interval| {
            let (from, to) = (angle(interval.from), angle(interval.to));
            words().fill("range.interval", &[("from", &from), ("to", &to)])
        });
        let stretches: Vec<_> = stretches.collect();
        if stretches.is_empty() { words().say("range.nowhere").to_owned() } else { stretches.join(", ") }
    };
    let mut lines = Vec::new();
    let heading = if rig.cases().len() > 1 { "heading.range_cases" } else { "heading.range" };
    lines.push(
        words().fill("range.whole", &[("heading", words().say(heading)), ("leans", &leans(&output.range))]),
    );
    for interval in &output.range.intervals {
        for (lean, limit, case) in [
            (interval.from, interval.from_limit, interval.from_case),
            (interval.to, interval.to_limit, interval.to_case),
        ] {
            let limit = voice.limit_in_case(limit, case, rig);
            lines.push(
                "  ".to_owned() + &words().fill("range.nearer", &[("lean", &angle(lean)), ("limit", &limit)]),
            );
        }
    }
    lines.push(String::new());
    lines.push(words().say("heading.limits").to_owned());
    for Alone { limit, range } in &output.limits {
        let limit = voice.limit(*limit);
        lines.push(
            "  ".to_owned() + &words().fill("range.alone", &[("limit", &limit), ("leans", &leans(range))]),
        );
    }
    lines.push(String::new());
    let balance: Vec<_> = output.balance_leans.iter().map(|lean| angle(*lean)).collect();
    let key = if balance.is_empty() { "balance.none" } else { "balance.lean" };
    lines.push(words().fill(key, &[("leans", &balance.join(", "))]));
    if !output.main_lost_is_assessed {
        let parts = words().say("not_assessed.main_lost");
        lines.push(words().fill("verdict.not_assessed", &[("parts", parts)]));
    }
    files::page(form, &lines)
}
