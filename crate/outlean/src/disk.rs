//! Files and folders, and why one cannot be used.

use crate::{bounded, lesson};
use std::fs;
use std::path::{Path, PathBuf};

/// Why a course could not be built.
pub enum Failure {
    /// A file could not be read or written: which, and why.
    File(PathBuf, String),
    /// A lesson or a rig file has problems: the rendered text of all of them.
    Content(String),
}

/// The text of a file.
pub fn text(path: &Path) -> Result<String, Failure> {
    fs::read_to_string(path).map_err(|why| Failure::File(path.to_owned(), why.to_string()))
}

/// The text of a file that an author wrote: a lesson, a rig, a list.
pub fn bounded(path: &Path) -> Result<String, Failure> {
    bounded::text(path, lesson::MOST_BYTES).map_err(|why| Failure::File(path.to_owned(), why.to_string()))
}

/// What is in a file.
pub fn bytes(path: &Path) -> Result<Vec<u8>, Failure> {
    fs::read(path).map_err(|why| Failure::File(path.to_owned(), why.to_string()))
}

/// What is in a folder, by name.
pub fn entries(folder: &Path) -> Result<Vec<PathBuf>, Failure> {
    let failed = |why: std::io::Error| Failure::File(folder.to_owned(), why.to_string());
    let mut all = fs::read_dir(folder)
        .map_err(failed)?
        .map(|entry| entry.map(|entry| entry.path()))
        .collect::<Result<Vec<_>, _>>()
        .map_err(failed)?;
    all.sort();
    Ok(all)
}

/// The files in a folder, by name.
pub fn files(folder: &Path) -> Result<Vec<PathBuf>, Failure> {
    Ok(entries(folder)?.into_iter().filter(|path| path.is_file()).collect())
}

/// The last part of a path.
pub fn name_of(path: &Path) -> String {
    path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
}

/// Files to be written: where, below the folder to fill, and what is in them.
pub type Files = Vec<(PathBuf, Vec<u8>)>;
