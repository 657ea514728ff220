//! `reference rigid|stretched COUNT FIRST_SEED`: random rigs and what the core says of them, one JSON object a line.
//!
//! Read by `tests/reference/compare.py`, which works the same rigs out with a structural library. Each line has `seed`;
//! `rig`, as set up; `core`, the answer, or `fault`; of stretched rigs also `stretch`, what their parts give, and `margin`,
//! the load at run-away. Numbers are the shortest that parse back to the same bits; infinities are `null`.
//!
//! Rigid rigs are those of [`random_rig`] as they are. Stretched ones are the same without an edge, on legs of 10 MN to
//! 1 GN and ropes of 5 kN to 2 MN, half of them with up to 50 mm of give, of every kind of lean.

use outlean_rig::{Fault, LeanIs, Rig, Rope, Stretch, margin, solve, stretched};
use outlean_tests::random::{Draw, random_rig};
use serde_json::{Value, json};
use std::io::{BufWriter, Write};
use std::process::ExitCode;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let asked = match words.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        [kind @ ("rigid" | "stretched"), count, first] => {
            count.parse().ok().zip(first.parse().ok()).map(|(count, first)| (kind == "rigid", count, first))
        }
        _ => None,
    };
    let Some((rigid, count, first)) = asked else {
        eprintln!("usage: reference rigid|stretched COUNT FIRST_SEED");
        return ExitCode::from(2);
    };
    match print(if rigid { rigid_line } else { stretched_line }, count, first) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn print(line: fn(u64) -> Value, count: usize, first: u64) -> std::io::Result<()> {
    let mut out = BufWriter::new(std::io::stdout().lock());
    for seed in (first..).take(count) {
        writeln!(out, "{}", line(seed))?;
    }
    out.flush()
}

fn rigid_line(seed: u64) -> Value {
    let rig = random_rig(seed);
    match solve(&rig) {
        Ok(solution) => json!({ "seed": seed, "rig": rig, "core": solution }),
        Err(fault) => refused(seed, &rig, &fault),
    }
}

fn stretched_line(seed: u64) -> Value {
    let rig = Rig { edge: None, ..random_rig(seed) };
    let stretch = gives(&rig, seed);
    match stretched(&rig, &stretch).and_then(|outcome| Ok((outcome, margin(&rig, &stretch)?))) {
        Ok((outcome, margin)) => {
            json!({ "seed": seed, "rig": rig, "stretch": stretch, "core": outcome, "margin": margin })
        }
        Err(fault) => refused(seed, &rig, &fault),
    }
}

fn refused(seed: u64, rig: &Rig, fault: &Fault) -> Value {
    json!({ "seed": seed, "rig": rig, "fault": fault.to_string() })
}

/// What the parts of a rig give, drawn apart from the rig itself.
fn gives(rig: &Rig, seed: u64) -> Stretch {
    let draw = &mut Draw::new(seed ^ 0x5eed_0f12_0bed_0000);
    let lean_is = match draw.one_of(3) {
        0 => LeanIs::SetBefore,
        1 => LeanIs::UnderLoad,
        _ => LeanIs::Cut,
    };
    let leg_stiffness = evenly_by_size(draw, 1e7, 1e9);
    let ropes = rig.guys.iter().map(|_| Rope {
        stiffness: evenly_by_size(draw, 5e3, 2e6),
        give: if draw.chance(0.5) { draw.between(0.0, 0.05) } else { 0.0 },
    });
    Stretch { leg_stiffness, ropes: ropes.collect(), lean_is }
}

/// A number between two, as likely to be ten times another as a tenth of it.
fn evenly_by_size(draw: &mut Draw, least: f64, most: f64) -> f64 {
    libm::exp(draw.between(libm::log(least), libm::log(most)))
}
