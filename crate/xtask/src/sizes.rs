//! What a page makes a learner's machine load, and the most it may.

use crate::command::Failure;
use flate2::{Compression, write::GzEncoder};
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Most bytes of wasm and JavaScript, each file through gzip at its best level; fonts apart. The aim is 100,000: this
/// holds what has been reached, and goes down with it.
const BUDGET: usize = 160_000;

/// Prints the size of every `.wasm` and `.js` file under `site` and fails when together they are past the budget.
pub fn check(site: &Path) -> Result<(), Failure> {
    let unread =
        |why: io::Error| Failure::new(format!("the sizes of {} cannot be read: {why}", site.display()));
    let mut files = Vec::new();
    collect(site, &mut files).map_err(unread)?;
    files.sort();
    let mut total = 0;
    println!("\n{:>9}  {:>9}  ", "bytes", "gzip");
    for file in &files {
        let bytes = fs::read(file).map_err(unread)?;
        let packed = gzip(&bytes).map_err(unread)?;
        total += packed;
        let name = file.strip_prefix(site).unwrap_or(file);
        println!("{:>9}  {packed:>9}  {}", bytes.len(), name.display());
    }
    println!("{:>9}  {total:>9}  wasm and JavaScript of a lesson page; at most {BUDGET}", "");
    if files.is_empty() {
        return Err(Failure::new(format!("there is no .wasm or .js under {}.", site.display())));
    }
    if total > BUDGET {
        return Err(Failure::new(format!(
            "wasm and JavaScript are {total} bytes in gzip; at most {BUDGET} are allowed.\n\
             Take something out: the table above says where the bytes are."
        )));
    }
    Ok(())
}

/// Adds every `.wasm` and `.js` file under `folder`.
fn collect(folder: &Path, files: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            collect(&path, files)?;
        } else if path.extension().is_some_and(|ending| ending == "wasm" || ending == "js") {
            files.push(path);
        }
    }
    Ok(())
}

/// Length of `bytes` in gzip.
fn gzip(bytes: &[u8]) -> io::Result<usize> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(bytes)?;
    Ok(encoder.finish()?.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Bytes that gzip cannot make smaller.
    fn noise(length: usize) -> Vec<u8> {
        let mut state = 0x9e37_79b9_7f4a_7c15_u64;
        let mut next = || {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            (state >> 32) as u8
        };
        (0..length).map(|_| next()).collect()
    }

    #[test]
    fn only_wasm_and_javascript_count_and_the_budget_holds() {
        let site = std::env::temp_dir().join(format!("outlean-sizes-{}", std::process::id()));
        fs::create_dir_all(site.join("a/b")).unwrap();
        assert!(check(&site).is_err(), "nothing to load is a broken build");
        fs::write(site.join("a/b/page.js"), noise(BUDGET / 2)).unwrap();
        fs::write(site.join("a/font.woff2"), noise(BUDGET)).unwrap();
        assert!(check(&site).is_ok());
        fs::write(site.join("module.wasm"), noise(BUDGET / 2)).unwrap();
        assert!(check(&site).unwrap_err().message.contains("at most 160000"));
        fs::remove_dir_all(site).unwrap();
    }
}
