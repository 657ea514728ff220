//! What tests that build a course have in common.

use std::fs;
use std::path::{Path, PathBuf};

/// A folder in `place` with what stands for the pages' program.
pub fn program(place: &Path) -> PathBuf {
    let program = place.join("program");
    fs::create_dir_all(program.join("wasm")).expect("the folder can be made");
    for file in ["page.js", "painter.js", "wasm/outlean_bg.wasm"] {
        fs::write(program.join(file), "stands for the program").expect("writable");
    }
    program
}

/// The folder, in a built course, of what its pages load.
#[allow(dead_code, reason = "not every test looks into it")]
pub fn loaded(site: &Path) -> String {
    let names = fs::read_dir(site)
        .expect("it is built")
        .flatten()
        .map(|entry| entry.file_name().to_string_lossy().into_owned());
    let all: Vec<String> = names.filter(|name| name.starts_with("program-")).collect();
    let [one] = all.as_slice() else { panic!("one version of it: {all:?}") };
    one.clone()
}
