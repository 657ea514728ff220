//! Where things are.

use crate::wasm::TARGET;
use std::env::consts::EXE_SUFFIX;
use std::path::{Path, PathBuf};

/// The root of the repository.
pub fn root() -> &'static Path {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.ancestors().nth(2).unwrap_or(here)
}

/// Where cargo and this program put what they build: `target`, or what `CARGO_TARGET_DIR` says.
pub fn target() -> PathBuf {
    match std::env::var_os("CARGO_TARGET_DIR") {
        Some(folder) => root().join(folder),
        None => root().join("target"),
    }
}

/// The native program.
pub fn outlean() -> PathBuf {
    target().join("release").join(format!("outlean{EXE_SUFFIX}"))
}

/// The module of a crate, `widget`, `refresher`, `class` or `planner`, as the compiler leaves it.
pub fn raw_wasm(package: &str) -> PathBuf {
    target().join(TARGET).join("page").join(format!("outlean_{package}.wasm"))
}

/// The page's module with its JavaScript, for `form`: `web` or `node`.
pub fn wasm(form: &str) -> PathBuf {
    target().join("wasm").join(form)
}

/// What pages load of the program: scripts and modules.
pub fn program() -> PathBuf {
    target().join("program")
}

/// The page's elements, styles and words.
pub fn assets() -> PathBuf {
    root().join("www")
}

/// The built course.
pub fn site() -> PathBuf {
    target().join("site")
}

/// What is given away.
pub fn archive() -> PathBuf {
    target().join("archive")
}

/// The tests, where npm's packages are.
pub fn tests() -> PathBuf {
    root().join("tests")
}
