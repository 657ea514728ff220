//! `cargo xtask fuzz`: every input from outside, made up by the fuzzers, each for as long as is asked.

use crate::command::{self, Failure, cargo, output_of, program};
use crate::place;
use std::fs;
use std::path::PathBuf;

/// How long each input is fuzzed where nothing is said, s.
const SECONDS: u32 = 900;
/// What pages read of outside, fuzzed in Node.
const IN_NODE: [&str; 3] = ["outside", "answers", "messages"];
/// Longest input that is made up, bytes; an input that takes longer than so many seconds has hung.
const LONGEST: &str = "-max_len=16384";
const HUNG: &str = "-timeout=20";

/// Fuzzes one input, or all of them one after another.
pub fn run(arguments: &[String]) -> Result<(), Failure> {
    let (wanted, seconds) = asked(arguments)?;
    let native = targets()?;
    let known: Vec<&str> = native.iter().map(String::as_str).chain(IN_NODE).collect();
    if let Some(wanted) = &wanted
        && !known.contains(&wanted.as_str())
    {
        return Err(Failure::new(format!("there is no input `{wanted}`; known: {}.", known.join(", "))));
    }
    let mut failed = Vec::new();
    for name in known.into_iter().filter(|name| wanted.as_ref().is_none_or(|wanted| wanted == name)) {
        println!("\n== {name}");
        let done = if IN_NODE.contains(&name) { in_node(name, seconds) } else { natively(name, seconds) };
        if let Err(failure) = done {
            println!("\nFAILED {name}: {}", failure.message);
            failed.push(name);
        }
    }
    if failed.is_empty() { Ok(()) } else { Err(Failure::new(format!("amiss: {}.", failed.join(", ")))) }
}

/// The input that is named, if one is, and for how long.
fn asked(arguments: &[String]) -> Result<(Option<String>, u32), Failure> {
    let (mut wanted, mut seconds) = (None, SECONDS);
    let mut rest = arguments.iter();
    while let Some(argument) = rest.next() {
        if argument == "--seconds" {
            let number = rest.next().and_then(|number| number.parse().ok()).filter(|number| *number > 0);
            seconds =
                number.ok_or_else(|| Failure::new("--seconds needs a number, such as --seconds 60."))?;
        } else if wanted.is_none() && !argument.starts_with('-') {
            wanted = Some(argument.clone());
        } else {
            return Err(Failure::new(format!(
                "`{argument}` is not understood; known: an input, --seconds N."
            )));
        }
    }
    Ok((wanted, seconds))
}

/// The targets, by name: each is a file.
fn targets() -> Result<Vec<String>, Failure> {
    let folder = fuzz().join("targets");
    let unread = |why| Failure::new(format!("{} cannot be read: {why}", folder.display()));
    let files = fs::read_dir(&folder).map_err(unread)?;
    let mut all: Vec<String> = files
        .filter_map(|entry| Some(entry.ok()?.path().file_stem()?.to_string_lossy().into_owned()))
        .collect();
    all.sort();
    Ok(all)
}

fn fuzz() -> PathBuf {
    place::tests().join("fuzz")
}

/// By libFuzzer: what it finds on the way stands in the target folder, what fails in `tests/fuzz/artifacts`.
fn natively(name: &str, seconds: u32) -> Result<(), Failure> {
    if output_of(cargo("fuzz --version")).is_none() {
        return Err(Failure::new("it needs cargo-fuzz: cargo install cargo-fuzz --locked"));
    }
    let found = place::target().join("fuzzed").join(name);
    fs::create_dir_all(&found)
        .map_err(|why| Failure::new(format!("{} cannot be made: {why}", found.display())))?;
    // A sanitizer watches what `unsafe` may do: there is none of ours, and with it a fifth as many plans are tried.
    let mut fuzzer = cargo("fuzz run --fuzz-dir tests/fuzz --sanitizer none");
    fuzzer.arg(name).arg(&found).arg(fuzz().join("corpus").join(name)).args(["--", HUNG, LONGEST]);
    fuzzer.arg(format!("-max_total_time={seconds}"));
    // One thread is what they can follow.
    fuzzer.env("RAYON_NUM_THREADS", "1");
    command::run(
        &mut fuzzer,
        "What is amiss stands in tests/fuzz/artifacts: mend it, and keep it in tests/fuzz/corpus.",
    )
}

fn in_node(name: &str, seconds: u32) -> Result<(), Failure> {
    let mut node = program("node", ["--test", "--test-reporter=spec"]);
    node.arg(format!("tests/browser/{name}.test.mjs")).env("FUZZ_SECONDS", seconds.to_string());
    command::run(&mut node, "What is amiss is printed above: mend it, and keep it in `kept` of its test.")
}
