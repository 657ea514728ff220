//! Files packed once, when the course is built, better than a server packs them for each reader: beside `page.js`
//! stands `page.js.gz`. Any server that sends packed files that it finds can send them.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Endings of files that packing makes smaller; pictures and fonts are packed already.
const ENDINGS: [&str; 6] = ["css", "html", "js", "json", "svg", "wasm"];

/// Where the packed form of a file stands; `None` for a file that has none.
pub fn place(file: &Path) -> Option<PathBuf> {
    let ending = file.extension()?.to_str()?;
    ENDINGS.contains(&ending).then(|| file.with_extension(format!("{ending}.gz")))
}

/// What `content` is in gzip.
///
/// # Errors
///
/// None that can come: it is written to memory.
pub fn pack(content: &[u8]) -> io::Result<Vec<u8>> {
    let mut out = Vec::new();
    zopfli::compress(zopfli::Options::default(), zopfli::Format::Gzip, content, &mut out)?;
    Ok(out)
}

/// The packed form of a file, unless the file was written after it.
pub fn of(file: &Path) -> Option<Vec<u8>> {
    let packed = place(file)?;
    let written = |path: &Path| fs::metadata(path).and_then(|file| file.modified()).ok();
    let current = written(&packed)? >= written(file)?;
    fs::read(packed).ok().filter(|_| current)
}
