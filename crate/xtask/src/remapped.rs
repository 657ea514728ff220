//! What is compiled without a way of this machine in it: what a crate says of itself when it fails names the file that it comes from,
//! by where cargo has that. Without that way, what is compiled is the same wherever it is.

use std::env;
use std::fs;
use std::path::PathBuf;

/// Arguments of cargo by which what is compiled for `target` names files of others from the crate on. Ours are named from the root of
/// the repository on as it is.
pub fn settings(target: &str) -> [String; 2] {
    let flags: Vec<String> =
        sources().iter().map(|folder| format!("'--remap-path-prefix={}='", folder.display())).collect();
    ["--config".into(), format!("target.{target}.rustflags=[{}]", flags.join(","))]
}

/// The folders in which cargo has the sources of crates, one a registry.
fn sources() -> Vec<PathBuf> {
    let home = env::var_os("CARGO_HOME").map(PathBuf::from).or_else(|| Some(env::home_dir()?.join(".cargo")));
    let folders = home.and_then(|home| fs::read_dir(home.join("registry/src")).ok());
    let mut folders: Vec<PathBuf> =
        folders.into_iter().flatten().flatten().map(|entry| entry.path()).collect();
    folders.sort();
    folders
}
