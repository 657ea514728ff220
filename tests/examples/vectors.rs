//! `vectors [COUNT [FIRST_SEED [RANGE_EVERY]]]`: random rigs and the native answers to them, as JSON.
//!
//! Prints `[{"seed": …, "rig": …, "solution": …, "range": …}, …]`, one to a line. `solution` is the solution or
//! `{"fault": …}`; `range`, the working range or `{"fault": …}`, stands with every `RANGE_EVERY`th rig only (1: all,
//! 0: none). Numbers are the shortest that parse back to the same bits, so that a program that solves the same rigs
//! elsewhere can be held to these bit for bit; NaN and infinities are `null`. COUNT is 1000 unless given,
//! FIRST_SEED 0, RANGE_EVERY 1.

use outlean_rig::{Fault, solve, working_range};
use outlean_tests::random::random_rig;
use serde::Serialize;
use serde_json::{Value, json};
use std::io::{BufWriter, Write};
use std::process::ExitCode;

fn answer(result: Result<impl Serialize, Fault>) -> serde_json::Result<Value> {
    match result {
        Ok(answer) => serde_json::to_value(answer),
        Err(fault) => Ok(json!({ "fault": fault })),
    }
}

fn main() -> ExitCode {
    let mut numbers = [1000, 0, 1];
    for (place, word) in std::env::args().skip(1).enumerate() {
        match (numbers.get_mut(place), word.parse::<u64>()) {
            (Some(number), Ok(value)) => *number = value,
            _ => {
                eprintln!(
                    "`{word}` is not expected; usage: vectors [COUNT [FIRST_SEED [RANGE_EVERY]]], whole numbers"
                );
                return ExitCode::from(2);
            }
        }
    }
    match print(numbers) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn print([count, first, every]: [u64; 3]) -> std::io::Result<()> {
    let mut out = BufWriter::new(std::io::stdout().lock());
    for (place, seed) in (first..).take(usize::try_from(count).unwrap_or(usize::MAX)).enumerate() {
        let rig = random_rig(seed);
        let mut vector = json!({ "seed": seed, "rig": rig, "solution": answer(solve(&rig))? });
        if (place as u64).checked_rem(every) == Some(0)
            && let Some(vector) = vector.as_object_mut()
        {
            vector.insert("range".into(), answer(working_range(&rig))?);
        }
        out.write_all(if place == 0 { b"[" } else { b",\n" })?;
        serde_json::to_writer(&mut out, &vector)?;
    }
    out.write_all(if count == 0 { b"[]\n" } else { b"]\n" })?;
    out.flush()
}
