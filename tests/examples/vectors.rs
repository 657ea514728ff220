//! `vectors [COUNT [FIRST_SEED [RANGE_EVERY]]]`: random rigs and the native answers to them, as JSON.
//!
//! Prints `[{"seed": …, "rig": …, "ranged": …, "numbers": …}, …]`, one to a line. `rig` is the rig by the keys of the
//! field and choice tables, as pages are given it; `numbers` is every number of its solution and, for every
//! `RANGE_EVERY`th rig (1: all, 0: none), of its working range; none for a rig that cannot be computed, and `null` for
//! one that the tables refuse. Numbers are the shortest that parse back to the same bits, so that a program that solves
//! the same rigs elsewhere can be held to these bit for bit; infinities are `null`. COUNT is 1000 unless given,
//! FIRST_SEED 0, RANGE_EVERY 1.

use outlean_rigfile::{Value as Entry, entries_of, rig_of};
use outlean_tests::geared::geared_rig;
use outlean_tests::random::random_rig;
use outlean_widget::solved::all_numbers;
use serde_json::{Map, Value, json};
use std::io::{BufWriter, Write};
use std::process::ExitCode;

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
        let ranged = (place as u64).checked_rem(every) == Some(0);
        // Every other rig says what it is made of.
        let rig = if seed % 2 == 0 { random_rig(seed) } else { geared_rig(seed) };
        let drawn = entries_of(&rig);
        let entries: Vec<(&str, Entry<'_>)> =
            drawn.iter().map(|(key, value)| (key.as_str(), *value)).collect();
        // Read back before it is solved: the page is given these entries and nothing else.
        let numbers = rig_of(&entries).map(|rig| all_numbers(&rig, ranged)).ok();
        let rig: Map<String, Value> = drawn.into_iter().map(|(key, value)| (key, plain(value))).collect();
        let vector = json!({ "seed": seed, "rig": rig, "ranged": ranged, "numbers": numbers });
        out.write_all(if place == 0 { b"[" } else { b",\n" })?;
        serde_json::to_writer(&mut out, &vector)?;
    }
    out.write_all(if count == 0 { b"[]\n" } else { b"]\n" })?;
    out.flush()
}

fn plain(value: Entry<'_>) -> Value {
    match value {
        Entry::Number(number) => Value::from(number),
        Entry::Word(word) => Value::from(word),
    }
}
