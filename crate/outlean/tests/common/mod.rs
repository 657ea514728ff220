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
