//! The program itself, run on the files of the tests.

use std::process::{Command, Output};

/// Runs it with these arguments among those files.
pub fn outlean(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_outlean"))
        .args(arguments)
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data"))
        .output()
        .expect("the program runs")
}

/// What it printed, thin spaces as plain ones.
pub fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("what is printed is text").replace('\u{2009}', " ")
}
