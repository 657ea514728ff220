//! Files packed once, when the course is built, better than a server packs them for each reader: beside `page.js`
//! stands `page.js.gz`. Any server that sends packed files that it finds can send them.

use crate::build::OF_LESSONS;
use flate2::{Compression, write::GzEncoder};
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Endings of files that packing makes smaller; pictures and fonts are packed already.
const ENDINGS: [&str; 6] = ["css", "html", "js", "json", "svg", "wasm"];

/// What the planning page loads besides.
const OF_PLANNER: [&str; 2] = ["plan.js", "wasm/planner_bg.wasm"];

/// Where the packed form of a file stands; `None` for a file that has none.
pub fn place(file: &Path) -> Option<PathBuf> {
    let ending = file.extension()?.to_str()?;
    ENDINGS.contains(&ending).then(|| file.with_extension(format!("{ending}.gz")))
}

/// What `content`, which goes into `file`, is in gzip.
///
/// # Errors
///
/// None that can come: it is written to memory.
pub fn pack(file: &Path, content: &[u8]) -> io::Result<Vec<u8>> {
    // What every lesson loads, and the largest page apart, as small as it gets; the rest as a server would: it would take a
    // build longer than the bytes are worth.
    if OF_LESSONS.iter().chain(&OF_PLANNER).any(|loaded| file.ends_with(loaded)) {
        let mut out = Vec::new();
        zopfli::compress(zopfli::Options::default(), zopfli::Format::Gzip, content, &mut out)?;
        return Ok(out);
    }
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(content)?;
    encoder.finish()
}

/// The packed form of a file, unless the file was written after it.
pub fn of(file: &Path) -> Option<Vec<u8>> {
    let packed = place(file)?;
    let written = |path: &Path| fs::metadata(path).and_then(|file| file.modified()).ok();
    let current = written(&packed)? >= written(file)?;
    fs::read(packed).ok().filter(|_| current)
}
