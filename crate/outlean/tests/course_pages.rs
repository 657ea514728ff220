//! The pages of the whole course that `outlean build` makes beside its lessons, held against the lessons.

#![expect(clippy::expect_used, clippy::panic, reason = "a test that cannot build has failed")]

mod common;
mod policy;

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::OnceLock;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// An empty folder of this name.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("course-pages").join(name);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("the folder can be made");
    folder
}

fn built(lessons: &Path, assets: &Path, place: &Path) -> Output {
    let program = common::program(place);
    fs::write(program.join("single.js"), "stands(\"for the program\")").expect("writable");
    Command::new(env!("CARGO_BIN_EXE_outlean"))
        .arg("build")
        .arg("--lessons")
        .arg(lessons)
        .arg("--assets")
        .arg(assets)
        .arg("--program")
        .arg(program)
        .arg("--out")
        .arg(place.join("site"))
        .output()
        .expect("the program runs")
}

/// The course, built.
fn site() -> &'static Path {
    static SITE: OnceLock<PathBuf> = OnceLock::new();
    SITE.get_or_init(|| {
        let place = folder("course");
        let output = built(&root().join("lessons"), &root().join("www"), &place);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        place.join("site")
    })
}

/// The pages of the course itself, by their folders; that of the course by none.
fn course() -> &'static BTreeMap<String, String> {
    static PAGES: OnceLock<BTreeMap<String, String>> = OnceLock::new();
    PAGES.get_or_init(|| {
        let mut pages = BTreeMap::new();
        let site = site();
        let read = |path: PathBuf| fs::read_to_string(path).ok();
        pages.extend(read(site.join("index.html")).map(|page| (String::new(), page)));
        for entry in fs::read_dir(site).expect("it is filled") {
            let entry = entry.expect("readable");
            let name = entry.file_name().to_string_lossy().into_owned();
            pages.extend(read(entry.path().join("index.html")).map(|page| (name, page)));
        }
        pages
    })
}

fn page(name: &str) -> &'static str {
    course().get(name).unwrap_or_else(|| panic!("there is no page {name}"))
}

/// What stands in the built course beside its lessons cannot be the name of one: one of the two would be lost.
#[test]
fn no_lesson_can_take_the_place_of_a_page() {
    let named: BTreeSet<&str> = lessons().map(|(name, _)| name).collect();
    let place = folder("taken");
    let mut tried = 0;
    for entry in fs::read_dir(site()).expect("it is filled").flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        if named.contains(name.as_str()) {
            continue;
        }
        let output = Command::new(env!("CARGO_BIN_EXE_outlean"))
            .args(["new-lesson", &name, "--lessons"])
            .arg(&place)
            .output()
            .expect("the program runs");
        assert_eq!(output.status.code(), Some(2), "{name}");
        tried += usize::from(entry.path().is_dir());
    }
    assert!(tried >= 11, "{tried} folders");
}

/// The pages of lessons, by their folders.
fn lessons() -> impl Iterator<Item = (&'static str, &'static str)> {
    let named = |name: &String| name.as_bytes().first().is_some_and(u8::is_ascii_digit);
    course().iter().filter(move |(name, _)| named(name)).map(|(name, page)| (name.as_str(), page.as_str()))
}

/// What stands between `start` and `end`, each time.
fn between<'a>(text: &'a str, start: &'a str, end: &'a str) -> impl Iterator<Item = &'a str> {
    text.split(start).skip(1).filter_map(move |rest| rest.split(end).next())
}

fn ids(page: &str) -> BTreeSet<&str> {
    between(page, " id=\"", "\"").collect()
}

/// Every link of the pages made here leads somewhere in the course.
fn links_lead_somewhere(name: &str) {
    let main = page(name).split("<main").nth(1).expect("it has a main part");
    let mut count = 0;
    for way in between(main, "<a href=\"", "\"").chain(between(main, "class=\"term\" href=\"", "\"")) {
        count += 1;
        let (to, anchor) = way.split_once('#').unwrap_or((way, ""));
        let to = if to.is_empty() { name } else { to.trim_start_matches("../").trim_end_matches('/') };
        assert!(anchor.is_empty() || ids(page(to)).contains(anchor), "{name}: {way} leads nowhere");
    }
    assert!(count > 20, "{name} has {count} links");
}

#[test]
fn every_term_is_used_and_every_link_leads_to_its_term() {
    let glossary = page("glossary");
    let terms: BTreeSet<&str> = between(glossary, "<dt id=\"", "\"").collect();
    assert!(terms.len() > 70, "{} terms", terms.len());
    let mut used = BTreeSet::new();
    for (name, page) in lessons() {
        let links: Vec<&str> = between(page, "<a class=\"term\" href=\"../glossary/#", "\"").collect();
        assert!(links.len() > 40, "{name} has {} words that are linked", links.len());
        used.extend(links);
        // None stands in a heading, a link, code, a figure or a question.
        for tag in [
            "h1",
            "h2",
            "h3",
            "code",
            "th",
            "outlean-rig",
            "outlean-estimate",
            "outlean-choose",
            "outlean-set",
        ] {
            let (start, end) = (format!("<{tag}"), format!("</{tag}>"));
            for inside in between(page, &start, &end).filter(|inside| inside.starts_with([' ', '>'])) {
                assert!(!inside.contains("class=\"term\""), "{name}: a term in {tag}: {inside}");
            }
        }
        for section in page.split("<h2") {
            let mut seen = BTreeSet::new();
            for term in between(section, "href=\"../glossary/#", "\"") {
                assert!(seen.insert(term), "{name}: {term} is linked twice in a section: {section}");
            }
        }
    }
    assert!(used.is_subset(&terms));
    for term in terms.difference(&used) {
        // One that is not linked is a word of questions.
        let asked = term.replace('-', " ");
        assert!(lessons().any(|(_, page)| page.contains(&asked)), "no lesson uses {term}");
    }
    links_lead_somewhere("glossary");
}

#[test]
fn every_page_leads_to_the_pages_of_the_course() {
    for name in
        ["", "glossary", "sources", "numbers", "accessibility", "record", "class", "refresher", "plan"]
            .into_iter()
            .chain(lessons().map(|(name, _)| name))
    {
        let nav = between(page(name), "<nav class=\"pages\"", "</nav>").next().unwrap_or_default();
        for to in ["glossary", "sources", "numbers", "accessibility"] {
            let way = if name.is_empty() { format!("\"{to}/\"") } else { format!("\"../{to}/\"") };
            assert!(nav.contains(&way), "{name}: no link to {to} in {nav}");
        }
    }
}

/// The examples in the format's description, the first block after a heading.
fn shown(heading: &str) -> &'static str {
    let described = include_str!("../../../lessons/README.md");
    let after = described.split(&format!("\n## {heading}\n")).nth(1).expect("it has the heading");
    between(after, "\n````toml\n", "\n````").next().expect("it shows an example")
}

/// What `outlean check` says of lessons with this file beside them.
fn checked(name: &str, file: &str, text: &str) -> (Option<i32>, String) {
    let place = folder(name);
    let lesson = place.join("04-feet");
    fs::create_dir_all(&lesson).expect("the folder can be made");
    fs::write(lesson.join("lesson.md"), include_str!("../new-lesson/lesson.md").replace("NAME", "feet"))
        .expect("writable");
    fs::write(lesson.join("rig.toml"), include_str!("../new-lesson/rig.toml")).expect("writable");
    fs::write(place.join(file), text).expect("writable");
    let output = Command::new(env!("CARGO_BIN_EXE_outlean"))
        .args(["check", "."])
        .current_dir(&place)
        .output()
        .expect("the program runs");
    let said = [output.stdout, output.stderr].map(|bytes| String::from_utf8(bytes).expect("text"));
    (output.status.code(), said.concat())
}

#[test]
fn the_glossary_shown_to_teachers_is_right_and_a_wrong_one_is_told_where() {
    let right = shown("The glossary");
    assert_eq!(
        checked("glossary-right", "glossary.toml", right),
        (Some(0), "1 lesson read, 0 errors, 0 warnings\n".to_owned())
    );
    let wrong =
        right.replace("taught = \"04-feet\"", "taught = \"04-foot\"").replace("forms = []", "form = []");
    let (code, said) = checked("glossary-wrong", "glossary.toml", &wrong);
    assert_eq!(code, Some(1));
    for part in [
        "./glossary.toml:7:10",
        "there is no lesson `04-foot`",
        "did you mean `04-feet`?",
        "./glossary.toml:12:1",
        "`form` is not known here",
        "did you mean `forms`?",
        "1 lesson read, 2 errors, 0 warnings",
    ] {
        assert!(said.contains(part), "{part} in\n{said}");
    }
}

#[test]
fn the_page_of_the_numbers_works_its_own_out() {
    let numbers = page("numbers");
    links_lead_somewhere("numbers");
    let main = between(numbers, "<main", "</main>").next().expect("it has a main part");
    assert!(!main.contains('{'), "a gap is not filled");
    for part in ["<math", "29.0°", "nowhere", "992", "not assessed", "<h2 id=\"what-is-left-out\">"] {
        assert!(main.contains(part), "no {part}");
    }
}

/// Every source that the core cites in its code, as its string files have it.
fn cited_in_the_core() -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    let mut folders = vec![root().join("crate/rig/src")];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).expect("readable") {
            let path = entry.expect("readable").path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let text = fs::read_to_string(&path).expect("readable");
                for call in ["read", "second_hand", "memory", "none"] {
                    let start = format!("Citation::{call}(Source::");
                    all.extend(between(&text, &start, ")").map(str::to_owned));
                }
            }
        }
    }
    all
}

#[test]
fn every_source_that_lessons_questions_and_the_core_name_is_in_the_index() {
    let index = page("sources");
    links_lead_somewhere("sources");
    // The core's: each is listed by the key that the file gives it.
    let listed = include_str!("../../../lessons/sources.toml");
    let cited = cited_in_the_core();
    assert!(cited.len() > 20, "{cited:?}");
    let strings = include_str!("../../../www/strings/en/working.json");
    let strings: BTreeMap<String, String> = serde_json::from_str(strings).expect("JSON");
    for source in &cited {
        let key = source.chars().fold(String::new(), |key, letter| {
            let under = if letter.is_ascii_uppercase() && !key.is_empty() { "_" } else { "" };
            format!("{key}{under}{}", letter.to_ascii_lowercase())
        });
        let title = strings.get(&format!("source.{key}")).expect("the core's sources have titles");
        assert!(listed.contains(&format!("\"{key}\"")) || index.contains(title), "{key} is not in the index");
    }
    // Every question names at least one, and leads there.
    let asked: BTreeSet<&str> = between(index, "<a href=\"../", "\"").collect();
    let mut questions = 0;
    for (name, page) in lessons() {
        for kind in ["estimate", "choose", "order", "faults", "set"] {
            for id in between(page, &format!("<outlean-{kind} id=\""), "\"").filter(|id| id.len() < 80) {
                questions += 1;
                let way = format!("{name}/#{id}");
                assert!(asked.contains(way.as_str()), "the source of {way} is not in the index");
            }
        }
        let has_list = page.contains("<h2 id=\"sources\"");
        assert!(!has_list || asked.contains(format!("{name}/#sources").as_str()), "{name}");
    }
    assert!(questions > 80, "{questions} questions");
    // What is known from memory says so, and so does custom.
    let entry = |name: &str| {
        let id = format!("<dt id=\"of-{name}\">");
        between(index, &id, "</div>").next().unwrap_or_else(|| panic!("{name} is not listed")).to_owned()
    };
    assert!(entry("fm-5-125").contains("<span>from memory, to be looked up</span>"));
    assert!(entry("war-office").contains("<span>second hand</span>"));
    assert!(!entry("navedtra-14043").contains("<span>"));
    // One of each sort that the core takes.
    for taken in [
        "c16",
        "en 1891 a",
        "bowline",
        "connector technical",
        "1-1 in loam",
        "8 to 9",
        "15",
        "least setback",
        "added up",
    ] {
        let program = between(index, "In the program, ", "</dd>");
        assert!(program.into_iter().any(|line| line.contains(taken)), "nothing says where {taken} is from");
    }
    // Mechanics is used on every page: it is told of where somebody names it as a source.
    let reckoned = between(index, "<h2 id=\"reckoned\"", "<h2").next().expect("there is mechanics");
    assert!(reckoned.contains("#sources\"") && !reckoned.contains("#say-why\""));
    let practice = between(index, "<h2 id=\"practice\"", "<h2").next().expect("there is custom");
    assert!(practice.contains("Common practice") && practice.contains("an aft guy always"));
}

#[test]
fn the_sources_shown_to_teachers_are_right_and_wrong_ones_are_told_where() {
    let right = shown("The sources");
    assert_eq!(
        checked("sources-right", "sources.toml", right),
        (Some(0), "1 lesson read, 0 errors, 0 warnings\n".to_owned())
    );
    let (code, said) = checked("sources-wrong", "sources.toml", &right.replace("\"practice\"", "\"custom\""));
    assert_eq!(code, Some(1));
    for part in
        ["./sources.toml:11:8", "`custom` is no kind of source", "one of published, practice, reckoned, ours"]
    {
        assert!(said.contains(part), "{part} in\n{said}");
    }
}
