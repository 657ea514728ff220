//! Writing a built course: what has changed, and the packed forms of it.

use crate::disk::{Failure, Files};
use crate::packed::{self, Packing};
use crate::{program, stale};
use rayon::prelude::*;
use std::cmp::Reverse;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Writes the files of a course into `out`, what pages load into the folder of this name. A file whose content is as it was is
/// not written again. Nor is packed again what stands packed under the earlier name of that folder, or in `program`, where it
/// comes from.
///
/// # Errors
///
/// The first file that cannot be written.
pub fn write(out: &Path, name: &str, program: &Path, mut files: Files) -> Result<(), Failure> {
    let packed: Vec<PathBuf> = before(out).into_iter().chain([program.to_owned()]).collect();
    files.par_iter().try_for_each(|(file, content)| told(&out.join(file), |path| put(path, content)))?;
    // Packing is most of a build: on all cores, the largest first.
    files.sort_by_key(|(_, content)| Reverse(content.len()));
    let each = files.iter().flat_map(|file| Packing::ALL.map(|packing| (file, packing)));
    each.par_bridge().try_for_each(|((file, content), packing)| {
        let known =
            file.strip_prefix(name).map(|rest| packed.iter().map(|folder| folder.join(rest)).collect());
        told(&out.join(file), |path| pack(path, content, packing, known.unwrap_or_default()))
    })
}

/// The folder of what pages load, as the build before named it.
fn before(out: &Path) -> Option<PathBuf> {
    let folders = stale::before(out).into_iter().filter_map(|file| file.iter().next().map(PathBuf::from));
    folders
        .map(|folder| out.join(folder))
        .find(|folder| folder.file_name().and_then(|name| name.to_str()).is_some_and(program::is))
}

/// Does something with a file; what went wrong is told with its name.
fn told(path: &Path, act: impl FnOnce(&Path) -> io::Result<()>) -> Result<(), Failure> {
    act(path).map_err(|why| Failure::File(path.to_owned(), why.to_string()))
}

/// Writes a file, unless it already says the same.
fn put(path: &Path, content: &[u8]) -> io::Result<()> {
    if says(path, content) {
        return Ok(());
    }
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder)?;
    }
    fs::write(path, content)
}

/// Writes a packed form of a file, unless it is there; as one of `known` was packed, where that says the same.
fn pack(path: &Path, content: &[u8], packing: Packing, known: Vec<PathBuf>) -> io::Result<()> {
    let Some(place) = packed::place(path, packing).filter(|_| packed::of(path, packing).is_none()) else {
        return Ok(());
    };
    let mut same = known.iter().filter(|known| says(known, content));
    let packed = same.find_map(|same| packed::of(same, packing));
    fs::write(place, packed.map_or_else(|| packed::pack(path, content, packing), Ok)?)
}

/// Whether this is what a file says.
fn says(path: &Path, content: &[u8]) -> bool {
    fs::read(path).is_ok_and(|now| now == content)
}
