//! `cargo xtask cases FILE`: the core against solved cases of others.

use crate::command::{self, Failure, cargo};

/// Runs the cases of a file; ends with the exit code of the runner.
pub fn run(arguments: &[String]) -> Result<(), Failure> {
    let [file] = arguments else {
        return Err(Failure::new("one file is needed: cargo xtask cases FILE"));
    };
    // Paths are given from where the command was typed, but cargo runs at the root.
    let file = std::path::absolute(file).map_err(|why| Failure::new(format!("{file}: {why}")))?;
    let mut cases = cargo("run --quiet --package outlean-tests --bin cases --");
    command::run(cases.arg(file), "The lines above say which cases differ, or why the file cannot be read.")
}
