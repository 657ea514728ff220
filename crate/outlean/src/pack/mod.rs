//! `outlean pack`: a built course as a zip that a learning system takes as it is or as a package for npm, or a lesson of it as one
//! file.
//!
//! Into a zip the whole course goes, whichever lesson is packed: its pages link to one another. What is packed decides what the
//! learning system starts and asks of: one lesson, or each of them.

mod course_structure;
mod manifest;
mod npm;
mod single;

use crate::disk::{Failure, entries};
use crate::out;
use crate::version::way;
use crate::{packed, policy, program};
use course_structure::{COURSE, course_structure};
use manifest::{Page, manifest};
use outlean_course::PASS;
use serde::Deserialize;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

/// What is to be packed.
#[derive(clap::Args)]
pub struct Wanted {
    /// What for.
    #[arg(value_enum)]
    form: Form,
    /// Folder of the built course.
    #[arg(long)]
    site: PathBuf,
    /// The lesson, by the name of its folder; in a zip each of them where none is named.
    #[arg(long, required_if_eq("form", "file"))]
    lesson: Option<String>,
    /// Folder of the declarations of types and of the manifest of elements, for npm.
    #[arg(long)]
    types: Option<PathBuf>,
    /// The file to write; for npm the folder to fill.
    #[arg(short, long)]
    output: PathBuf,
}

/// What a course is packed for.
#[derive(Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum Form {
    /// A learning system that keeps to SCORM 1.2.
    Scorm12,
    /// A learning system that keeps to SCORM 2004, 4th edition.
    Scorm2004,
    /// A learning system that keeps to cmi5, with a record store (LRS) of xAPI 1.0.3.
    Cmi5,
    /// A browser, from a disk: one lesson in one HTML file.
    File,
    /// Pages of others that take the program by npm: a folder with a package.json.
    Npm,
}

/// A standard of learning systems whose packages have an `imsmanifest.xml`.
#[derive(Clone, Copy)]
pub enum Standard {
    /// SCORM 1.2.
    Scorm12,
    /// SCORM 2004, 4th edition.
    Scorm2004,
}

/// A lesson, as a built course lists it.
#[derive(Deserialize)]
struct Lesson {
    name: String,
    title: String,
    #[serde(default)]
    objectives: Vec<String>,
}

/// The page of a lesson with a script of the program that pages of a learning system load besides, before the end of its head: it
/// also says what share of right answers passes, and the name of the course.
fn with_script(page: &str, script: &str) -> String {
    let Some(program) = program::of(page) else { return page.to_owned() };
    let script = format!(
        "<script type=\"module\" src=\"../{program}/{script}\" data-pass=\"{PASS}\" data-course=\"{COURSE}\"></script>\n</head>"
    );
    page.replacen("</head>", &script, 1)
}

/// Writes the file. 2 where the folder holds no built course or no such lesson, or a file cannot be read or written.
pub fn run(wanted: &Wanted) -> ExitCode {
    match pack(wanted) {
        Ok(count) => out::print(&format!("{}: {count} files\n", wanted.output.display()), ExitCode::SUCCESS),
        Err(Failure::Content(why)) => crate::failed(&why),
        Err(Failure::File(path, why)) => crate::failed(&format!("{}: {why}", path.display())),
    }
}

/// What tells a learning system of the pages and files of a package.
type Listing = fn(&[Page], &[String]) -> String;

/// How many files went in.
fn pack(wanted: &Wanted) -> Result<usize, Failure> {
    let told = |path: &Path, why: &dyn std::fmt::Display| Failure::File(path.to_owned(), why.to_string());
    let list = wanted.site.join("course.json");
    let text = fs::read(&list).map_err(|why| told(&list, &format!("{why}; it is no built course")))?;
    let mut lessons: Vec<Lesson> = serde_json::from_slice(&text).map_err(|why| told(&list, &why))?;
    if let Some(name) = &wanted.lesson {
        let known: Vec<String> = lessons.iter().map(|lesson| lesson.name.clone()).collect();
        lessons.retain(|lesson| lesson.name == *name);
        if lessons.is_empty() {
            let known = known.join(", ");
            return Err(Failure::Content(format!("--lesson is `{name}`; the course has {known}")));
        }
    }
    let (name, listing): (_, Listing) = match wanted.form {
        Form::Scorm12 => ("imsmanifest.xml", |pages, files| manifest(Standard::Scorm12, pages, files)),
        Form::Scorm2004 => ("imsmanifest.xml", |pages, files| manifest(Standard::Scorm2004, pages, files)),
        Form::Cmi5 => ("cmi5.xml", |pages, _| course_structure(pages)),
        Form::File => return single::single(&wanted.site, &lessons, &wanted.output),
        Form::Npm => return npm::npm(&wanted.site, wanted.types.as_deref(), &wanted.output),
    };
    let files = below(&wanted.site, &wanted.output)?;
    let page = |Lesson { name, title, objectives }| Page { name, title, about: objectives.join(" ") };
    let pages: Vec<Page> = lessons.into_iter().map(page).collect();
    let listed = listing(&pages, &files);
    let write = || -> io::Result<()> {
        let mut zip = ZipWriter::new(File::create(&wanted.output)?);
        // No time of day: the same course gives the same zip.
        let options = SimpleFileOptions::default();
        zip.start_file(name, options)?;
        zip.write_all(listed.as_bytes())?;
        for file in &files {
            let mut content = fs::read(wanted.site.join(file))?;
            if pages.iter().any(|page| page.href() == *file) {
                let page = with_script(&String::from_utf8_lossy(&content), "lms.js");
                content = match wanted.form {
                    Form::Cmi5 => policy::under(&page, &policy::with_store()),
                    _ => page,
                }
                .into_bytes();
            }
            zip.start_file(file, options)?;
            zip.write_all(&content)?;
        }
        zip.finish()?.flush()
    };
    write().map_err(|why| told(&wanted.output, &why))?;
    Ok(files.len() + 1)
}

/// The files below a folder, by their ways from it, in order; what is packed for a server stays out, and so does what an earlier
/// run put at `output`.
fn below(folder: &Path, output: &Path) -> Result<Vec<String>, Failure> {
    let mut files = Vec::new();
    collect(folder, folder, output.canonicalize().ok().as_deref(), &mut files)?;
    files.sort();
    Ok(files)
}

/// Adds those below `folder`, by their ways from `root`.
fn collect(
    root: &Path,
    folder: &Path,
    output: Option<&Path>,
    files: &mut Vec<String>,
) -> Result<(), Failure> {
    for path in entries(folder)? {
        if output.is_some() && path.canonicalize().ok().as_deref() == output {
            continue;
        }
        if path.is_dir() {
            collect(root, &path, output, files)?;
        } else if !packed::is(&path) {
            files.push(way(path.strip_prefix(root).unwrap_or(&path)));
        }
    }
    Ok(())
}
