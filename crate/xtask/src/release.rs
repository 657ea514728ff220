//! `cargo xtask release`: the native program and the built course in one archive. The same source gives the same bytes:
//! files in order, of one time, of nobody, with no way of this machine in them.

use crate::command::{self, Failure, cargo, output_of, program};
use crate::{arguments, build, licences, place, remapped};
use flate2::{Compression, GzBuilder};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::env::consts::EXE_SUFFIX;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use tar::{Builder, EntryType, Header};

const VERSION: &str = env!("CARGO_PKG_VERSION");
/// When everything in an archive is said to have been written: 1 January 1980, UTC, before which zips know no time.
const WRITTEN: u64 = 315_532_800;
/// What is said of the archive in it.
const READ_FIRST: &str = include_str!("../pages/archive.md");

/// Texts that go in as they are: what each is called there, and where it is.
const TEXTS: [(&str, &str); 4] = [
    ("LICENSE-MIT", "LICENSE-MIT"),
    ("LICENSE-APACHE", "LICENSE-APACHE"),
    ("PROGRAM.md", "crate/outlean/README.md"),
    ("SERVING.md", "crate/outlean/SERVING.md"),
];
/// What may stand in a rig file, as the source tells it, and what that is called.
const RIG_FILE: (&str, &str) = ("RIGFILE.md", include_str!("../../rigfile/src/file/mod.rs"));

/// Files of an archive by their ways in it.
type Files = BTreeMap<String, Vec<u8>>;

/// Fills target/archive.
pub fn run(arguments: &[String]) -> Result<(), Failure> {
    arguments::only(arguments, &[])?;
    build::run(&[])?;
    let host = host()?;
    let name = format!("outlean-{VERSION}-{host}");
    let mut files = files(&host)?;
    let sums: String = files.iter().map(|(way, content)| format!("{}  {way}\n", sum(content))).collect();
    files.insert("SHA256SUMS".into(), sums.into_bytes());
    let unwritten = |why: io::Error| Failure::new(format!("the archive could not be written: {why}"));
    let archive = archive(&name, &files).map_err(unwritten)?;
    let place = place::archive().join(format!("{name}.tar.gz"));
    let line = format!("{}  {name}.tar.gz\n", sum(&archive));
    fs::write(&place, &archive).map_err(unwritten)?;
    fs::write(place::archive().join(format!("{name}.tar.gz.sha256")), &line).map_err(unwritten)?;
    println!(
        "\n{}: {} files, {} bytes\n{}",
        command::short(place.as_os_str()),
        files.len(),
        archive.len(),
        line.trim_end()
    );
    Ok(())
}

/// What machine this is, as the compiler calls it.
fn host() -> Result<String, Failure> {
    let said = output_of(program("rustc", ["--version", "--verbose"])).unwrap_or_default();
    let host = said.lines().find_map(|line| line.strip_prefix("host: "));
    host.map(str::to_owned).ok_or_else(|| Failure::new("`rustc --version --verbose` does not say its host."))
}

/// All that goes into the archive: the program, the course as it is served, what the program builds a course from.
fn files(host: &str) -> Result<Files, Failure> {
    let target = place::archive().join("native");
    // In a folder of its own: with the ways of this machine left out it is another program, for cargo.
    let mut compile = cargo("build --release --package outlean --locked --target-dir");
    // The target is named, so that what is set for it does not go into programs that build others.
    compile.arg(&target).args(["--target", host]).args(remapped::settings(host));
    command::run(&mut compile, "The errors above are in the native program or a crate below it.")?;
    let mut files = Files::new();
    let mut put = |way: &str, from: &Path| {
        let content = fs::read(from).map_err(|why| Failure::new(format!("{}: {why}", from.display())))?;
        files.insert(way.to_owned(), content);
        Ok::<(), Failure>(())
    };
    let outlean = format!("outlean{EXE_SUFFIX}");
    let native = target.join(host).join("release").join(&outlean);
    remapped::check(&native)?;
    put(&outlean, &native)?;
    for (name, way) in TEXTS {
        put(name, &place::root().join(way))?;
    }
    files.insert(RIG_FILE.0.into(), comment(RIG_FILE.1).into_bytes());
    files.insert("README.md".into(), READ_FIRST.replace("{version}", VERSION).into_bytes());
    files.insert("LICENCES.txt".into(), licences::text(host)?.into_bytes());
    for (name, folder) in folders() {
        collect(&folder, name, &mut files)
            .map_err(|why| Failure::new(format!("{} cannot be read: {why}", folder.display())))?;
    }
    // Of scripts a course is built from those in `program`, and from this.
    files.retain(|way, _| {
        !way.starts_with("assets/") || !way.ends_with(".js") || way.ends_with("/offline-worker.js")
    });
    Ok(files)
}

/// Folders that go in whole: what each is called there, and where it is.
fn folders() -> [(&'static str, PathBuf); 5] {
    [
        ("site", place::site()),
        ("program", place::program()),
        ("assets", place::assets()),
        ("lessons", place::root().join("lessons")),
        ("sites", place::root().join("crate/outlean/sites")),
    ]
}

/// The comment at the top of a source file as a page of its own, its first sentence the heading.
fn comment(source: &str) -> String {
    let lines = source.lines().map_while(|line| line.strip_prefix("//!"));
    let text: Vec<&str> = lines.map(|line| line.strip_prefix(' ').unwrap_or(line)).collect();
    format!("# {}\n", text.join("\n"))
}

/// Adds every file below a folder, by its way.
fn collect(folder: &Path, way: &str, files: &mut Files) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let way = format!("{way}/{}", entry.file_name().to_string_lossy());
        if entry.file_type()?.is_dir() {
            collect(&entry.path(), &way, files)?;
        } else {
            files.insert(way, fs::read(entry.path())?);
        }
    }
    Ok(())
}

/// The archive with these files in a folder of this name.
fn archive(name: &str, files: &Files) -> io::Result<Vec<u8>> {
    let packed = GzBuilder::new().mtime(0).write(Vec::new(), Compression::best());
    let mut archive = Builder::new(packed);
    for (way, content) in files {
        let mut header = Header::new_gnu();
        header.set_entry_type(EntryType::Regular);
        header.set_size(content.len() as u64);
        header.set_mode(if *way == format!("outlean{EXE_SUFFIX}") { 0o755 } else { 0o644 });
        header.set_mtime(WRITTEN);
        header.set_uid(0);
        header.set_gid(0);
        archive.append_data(&mut header, format!("{name}/{way}"), content.as_slice())?;
    }
    let mut packed = archive.into_inner()?;
    packed.flush()?;
    packed.finish()
}

/// The SHA-256 of some content, in hexadecimal.
fn sum(content: &[u8]) -> String {
    Sha256::digest(content).iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_archive_is_of_its_files_alone() {
        let files: Files = [("outlean", "a program"), ("site/index.html", "a page")]
            .into_iter()
            .map(|(way, content)| (way.to_owned(), content.as_bytes().to_vec()))
            .collect();
        let made = archive("outlean-1-here", &files).unwrap();
        assert_eq!(made, archive("outlean-1-here", &files).unwrap());
        let mut read = tar::Archive::new(flate2::read::GzDecoder::new(made.as_slice()));
        let entries: Vec<(String, u32, u64)> = read
            .entries()
            .unwrap()
            .map(|entry| {
                let entry = entry.unwrap();
                let header = entry.header();
                assert_eq!((header.uid().unwrap(), header.gid().unwrap()), (0, 0));
                (entry.path().unwrap().display().to_string(), header.mode().unwrap(), header.mtime().unwrap())
            })
            .collect();
        let wanted = [("outlean-1-here/outlean", 0o755), ("outlean-1-here/site/index.html", 0o644)];
        assert_eq!(entries, wanted.map(|(way, mode)| (way.to_owned(), mode, WRITTEN)));
    }

    /// What the archive says of itself, and what its page on the program points to.
    #[test]
    fn all_that_is_told_of_is_in_it() {
        let mut packed: Vec<&str> = TEXTS.iter().map(|(name, _)| *name).collect();
        packed.extend(folders().map(|(name, _)| name));
        packed.extend([RIG_FILE.0, "outlean", "LICENCES.txt", "SHA256SUMS"]);
        packed.sort_unstable();
        let rows = READ_FIRST.lines().filter_map(|line| line.strip_prefix("| `")?.split(" |").next());
        let mut told: Vec<&str> = rows.flat_map(|names| names.split(", ")).collect();
        told.iter_mut().for_each(|name| *name = name.trim_matches('`'));
        told.sort_unstable();
        assert_eq!(told, packed);
        let program = include_str!("../../outlean/README.md");
        for way in ["`RIGFILE.md` beside the program", "`sites` beside the program", "`lessons/README.md`"] {
            assert!(program.contains(way), "{way}");
        }
        assert!(
            folders()
                .iter()
                .all(|(name, folder)| *name != "sites" || folder.join("mill-race.toml").is_file())
        );
    }

    #[test]
    fn the_rig_file_is_told_of_as_a_page() {
        let page = comment(RIG_FILE.1);
        assert!(page.starts_with("# The rig file: a rig as an author writes it, in TOML.\n\nEvery quantity"));
        assert!(
            page.contains("\n[legs] ")
                && page.contains("\n```toml\n")
                && page.ends_with("common practice.\n")
        );
        for code in ["//!", "crate::", "mod assemble"] {
            assert!(!page.contains(code), "{code}");
        }
    }

    #[test]
    fn a_sum_is_the_published_one() {
        // FIPS 180-2, appendix B.1.
        assert_eq!(sum(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }
}
