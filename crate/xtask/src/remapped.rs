//! What is compiled without a way of this machine in it: what a crate says of itself when it fails names the file that it comes from,
//! by where cargo has that. Without that way, what is compiled is the same wherever it is.

use crate::command::Failure;
use crate::place;
use std::env;
use std::fs;
use std::path::{Path, PathBuf};

/// Arguments of cargo by which what is compiled for `target` names files of others from the crate on. Ours are named from the root of
/// the repository on as it is.
pub fn settings(target: &str) -> [String; 2] {
    let flags: Vec<String> =
        sources().iter().map(|folder| format!("'--remap-path-prefix={}='", folder.display())).collect();
    ["--config".into(), format!("target.{target}.rustflags=[{}]", flags.join(","))]
}

/// Holds that what was compiled names no folder of this machine.
///
/// # Errors
///
/// The file cannot be read, or names one: which.
pub fn check(file: &Path) -> Result<(), Failure> {
    let content = fs::read(file).map_err(|why| Failure::new(format!("{}: {why}", file.display())))?;
    match [home(), Some(place::root().to_owned())]
        .into_iter()
        .flatten()
        .find(|folder| names(&content, folder))
    {
        None => Ok(()),
        Some(folder) => Err(Failure::new(format!(
            "{} names {}: on another machine it would be another file.",
            file.display(),
            folder.display()
        ))),
    }
}

/// Whether a folder is named anywhere in some content.
fn names(content: &[u8], folder: &Path) -> bool {
    let name = folder.as_os_str().as_encoded_bytes();
    content.windows(name.len()).any(|part| part == name)
}

/// Where cargo keeps what is its own.
fn home() -> Option<PathBuf> {
    env::var_os("CARGO_HOME").map(PathBuf::from).or_else(|| Some(env::home_dir()?.join(".cargo")))
}

/// The folders in which cargo has the sources of crates, one a registry.
fn sources() -> Vec<PathBuf> {
    let folders = home().and_then(|home| fs::read_dir(home.join("registry/src")).ok());
    let mut folders: Vec<PathBuf> =
        folders.into_iter().flatten().flatten().map(|entry| entry.path()).collect();
    folders.sort();
    folders
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_is_found_wherever_it_is_named() {
        let folder = Path::new("/home/somebody");
        assert!(names(b"a panic in /home/somebody/src/lib.rs:1", folder));
        assert!(!names(b"a panic in crate-1/src/lib.rs:1 of /home", folder));
    }
}
