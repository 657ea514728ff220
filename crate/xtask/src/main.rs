//! `cargo xtask`: one command for each thing that a contributor or CI must do.
//!
//! Every program that a command runs is printed before it runs. When one fails, the message says which, with
//! which exit code, and what to do about it. Nothing here knows a formula or a lesson.

mod arguments;
mod bench;
mod build;
mod cases;
mod command;
mod fuzz;
mod install;
mod lanes;
mod licences;
mod many;
mod place;
mod release;
mod remapped;
mod script;
mod serve;
mod sizes;
mod test;
mod twice;
mod wasm;

use command::Failure;
use std::process::ExitCode;

/// One line of the table: what is typed, what it does, and the code that does it.
struct Entry {
    name: &'static str,
    usage: &'static str,
    about: &'static str,
    run: fn(&[String]) -> Result<(), Failure>,
}

/// The commands, all of them.
const COMMANDS: &[Entry] = &[
    Entry {
        name: "serve",
        usage: "serve [--port N] [--no-open] [--watch]",
        about: "build everything, serve target/site on this machine and print its address; --watch builds again as lessons change",
        run: serve::run,
    },
    Entry {
        name: "test",
        usage: "test [--quick] [--long] [--only STEP]",
        about: "install what is lacking, then run every check; --quick leaves the browsers out",
        run: test::run,
    },
    Entry {
        name: "build",
        usage: "build",
        about: "fill target/site and print the sizes of what a page loads",
        run: build::run,
    },
    Entry {
        name: "release",
        usage: "release",
        about: "build everything and put program, course and licences into one archive in target/archive",
        run: release::run,
    },
    Entry {
        name: "fuzz",
        usage: "fuzz [INPUT] [--seconds N]",
        about: "feed every input from outside, or one, with what a fuzzer makes up; 900 seconds each",
        run: fuzz::run,
    },
    Entry {
        name: "cases",
        usage: "cases FILE",
        about: "hold the core against a JSON file of solved cases",
        run: cases::run,
    },
    Entry {
        name: "bench",
        usage: "bench",
        about: "measure the core; fails past the ratios that are promised",
        run: bench::run,
    },
];

fn main() -> ExitCode {
    let mut arguments = std::env::args().skip(1);
    let Some(name) = arguments.next() else {
        print!("{}", list());
        return ExitCode::SUCCESS;
    };
    let arguments: Vec<String> = arguments.collect();
    let outcome = match COMMANDS.iter().find(|entry| entry.name == name) {
        Some(entry) => (entry.run)(&arguments),
        None => Err(Failure::new(format!("there is no command `{name}`.\n\n{}", list()))),
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            if !failure.message.is_empty() {
                eprintln!("\ncargo xtask {name}: {}", failure.message);
            }
            ExitCode::from(failure.code)
        }
    }
}

/// The table as text.
fn list() -> String {
    let width = COMMANDS.iter().map(|entry| entry.usage.len()).max().unwrap_or_default();
    let mut text = String::new();
    for entry in COMMANDS {
        text.push_str(&format!("cargo xtask {:width$}  {}\n", entry.usage, entry.about));
    }
    text
}
