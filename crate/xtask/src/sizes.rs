//! What a page makes a learner's machine load, and the most it may.

use crate::command::Failure;
use flate2::{Compression, write::GzEncoder};
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Most bytes of wasm and JavaScript as they are served: the packed file beside each; fonts apart. The aim is 100,000:
/// this holds what has been reached, and goes down with it. It went up three times: by 100, for what elements promise on anyone's page
/// (parts, a cause by name for each failure to start, memory given back); by 300, for how a frame set before loading is
/// judged where it comes to rest, and for a browser whose worker gets slower with each font; by 1,450, for guys that
/// are held against what each would pull without the others.
const BUDGET: usize = 238_350;

/// The same of what the planning page loads for itself. The aim is 150,000. It went up by 4,100, for what a plan had left out that
/// a frame depends on: feet held down, holdfasts of which nothing is said, the room at the edge at its least, whether the test load
/// holds.
const PLANNER_BUDGET: usize = 256_100;
/// What that is.
const PLANNER: [&str; 2] = ["plan.js", "planner_bg.wasm"];

/// What lessons do not load: of a speaker's page, of a page that is led, of the record's, of the class's, of the refresher's,
/// of the planner's, of a learning system's, of the first page and what keeps the course on a machine, of
/// a lesson in one file, of anyone's page and of frames in it.
const APART: [&str; 17] = [
    "speaker.js",
    "led.js",
    "hands.js",
    "record.js",
    "class.js",
    "class_bg.wasm",
    "refresher.js",
    "refresher_bg.wasm",
    "plan.js",
    "planner_bg.wasm",
    "lms.js",
    "offline.js",
    "offline-worker.js",
    "single.js",
    "elements.js",
    "embed.js",
    "frames.js",
];

/// Prints the size of every `.wasm` and `.js` file under `site`, through gzip at its best level and as it is served, by gzip
/// and by brotli, and fails when what is served by gzip is past the budget.
pub fn check(site: &Path) -> Result<(), Failure> {
    let unread =
        |why: io::Error| Failure::new(format!("the sizes of {} cannot be read: {why}", site.display()));
    let mut files = Vec::new();
    collect(site, &mut files).map_err(unread)?;
    files.sort();
    let (mut plain_total, mut total, mut planner) = (0, [0; 2], [0; 2]);
    println!("\n{:>9}  {:>9}  {:>9}  {:>9}", "bytes", "gzip -9", "served", "brotli");
    for file in &files {
        let bytes = fs::read(file).map_err(unread)?;
        let plain = gzip(&bytes).map_err(unread)?;
        let served = [beside(file, ".gz").map_err(unread)?, beside(file, ".br").map_err(unread)?];
        if file.file_name().is_none_or(|name| APART.iter().all(|apart| name != *apart)) {
            plain_total += plain;
            total = added(total, served);
        }
        if file.file_name().is_some_and(|name| PLANNER.iter().any(|part| name == *part)) {
            planner = added(planner, served);
        }
        let name = file.strip_prefix(site).unwrap_or(file);
        let [gzip, brotli] = served;
        println!("{:>9}  {plain:>9}  {gzip:>9}  {brotli:>9}  {}", bytes.len(), name.display());
    }
    let ([total, brotli], [planner, planner_brotli]) = (total, planner);
    let what = "wasm and JavaScript of a lesson page";
    println!("{:>9}  {plain_total:>9}  {total:>9}  {brotli:>9}  {what}; at most {BUDGET} served", "");
    println!(
        "{:>9}  {:>9}  {planner:>9}  {planner_brotli:>9}  of the planning page alone; at most {PLANNER_BUDGET} served",
        "", ""
    );
    if files.is_empty() {
        return Err(Failure::new(format!("there is no .wasm or .js under {}.", site.display())));
    }
    held("wasm and JavaScript of a lesson page", total, BUDGET)?;
    held("wasm and JavaScript of the planning page", planner, PLANNER_BUDGET)
}

/// Fails where more is served than may be.
fn held(what: &str, served: usize, most: usize) -> Result<(), Failure> {
    if served <= most {
        return Ok(());
    }
    Err(Failure::new(format!(
        "{what} are {served} bytes as they are served; at most {most} are allowed.\n\
         Take something out: the table above says where the bytes are."
    )))
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

/// Length of the packed form of a file, with this after its name.
fn beside(file: &Path, ending: &str) -> io::Result<usize> {
    let mut beside = file.to_owned().into_os_string();
    beside.push(ending);
    Ok(fs::read(beside)?.len())
}

/// What is served by gzip and by brotli, with more of each.
const fn added([gzip, brotli]: [usize; 2], [more, more_brotli]: [usize; 2]) -> [usize; 2] {
    [gzip + more, brotli + more_brotli]
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

    /// A file with a packed one of `length` bytes beside it.
    fn put(file: PathBuf, length: usize) {
        for packed in ["gz", "br"] {
            let ending = format!("{}.{packed}", file.extension().unwrap().display());
            fs::write(file.with_extension(ending), vec![0; length]).unwrap();
        }
        fs::write(file, "what is in it").unwrap();
    }

    #[test]
    fn only_wasm_and_javascript_count_and_the_budget_holds() {
        let site = std::env::temp_dir().join(format!("outlean-sizes-{}", std::process::id()));
        fs::create_dir_all(site.join("a/b")).unwrap();
        assert!(check(&site).is_err(), "nothing to load is a broken build");
        put(site.join("a/b/page.js"), BUDGET / 2);
        put(site.join("a/font.woff2"), BUDGET);
        put(site.join(APART[0]), BUDGET);
        assert!(check(&site).is_ok());
        put(site.join("module.wasm"), BUDGET / 2 + 1);
        assert!(check(&site).unwrap_err().message.contains(&format!("at most {BUDGET}")));
        put(site.join("module.wasm"), 0);
        put(site.join(PLANNER[0]), PLANNER_BUDGET / 2);
        put(site.join(PLANNER[1]), PLANNER_BUDGET / 2);
        assert!(check(&site).is_ok());
        put(site.join(PLANNER[1]), PLANNER_BUDGET / 2 + 2);
        assert!(check(&site).unwrap_err().message.contains(&format!("at most {PLANNER_BUDGET}")));
        fs::write(site.join("unpacked.js"), "what is in it").unwrap();
        assert!(check(&site).unwrap_err().message.contains("cannot be read"));
        fs::remove_dir_all(site).unwrap();
    }
}
