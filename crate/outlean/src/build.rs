//! Building the course: lessons into pages, beside the assets and the program that the pages load.

use crate::course;
use crate::disk::{Failure, Files, bytes, entries, files, name_of, text};
use crate::folder;
use crate::glossary::Glossary;
use crate::numbers;
use crate::offline;
use crate::out;
use crate::packed;
use crate::page::{self, Shell};
use crate::program::{self, OF_LESSONS};
use crate::sources;
use crate::stale;
use crate::statement;
use crate::translation::Translation;
use crate::written;
use outlean_picture::Words;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// From where to where.
pub struct Places {
    /// Folder of the lessons, one folder each, in teaching order.
    pub lessons: PathBuf,
    /// Folder of elements, styles, strings, shells and fonts.
    pub assets: PathBuf,
    /// Folder of the compiled program: scripts and modules, laid out as the site has them; packed forms beside them are taken.
    pub program: PathBuf,
    /// Folder to fill.
    pub out: PathBuf,
}

/// Builds the course. A file whose content is as it was is not written again; one that an earlier build made and this one
/// does not is removed.
///
/// # Errors
///
/// The first file that cannot be read or written, or every problem of every lesson. Pages are written only when no
/// lesson has a problem.
pub fn build(places: &Places) -> Result<Vec<String>, Failure> {
    let course = course::read(std::slice::from_ref(&places.lessons))?;
    if course.errors > 0 {
        return Err(Failure::Content(course.said));
    }
    out::tell(&course.said); // warnings
    let lessons = course.lessons;
    if lessons.is_empty() {
        return Err(Failure::File(
            places.lessons.clone(),
            "no lesson in it: no folder with a lesson.md".into(),
        ));
    }
    let mut pages = BTreeMap::new();
    let (glossary, sources) = (course.glossary, course.sources);
    let translations = course.translations;
    let mut all: Files = Vec::new();
    let translated: BTreeSet<&str> = translations.iter().map(|each| each.language.as_str()).collect();
    let languages = names(places, &translated)?;
    let shell = shell(places, page::ORIGINAL, &languages, &mut all)?;
    let there_in = |name: &str| -> Vec<&str> {
        translations.iter().filter(|each| each.name == name).map(|each| each.language.as_str()).collect()
    };
    let mut uses = Vec::new();
    for (name, lesson) in &lessons {
        let (files, used) = page::lesson(&shell, name, lesson, lesson, &there_in(name), &glossary);
        pages.extend(files);
        uses.push(used);
    }
    pages.insert(home_of(folder::GLOSSARY), glossary.page(&shell, &lessons, &uses));
    pages.insert(home_of(folder::NUMBERS), numbers::page(&shell, &glossary));
    pages.insert(home_of(folder::ACCESSIBILITY), statement::page(&shell));
    pages.insert(home_of(folder::SOURCES), sources::page(&sources, &shell, &lessons));
    let frame = text(&places.assets.join("shells/embed.html"))?;
    pages.insert(PathBuf::from("embed.html"), shell.filled(&frame, "", &[]));
    let known: Vec<&str> = languages.iter().map(|(code, _)| code.as_str()).collect();
    all.push((
        Path::new(program::UNNAMED).join("strings/languages.json"),
        serde_json::to_vec(&known).unwrap_or_default(),
    ));
    let mut homes = vec![(PathBuf::new(), shell, Vec::new())];
    for language in translated {
        let own: Vec<&Translation> = translations.iter().filter(|each| each.language == language).collect();
        let shell = self::shell(places, language, &languages, &mut all)?;
        let folder = PathBuf::from(language);
        for Translation { name, lesson, .. } in &own {
            // The glossary knows the words of the originals alone.
            let original =
                lessons.iter().find(|(each, _)| each == name).map_or(lesson, |(_, original)| original);
            let there = there_in(name);
            pages.extend(page::lesson(&shell, name, lesson, original, &there, &Glossary::default()).0);
        }
        homes.push((folder, shell, own));
    }
    for (folder, shell, own) in &homes {
        for name in folder::LEARNING {
            let page = crate::course_page::page(shell, &lessons, own, name);
            pages.insert(folder.join(home_of(name)), page);
        }
        pages.insert(folder.join(home_of(folder::PLAN)), crate::plan_page::page(shell));
    }
    pages.insert(
        PathBuf::from("course.json"),
        crate::course_page::course(page::ORIGINAL, &lessons, &[]).to_string(),
    );
    loaded(places, &mut all)?;
    let size = all.iter().map(|(_, content)| content.len()).sum::<usize>()
        + pages.values().map(String::len).sum::<usize>();
    for (folder, shell, own) in &homes {
        pages.insert(folder.join("index.html"), page::home(shell, &lessons, own, size));
    }
    put(places, pages, all)?;
    Ok(lessons.into_iter().map(|(name, _)| name).collect())
}

/// The page of a folder of the course.
fn home_of(name: &str) -> PathBuf {
    Path::new(name).join("index.html")
}

/// Adds what pages load beside their words and pictures: lettering, styles, the program; and the examples.
fn loaded(places: &Places, all: &mut Files) -> Result<(), Failure> {
    let folder = Path::new(program::UNNAMED);
    copy(&places.assets.join("fonts"), &folder.join("fonts"), all)?;
    copy(&places.assets.join("examples"), Path::new(folder::EXAMPLES), all)?;
    // Of scripts, pages load those that the program comes with.
    let script = |file: &PathBuf| file.extension().is_some_and(|ending| ending == "js");
    for file in files(&places.assets)?.into_iter().filter(|file| !script(file)) {
        all.push((folder.join(name_of(&file)), bytes(&file)?));
    }
    let needed = OF_LESSONS.map(|file| places.program.join(file));
    if let Some(missing) = needed.into_iter().find(|file| !file.is_file()) {
        return Err(Failure::File(missing, "it is not there, and every lesson loads it".into()));
    }
    copy(&places.program, folder, all)
}

/// Puts pages and what they load into the folder to fill, and clears away what an earlier build left there.
fn put(places: &Places, pages: BTreeMap<PathBuf, String>, mut all: Files) -> Result<(), Failure> {
    let (pictures, pages): (Vec<_>, Vec<_>) =
        pages.into_iter().partition(|(file, _)| file.starts_with(program::UNNAMED));
    all.extend(pictures.into_iter().map(|(file, content)| (file, content.into_bytes())));
    // What pages load is known, and so is what it is called.
    let name = program::name(&all);
    all.iter_mut().for_each(|(file, _)| *file = program::place(file, &name));
    all.extend(
        pages.into_iter().map(|(file, page)| (file, page.replace(program::UNNAMED, &name).into_bytes())),
    );
    all.extend(program::entries(&all, &name));
    let worker = text(&places.assets.join(offline::WORKER))?;
    all.push((offline::WORKER.into(), offline::worker(&worker, &all).into_bytes()));
    let made = all.iter().map(|(file, _)| file.clone()).collect();
    written::write(&places.out, &name, &places.program, all)?;
    stale::clear(&places.out, &made).map_err(|why| Failure::File(places.out.clone(), why.to_string()))
}

/// Every language that there are pages in, with what it calls itself: its code where its words do not say.
fn names(places: &Places, translated: &BTreeSet<&str>) -> Result<Vec<(String, String)>, Failure> {
    let name = |code: &str| {
        let file = places.assets.join("strings").join(code).join("shell.json");
        let own = if file.is_file() { strings(&file)?.remove("language") } else { None };
        Ok((code.to_owned(), own.unwrap_or_else(|| code.to_owned())))
    };
    [page::ORIGINAL].iter().chain(translated).map(|code| name(code)).collect()
}

/// The shell of pages in a language. Adds its strings to what is written: those of English where it has none of its own, so
/// that no page is without a word.
fn shell(
    places: &Places,
    language: &str,
    languages: &[(String, String)],
    all: &mut Files,
) -> Result<Shell, Failure> {
    let folder = places.assets.join("strings");
    let original = language == page::ORIGINAL;
    let mut parts = BTreeMap::new();
    for file in files(&folder.join(page::ORIGINAL))? {
        let mut strings = strings(&file)?;
        let own = folder.join(language).join(name_of(&file));
        if !original && own.is_file() {
            strings.extend(self::strings(&own)?);
        }
        let place = Path::new(program::UNNAMED).join("strings").join(language).join(name_of(&file));
        all.push((place, serde_json::to_vec(&strings).unwrap_or_default()));
        parts.insert(name_of(&file), strings);
    }
    let words = |names: &[&str]| {
        let all = names.iter().filter_map(|name| parts.get(&format!("{name}.json"))).flatten();
        Words::new(all.map(|(key, value)| (key.clone(), value.clone())))
    };
    Ok(Shell {
        language: language.to_owned(),
        languages: languages.to_vec(),
        up: if original { "" } else { "../" },
        template: text(&places.assets.join("shells/lesson.html"))?,
        words: words(&["shell"]),
        picture: words(&["picture"]),
        figures: words(&["page"]),
        steps: words(&["steps"]),
        questions: words(&["question", "questions"]),
    })
}

fn strings(path: &Path) -> Result<BTreeMap<String, String>, Failure> {
    serde_json::from_str(&text(path)?).map_err(|why| Failure::File(path.to_owned(), why.to_string()))
}

fn copy(from: &Path, to: &Path, all: &mut Files) -> Result<(), Failure> {
    for path in entries(from)? {
        let place = to.join(name_of(&path));
        if path.is_dir() {
            copy(&path, &place, all)?;
        } else if !packed::is(&path) {
            all.push((place, bytes(&path)?));
        }
    }
    Ok(())
}
