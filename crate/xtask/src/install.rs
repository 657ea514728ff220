//! What the other commands need on the machine: looked for, and installed where that is ours to do.

use crate::command::{self, Failure, cargo, output_of, program};
use crate::place;
use crate::wasm::TARGET as WASM;
use std::env::consts::EXE_SUFFIX;
use std::fs;
use std::path::{Path, PathBuf};

const RUSTUP: &str = "Rust's own installer, rustup, brings it: see https://rustup.rs";
const NODE: &str = "The tests need Node.js 20.19 or newer with npm: see https://nodejs.org";
/// The least version of Node.js that the tests run on, major and minor.
const NODE_LEAST: (u32, u32) = (20, 19);

/// The standard library for wasm.
pub fn wasm_target() -> Result<(), Failure> {
    let sysroot = output_of(program("rustc", ["--print", "sysroot"])).unwrap_or_default();
    if Path::new(&sysroot).join("lib/rustlib").join(WASM).is_dir() {
        return Ok(());
    }
    println!("> Rust's {WASM} target is missing: adding it");
    command::run(&mut program("rustup", ["target", "add", WASM]), RUSTUP)
}

/// rustfmt and clippy.
fn components() -> Result<(), Failure> {
    let there = |tool: &str| output_of(cargo(&format!("{tool} --version"))).is_some();
    if there("fmt") && there("clippy") {
        return Ok(());
    }
    println!("> rustfmt or clippy is missing: adding them");
    command::run(&mut program("rustup", ["component", "add", "rustfmt", "clippy"]), RUSTUP)
}

/// Everything of Rust's that the checks need.
pub fn rust_tools() -> Result<(), Failure> {
    wasm_target()?;
    components()
}

/// Node.js, and npm's packages as the lock file names them.
pub fn node_packages() -> Result<(), Failure> {
    let version = output_of(program("node", ["--version"])).unwrap_or_default();
    let mut numbers = version.trim_start_matches('v').split('.').map(str::parse::<u32>);
    match numbers.next().zip(numbers.next()) {
        Some((Ok(major), Ok(minor))) if (major, minor) >= NODE_LEAST => {}
        Some(_) => return Err(Failure::new(format!("this machine has Node.js {version}.\n{NODE}"))),
        None => return Err(Failure::new(format!("`node --version` cannot be run.\n{NODE}"))),
    }
    let changed = |file: &str| fs::metadata(place::tests().join(file)).and_then(|file| file.modified()).ok();
    let installed = changed("node_modules/.package-lock.json");
    if installed.is_some() && installed >= changed("package-lock.json") {
        return Ok(());
    }
    let npm = if cfg!(windows) { "npm.cmd" } else { "npm" };
    let mut install = program(npm, ["ci", "--ignore-scripts", "--no-audit", "--no-fund"]);
    command::run(install.current_dir(place::tests()), NODE)
}

/// What the browser tests run: the variable that names another one, if one does, its program's names, its Debian package.
struct Needed {
    variable: Option<&'static str>,
    programs: &'static [&'static str],
    package: &'static str,
}

/// Both browsers, what turns printed pages into pictures and words, and what a record store of others' runs on; tests/browser looks
/// in the same places.
const NEEDED: [Needed; 4] = [
    Needed {
        variable: Some("CHROMIUM"),
        programs: &["chromium", "chromium-browser", "google-chrome"],
        package: "chromium",
    },
    Needed { variable: Some("FIREFOX"), programs: &["firefox-esr", "firefox"], package: "firefox-esr" },
    Needed { variable: None, programs: &["pdftotext"], package: "poppler-utils" },
    Needed { variable: None, programs: &["python3"], package: "python3-venv" },
];

/// Chromium, Firefox, poppler's programs and Python, from the system's packages where this runs as root on Debian.
pub fn browsers() -> Result<(), Failure> {
    let lacking = |needed: &&Needed| {
        needed.variable.is_none_or(|name| std::env::var_os(name).is_none())
            && !needed.programs.iter().any(|name| in_path(name).is_some())
    };
    let packages: Vec<&str> = NEEDED.iter().filter(lacking).map(|needed| needed.package).collect();
    if packages.is_empty() {
        return Ok(());
    }
    let names = packages.join(" and ");
    let root = output_of(program("id", ["-u"])).is_some_and(|id| id == "0");
    if !(root && Path::new("/etc/debian_version").exists() && in_path("apt-get").is_some()) {
        return Err(Failure::new(format!(
            "the browser tests need {names}, in PATH, or browsers named by CHROMIUM=… and FIREFOX=….\n\
             On Debian: sudo apt-get install {}. Without browsers: cargo xtask test --quick",
            packages.join(" ")
        )));
    }
    println!("> {names} missing: installing from Debian's packages");
    let advice = "Install them by hand, or leave the browsers out: cargo xtask test --quick";
    let apt = |arguments: &[&str]| {
        command::run(program("apt-get", arguments).env("DEBIAN_FRONTEND", "noninteractive"), advice)
    };
    apt(&["update", "-qq"])?;
    apt(&[&["install", "-y", "-qq", "--no-install-recommends"], packages.as_slice()].concat())
}

/// Where a program is in PATH.
fn in_path(name: &str) -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    std::env::split_paths(&path)
        .map(|folder| folder.join(format!("{name}{EXE_SUFFIX}")))
        .find(|file| file.is_file())
}
