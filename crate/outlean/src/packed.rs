//! Files packed once, when the course is built, better than a server packs them for each reader: beside `page.js`
//! stand `page.js.br` and `page.js.gz`. Any server that sends packed files that it finds can send them.

use crate::program::OF_LESSONS;
use brotli::enc::BrotliEncoderParams;
use flate2::{Compression, write::GzEncoder};
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Endings of files that packing makes smaller; pictures and fonts are packed already.
const ENDINGS: [&str; 6] = ["css", "html", "js", "json", "svg", "wasm"];

/// What the planning page loads besides.
const OF_PLANNER: [&str; 2] = ["plan.js", "wasm/planner_bg.wasm"];

/// A way of packing that browsers know.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Packing {
    /// RFC 7932, a tenth smaller than the other; browsers ask for it over https.
    Brotli,
    /// RFC 1952.
    Gzip,
}

impl Packing {
    /// All of them, the smallest first.
    pub const ALL: [Self; 2] = [Self::Brotli, Self::Gzip];

    /// What the packed file's name ends in.
    pub const fn ending(self) -> &'static str {
        match self {
            Self::Brotli => "br",
            Self::Gzip => "gz",
        }
    }

    /// What HTTP calls it.
    pub const fn coding(self) -> &'static str {
        match self {
            Self::Brotli => "br",
            Self::Gzip => "gzip",
        }
    }
}

/// Whether a file is the packed form of another.
pub fn is(file: &Path) -> bool {
    file.extension().is_some_and(|ending| Packing::ALL.iter().any(|packing| ending == packing.ending()))
}

/// Where the packed form of a file stands; `None` for a file that has none.
pub fn place(file: &Path, packing: Packing) -> Option<PathBuf> {
    let ending = file.extension()?.to_str()?;
    ENDINGS.contains(&ending).then(|| file.with_extension(format!("{ending}.{}", packing.ending())))
}

/// What `content`, which goes into `file`, is packed.
///
/// # Errors
///
/// None that can come: it is written to memory.
pub fn pack(file: &Path, content: &[u8], packing: Packing) -> io::Result<Vec<u8>> {
    let mut out = Vec::new();
    if packing == Packing::Brotli {
        let best = BrotliEncoderParams { quality: 11, size_hint: content.len(), ..Default::default() };
        brotli::BrotliCompress(&mut &*content, &mut out, &best)?;
        return Ok(out);
    }
    // What every lesson loads, and the largest page apart, as small as it gets; the rest as a server would: it would take a
    // build longer than the bytes are worth.
    if OF_LESSONS.iter().chain(&OF_PLANNER).any(|loaded| file.ends_with(loaded)) {
        zopfli::compress(zopfli::Options::default(), zopfli::Format::Gzip, content, &mut out)?;
        return Ok(out);
    }
    let mut encoder = GzEncoder::new(out, Compression::best());
    encoder.write_all(content)?;
    encoder.finish()
}

/// The packed form of a file, unless the file was written after it.
pub fn of(file: &Path, packing: Packing) -> Option<Vec<u8>> {
    let packed = place(file, packing)?;
    let written = |path: &Path| fs::metadata(path).and_then(|file| file.modified()).ok();
    let current = written(&packed)? >= written(file)?;
    fs::read(packed).ok().filter(|_| current)
}
