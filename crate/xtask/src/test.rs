//! `cargo xtask test`: every check, one step after the other, all of them even when one fails.

use crate::command::{self, Failure, cargo, program};
use crate::{arguments, build, install, lanes, many, place, twice};
use std::time::{Duration, Instant};

/// What is held bit for bit, without a browser: of rigs, of questions.
const VECTORS: [&str; 2] = ["tests/browser/vectors.test.mjs", "tests/browser/vectors.questions.test.mjs"];
/// Killed while it keeps answers: more often where there is time.
const KILLED: &str = "tests/browser/killed.test.mjs";
/// What pages ask for: one of each kind, or every one where there is time.
const ASKED: &str = "tests/browser/requests.test.mjs";
/// Rig files answered where there is time.
const MANY: u32 = 100_000;
/// What is held to times: nothing else may run beside it.
const MEASURED: &str = "tests/browser/budgets.test.mjs";

/// One thing that is done and either passes or fails.
struct Step {
    name: &'static str,
    /// Steps without which this one would only repeat their failure.
    needs: &'static [&'static str],
    run: fn() -> Result<(), Failure>,
    /// Left out by `--quick`.
    slow: bool,
    /// Only with `--long`.
    long: bool,
}

/// A step that always runs.
const STEP: Step = Step { name: "", needs: &[], run: || Ok(()), slow: false, long: false };

/// The steps in their order.
const STEPS: &[Step] = &[
    Step { name: "rust tools", run: install::rust_tools, ..STEP },
    Step { name: "node packages", run: install::node_packages, ..STEP },
    Step { name: "browsers", run: install::browsers, slow: true, ..STEP },
    Step { name: "format", run: format, needs: &["rust tools"], ..STEP },
    Step { name: "lints", run: lints, needs: &["rust tools"], ..STEP },
    Step { name: "native tests", run: native, ..STEP },
    Step { name: "docs", run: docs, ..STEP },
    Step { name: "build", run: || build::run(&[]), needs: &["rust tools"], ..STEP },
    Step { name: "built twice", run: twice::run, needs: &["build"], long: true, ..STEP },
    Step { name: "spelling", run: spelling, needs: &["node packages"], ..STEP },
    Step { name: "types", run: types, needs: &["node packages"], ..STEP },
    Step { name: "vectors", run: vectors, needs: &["node packages", "build"], ..STEP },
    Step { name: "long vectors", run: long_vectors, needs: &["node packages", "build"], long: true, ..STEP },
    Step {
        name: "browser tests",
        run: in_browsers,
        needs: &["node packages", "browsers", "build"],
        slow: true,
        ..STEP
    },
    Step { name: "speed", run: speed, needs: &["node packages", "browsers", "build"], slow: true, ..STEP },
    Step { name: "load", run: load, needs: &["node packages", "browsers", "build"], slow: true, ..STEP },
    Step { name: "many files", run: || many::answered(MANY), long: true, ..STEP },
    Step {
        name: "many kills",
        run: many_kills,
        needs: &["node packages", "browsers", "build"],
        long: true,
        ..STEP
    },
    Step {
        name: "every page",
        run: every_page,
        needs: &["node packages", "browsers", "build"],
        long: true,
        ..STEP
    },
    Step { name: "soak", run: soak, needs: &["node packages", "browsers", "build"], long: true, ..STEP },
];

/// Runs the steps, then prints what each took and, last and alone, `N passed, N failed`.
pub fn run(arguments: &[String]) -> Result<(), Failure> {
    let chosen: Vec<&Step> = match arguments {
        [only, name] if only == "--only" => vec![named(name)?],
        _ => {
            arguments::only(arguments, &["--quick", "--long", "--only STEP"])?;
            let (quick, long) =
                (arguments::given(arguments, "--quick"), arguments::given(arguments, "--long"));
            STEPS.iter().filter(|step| !(quick && step.slow) && (long || !step.long)).collect()
        }
    };
    let mut done: Vec<(&Step, Outcome, Duration)> = Vec::new();
    for step in chosen {
        println!("\n== {}", step.name);
        let start = Instant::now();
        let missing = done
            .iter()
            .find(|(earlier, outcome, _)| step.needs.contains(&earlier.name) && *outcome != Outcome::Passed);
        let outcome = if let Some((earlier, ..)) = missing {
            println!("skipped: it needs the step \"{}\"", earlier.name);
            Outcome::Skipped
        } else {
            match (step.run)() {
                Ok(()) => Outcome::Passed,
                Err(failure) => {
                    println!("\nFAILED {}: {}", step.name, failure.message);
                    Outcome::Failed
                }
            }
        };
        done.push((step, outcome, start.elapsed()));
    }
    println!("\n{:<16}{:<10}{:>8}", "step", "result", "seconds");
    for (step, outcome, took) in &done {
        println!("{:<16}{:<10}{:>8.1}", step.name, outcome.word(), took.as_secs_f64());
    }
    let total: Duration = done.iter().map(|(.., took)| *took).sum();
    println!("{:<26}{:>8.1}\n", "all", total.as_secs_f64());
    let count = |wanted: Outcome| done.iter().filter(|(_, outcome, _)| *outcome == wanted).count();
    let (failed, skipped) = (count(Outcome::Failed), count(Outcome::Skipped));
    let rest = if skipped == 0 { String::new() } else { format!(", {skipped} skipped") };
    println!("{} passed, {failed} failed{rest}", count(Outcome::Passed));
    if failed == 0 { Ok(()) } else { Err(Failure { message: String::new(), code: 1 }) }
}

/// The step of a name; what it needs is to be there.
fn named(name: &str) -> Result<&'static Step, Failure> {
    STEPS.iter().find(|step| step.name == name).ok_or_else(|| {
        let all: Vec<&str> = STEPS.iter().map(|step| step.name).collect();
        Failure::new(format!("`{name}` is no step; there are: {}.", all.join(", ")))
    })
}

/// How a step ended.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Outcome {
    Passed,
    Failed,
    Skipped,
}

impl Outcome {
    const fn word(self) -> &'static str {
        match self {
            Self::Passed => "passed",
            Self::Failed => "FAILED",
            Self::Skipped => "skipped",
        }
    }
}

fn format() -> Result<(), Failure> {
    command::run(&mut cargo("fmt --all --check"), "To put it right: cargo fmt --all")
}

fn lints() -> Result<(), Failure> {
    command::run(
        &mut cargo("clippy --workspace --all-targets -- -D warnings"),
        "Mend what the lines above point at; a lint that is wrong in one place is expected there with a reason.",
    )
}

fn native() -> Result<(), Failure> {
    command::run(
        &mut cargo("test --workspace --no-fail-fast"),
        "To run one alone: cargo test --package CRATE NAME",
    )
}

fn docs() -> Result<(), Failure> {
    command::run(
        cargo("doc --workspace --no-deps").env("RUSTDOCFLAGS", "-D warnings"),
        "Mend the documentation that the lines above point at.",
    )
}

/// Every word of the lessons and of the page.
fn spelling() -> Result<(), Failure> {
    command::run(
        &mut program(
            "node",
            [
                "tests/node_modules/cspell/bin.mjs",
                "lint",
                "--no-progress",
                "--show-suggestions",
                "--config",
                "tests/spelling/cspell.json",
            ],
        ),
        "Mend the words that the lines above name; one that is right goes into tests/spelling/words.txt.",
    )
}

/// The JSDoc types of the pages, then those of the tests.
fn types() -> Result<(), Failure> {
    for project in ["tests/tsconfig.json", "tests/browser/tsconfig.json"] {
        command::run(
            &mut program("node", ["tests/node_modules/typescript/bin/tsc", "--project", project]),
            "The JSDoc types do not agree; the lines above say where.",
        )?;
    }
    Ok(())
}

/// Wasm against native, bit for bit, in Node.
fn vectors() -> Result<(), Failure> {
    node_tests(&VECTORS.map(str::to_owned), 2, None)
}

fn long_vectors() -> Result<(), Failure> {
    node_tests(&[VECTORS[0].to_owned()], 1, Some(("RIGS", "100000")))
}

fn many_kills() -> Result<(), Failure> {
    node_tests(&[KILLED.to_owned()], 1, Some(("KILLS", "1000")))
}

fn every_page() -> Result<(), Failure> {
    node_tests(&[ASKED.to_owned()], 1, Some(("PAGES", "all")))
}

/// An hour of play in each browser.
fn soak() -> Result<(), Failure> {
    command::run(
        &mut program("node", ["tests/browser/soak.mjs"]),
        "Something grows, or frames get longer, while a figure plays; the lines above say what.",
    )
}

/// Every other test of tests/browser, in both browsers: two lanes at a time, then alone those that measure.
fn in_browsers() -> Result<(), Failure> {
    let folder = place::tests().join("browser");
    let unread = |why| Failure::new(format!("{} cannot be read: {why}", folder.display()));
    let mut files: Vec<String> = std::fs::read_dir(&folder)
        .map_err(unread)?
        .filter_map(|entry| Some(format!("tests/browser/{}", entry.ok()?.file_name().to_str()?)))
        .filter(|file| file.ends_with(".test.mjs") && !VECTORS.contains(&file.as_str()) && file != MEASURED)
        .collect();
    files.sort();
    node_tests(&lanes::of(&files)?, 2, None)?;
    node_tests(&[MEASURED.to_owned()], 1, None)
}

/// Measured and printed; no number here fails a run.
fn speed() -> Result<(), Failure> {
    command::run(
        &mut program("node", ["tests/browser/speed.mjs"]),
        "The first lesson could not be measured: its figure is not drawn, or its sweep does not play.",
    )
}

/// How much of a machine a figure takes, as multiples of what bare canvases take on it.
fn load() -> Result<(), Failure> {
    command::run(
        &mut program("node", ["tests/browser/performance.mjs"]),
        "A figure takes more of the machine than it may; the lines above say what and how much.",
    )
}

/// Runs files of tests in Node, so many at once, a variable that tells them how much to do set.
fn node_tests(files: &[String], at_once: u32, told: Option<(&str, &str)>) -> Result<(), Failure> {
    let mut node = program("node", ["--test", "--test-reporter=spec"]);
    node.arg(format!("--test-concurrency={at_once}"));
    node.envs(told);
    command::run(node.args(files), "To run one alone: node --test FILE")
}
