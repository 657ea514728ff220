//! Building the course: lessons into pages, beside the assets and the program that the pages load.

use crate::course;
use crate::page::{self, Shell};
use outlean_picture::Words;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// From where to where.
pub struct Places<'a> {
    /// Folder of the lessons, one folder each, in teaching order.
    pub lessons: &'a Path,
    /// Folder of elements, styles, strings, shells and fonts.
    pub assets: &'a Path,
    /// Folder of the compiled program: `page.js`, `speaker.js`, `record.js`, `outlean_bg.wasm`.
    pub program: &'a Path,
    /// Folder to fill.
    pub out: &'a Path,
}

/// Why a course could not be built.
pub enum Failure {
    /// A file could not be read or written: which, and why.
    File(PathBuf, String),
    /// A lesson or a rig file has problems: the rendered text of all of them.
    Content(String),
}

/// Builds the course. A file whose content is as it was is not written again.
///
/// # Errors
///
/// The first file that cannot be read or written, or every problem of every lesson. Pages are written only when no
/// lesson has a problem.
pub fn build(places: &Places<'_>) -> Result<Vec<String>, Failure> {
    let words = strings(&places.assets.join("strings/en/shell.json"))?;
    let picture = strings(&places.assets.join("strings/en/picture.json"))?;
    let shell = Shell { template: text(&places.assets.join("shells/lesson.html"))?, words, picture };
    let course = course::read(&[places.lessons.to_owned()])?;
    if course.errors > 0 {
        return Err(Failure::Content(course.said));
    }
    eprint!("{}", course.said); // warnings
    let lessons = course.lessons;
    if lessons.is_empty() {
        return Err(Failure::File(
            places.lessons.to_owned(),
            "no lesson in it: no folder with a lesson.md".into(),
        ));
    }
    let mut pages = BTreeMap::new();
    for (name, lesson) in &lessons {
        for (file, content) in page::lesson(&shell, name, lesson) {
            pages.insert(file, content);
        }
    }
    pages.insert(PathBuf::from("index.html"), page::home(&shell, &lessons));
    pages.insert(PathBuf::from("record/index.html"), crate::record_page::page(&shell));
    for folder in ["fonts", "strings"] {
        copy(&places.assets.join(folder), &places.out.join(folder))?;
    }
    // Of scripts, pages load those that the program comes with.
    let script = |file: &PathBuf| file.extension().is_some_and(|ending| ending == "js");
    for file in files(places.assets)?.into_iter().filter(|file| !script(file)) {
        put(&places.out.join(name_of(&file)), &bytes(&file)?)?;
    }
    for (file, place) in [
        ("page.js", "page.js"),
        ("speaker.js", "speaker.js"),
        ("record.js", "record.js"),
        ("outlean_bg.wasm", "wasm/outlean_bg.wasm"),
    ] {
        put(&places.out.join(place), &bytes(&places.program.join(file))?)?;
    }
    for (file, content) in &pages {
        put(&places.out.join(file), content.as_bytes())?;
    }
    Ok(lessons.into_iter().map(|(name, _)| name).collect())
}

fn strings(path: &Path) -> Result<Words, Failure> {
    serde_json::from_str(&text(path)?).map_err(|why| Failure::File(path.to_owned(), why.to_string()))
}

/// The text of a file.
pub fn text(path: &Path) -> Result<String, Failure> {
    fs::read_to_string(path).map_err(|why| Failure::File(path.to_owned(), why.to_string()))
}

fn bytes(path: &Path) -> Result<Vec<u8>, Failure> {
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

fn copy(from: &Path, to: &Path) -> Result<(), Failure> {
    for path in entries(from)? {
        let place = to.join(name_of(&path));
        if path.is_dir() {
            copy(&path, &place)?;
        } else {
            put(&place, &bytes(&path)?)?;
        }
    }
    Ok(())
}

/// Writes a file, and its packed form, unless it already says the same.
fn put(path: &Path, content: &[u8]) -> Result<(), Failure> {
    let packed = crate::packed::place(path);
    if fs::read(path).is_ok_and(|now| now == content) && packed.as_ref().is_none_or(|path| path.exists()) {
        return Ok(());
    }
    let failed = |why: std::io::Error| Failure::File(path.to_owned(), why.to_string());
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder).map_err(failed)?;
    }
    fs::write(path, content).map_err(failed)?;
    match packed {
        Some(packed) => {
            crate::packed::pack(content).and_then(|content| fs::write(packed, content)).map_err(failed)
        }
        None => Ok(()),
    }
}
