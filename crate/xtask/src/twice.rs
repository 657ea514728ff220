//! Whether the same source gives the same course: built twice, each time from nothing, in two places.

use crate::command::{self, Failure, output_of, program};
use crate::place;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Where, below the target folder: ways of unlike length.
const PLACES: [&str; 2] = ["twice/one", "twice/another/and/farther"];

/// Content of files, by their ways, as its hash.
type Sums = BTreeMap<String, Vec<u8>>;

/// Builds the course in both places and holds every file of the one against that of the other.
pub fn run() -> Result<(), Failure> {
    let files = output_of(program("git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard"]))
        .ok_or_else(|| Failure::new("`git ls-files` does not say what the source is."))?;
    let files: Vec<&str> = files.split('\0').filter(|file| !file.is_empty()).collect();
    let [one, other] = PLACES.map(|place| built(&place::target().join(place), &files));
    let (one, other) = (one?, other?);
    let unlike = unlike(&one, &other);
    if !unlike.is_empty() {
        return Err(Failure::new(format!(
            "{} of {} files are not the same when they are built in another place: {}.\n\
             They are left in {}.",
            unlike.len(),
            one.len(),
            unlike.join(", "),
            command::short(place::target().join("twice").as_os_str())
        )));
    }
    println!("\n{} files built twice, each the same to the last byte", one.len());
    fs::remove_dir_all(place::target().join("twice"))
        .map_err(|why| Failure::new(format!("what was built twice cannot be removed: {why}")))
}

/// Copies the source to a place, builds the course there, and gives what it comes to.
fn built(folder: &Path, files: &[&str]) -> Result<Sums, Failure> {
    let failed = |why: io::Error| Failure::new(format!("{}: {why}", folder.display()));
    let cleared = if folder.exists() { fs::remove_dir_all(folder) } else { Ok(()) };
    cleared.map_err(failed)?;
    let source = folder.join("source");
    for file in files {
        let (from, to) = (place::root().join(file), source.join(file));
        // One that is gone and not yet taken out of the list is none of the source.
        if from.is_file() {
            to.parent()
                .map_or(Ok(()), fs::create_dir_all)
                .and_then(|()| fs::copy(&from, &to))
                .map_err(failed)?;
        }
    }
    let target = folder.join("target");
    let mut build = program("cargo", ["run", "--quiet", "--locked", "--package", "xtask", "--", "build"]);
    build.current_dir(&source).env("CARGO_TARGET_DIR", &target);
    command::run(&mut build, "The course can be built, but not in another place; the errors above say why.")?;
    let mut sums = Sums::new();
    collect(&target.join("site"), "", &mut sums).map_err(failed)?;
    if sums.is_empty() {
        return Err(Failure::new(format!("nothing was built in {}.", folder.display())));
    }
    Ok(sums)
}

/// Adds the hash of every file below a folder.
fn collect(folder: &Path, way: &str, sums: &mut Sums) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path: PathBuf = entry?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        let way = if way.is_empty() { name.into_owned() } else { format!("{way}/{name}") };
        if path.is_dir() {
            collect(&path, &way, sums)?;
        } else {
            sums.insert(way, Sha256::digest(fs::read(&path)?).to_vec());
        }
    }
    Ok(())
}

/// The ways of files that only one has, or that are not the same in both.
fn unlike(one: &Sums, other: &Sums) -> Vec<String> {
    let mut ways: Vec<String> = one.keys().chain(other.keys()).cloned().collect();
    ways.sort();
    ways.dedup();
    ways.retain(|way| one.get(way) != other.get(way));
    ways
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_the_same_is_named() {
        let sums = |all: &[(&str, u8)]| -> Sums {
            all.iter().map(|(way, sum)| ((*way).to_owned(), vec![*sum])).collect()
        };
        let one = sums(&[("a", 1), ("b", 2), ("c", 3)]);
        assert_eq!(unlike(&one, &one), Vec::<String>::new());
        assert_eq!(unlike(&one, &sums(&[("a", 1), ("b", 3), ("d", 3)])), ["b", "c", "d"]);
    }
}
