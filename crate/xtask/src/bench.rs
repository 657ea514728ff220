//! `cargo xtask bench`: how long the core takes, as ratios measured in one run.

use crate::command::{self, Failure, cargo};
use crate::{arguments, many, place};
use std::fs;

/// The benches, what each is held against, and how many times as long it may take where that is promised.
const BENCHES: &[(&str, &str, Option<f64>)] = &[
    ("rigid solve with feet", "flat closed form", Some(2.0)),
    ("stretched solve", "rigid solve with feet", Some(30.0)),
    ("stretched solve at the edge", "rigid solve with feet", Some(30.0)),
    ("stretched at the edge on a sling", "rigid solve with feet", Some(30.0)),
    ("sling under load at the edge", "rigid solve with feet", Some(30.0)),
    ("stretched under load", "rigid solve with feet", Some(30.0)),
    ("load at run-away", "rigid solve with feet", None),
    ("working range", "rigid solve with feet", Some(3000.0)),
    ("sweep of 1000 points", "rigid solve with feet", None),
    ("uncertainty of 10000 draws", "rigid solve with feet", None),
    ("proposals", "rigid solve with feet", None),
];

/// Rig files answered from the command line.
const FILES: u32 = 10_000;

/// Runs the benches and prints their ratios; fails past what is promised.
pub fn run(given: &[String]) -> Result<(), Failure> {
    arguments::only(given, &[])?;
    let advice = "A bench that does not run is mended like a test.";
    command::run(&mut cargo("bench --package outlean-rig --bench core"), advice)?;
    println!();
    let mut past = Vec::new();
    for (bench, base, most) in BENCHES {
        let (Some(time), Some(unit)) = (median(bench), median(base)) else {
            past.push(format!("{bench} was not measured"));
            continue;
        };
        let ratio = time / unit;
        let promised = most.map_or(String::new(), |most| format!(", at most {most}"));
        println!("{bench:32} {:>10.2} µs {ratio:9.1} × {base}{promised}", time / 1000.0);
        if let Some(most) = most.filter(|most| ratio > *most) {
            past.push(format!("{bench} takes {ratio:.1} × {base}, more than {most}"));
        }
    }
    many::answered(FILES)?;
    if past.is_empty() { Ok(()) } else { Err(Failure::new(past.join("\n"))) }
}

/// The median of a bench in its last run, ns.
fn median(bench: &str) -> Option<f64> {
    let file = place::target().join("criterion").join(bench).join("new").join("estimates.json");
    let estimates: serde_json::Value = serde_json::from_str(&fs::read_to_string(file).ok()?).ok()?;
    estimates.pointer("/median/point_estimate")?.as_f64()
}
