//! What the pages of a built course load: it stands in a folder named by what is in it, packed, and every page finds it there.

#![expect(clippy::expect_used, clippy::panic, reason = "a test that cannot build has failed")]

mod common;

use flate2::read::GzDecoder;
use std::collections::BTreeSet;
use std::fs;
use std::io::Read;
use std::path::{Component, Path, PathBuf};
use std::process::Command;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// Builds a course of one lesson, in two languages, with these assets.
fn build(place: &Path, assets: &Path) {
    let lesson = place.join("lessons/05-lean");
    fs::create_dir_all(lesson.join("lang")).expect("made");
    for (from, to) in [("lesson.md", "lesson.md"), ("rig.toml", "rig.toml"), ("lesson.md", "lang/de.md")] {
        fs::copy(root().join("lessons/05-lean").join(from), lesson.join(to)).expect("copied");
    }
    let output = Command::new(env!("CARGO_BIN_EXE_outlean"))
        .arg("build")
        .arg("--lessons")
        .arg(place.join("lessons"))
        .arg("--assets")
        .arg(assets)
        .arg("--program")
        .arg(place.join("program"))
        .arg("--out")
        .arg(place.join("site"))
        .output()
        .expect("the program runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
}

/// The files below a folder.
fn below(folder: &Path) -> Vec<PathBuf> {
    let mut all = Vec::new();
    for entry in fs::read_dir(folder).expect("readable").flatten() {
        let path = entry.path();
        if path.is_dir() { all.extend(below(&path)) } else { all.push(path) }
    }
    all
}

fn copied(from: &Path, to: &Path) {
    for file in below(from) {
        let to = to.join(file.strip_prefix(from).expect("it is below"));
        fs::create_dir_all(to.parent().expect("it has one")).expect("made");
        fs::copy(file, to).expect("copied");
    }
}

/// Where a way leads from a folder, without what is asked of it there.
fn led(folder: &Path, way: &str) -> PathBuf {
    let mut at = folder.to_owned();
    for part in Path::new(way.split(['?', '#']).next().unwrap_or_default()).components() {
        match part {
            Component::ParentDir => assert!(at.pop(), "{way} leads out"),
            Component::Normal(name) => at.push(name),
            _ => {}
        }
    }
    if at.is_dir() { at.join("index.html") } else { at }
}

#[test]
fn pages_load_what_is_named_by_its_content() {
    let place = Path::new(env!("CARGO_TARGET_TMPDIR")).join("loaded");
    let _ = fs::remove_dir_all(&place);
    let program = common::program(&place);
    for name in ["record.js", "class.js", "refresher.js", "plan.js", "offline.js", "elements.js", "embed.js"]
    {
        fs::write(program.join(name), "stands for a script").expect("writable");
    }
    // What is packed beside the program is taken as it is.
    fs::write(program.join("page.js.br"), "packed before").expect("writable");
    let assets = place.join("www");
    copied(&root().join("www"), &assets);
    build(&place, &assets);
    let site = place.join("site");
    let first = common::loaded(&site);

    // Every way in every page of the course leads to a file, and all that pages load stands in the folder. Examples are pages of
    // others: they load what goes by a name that stays.
    let mut loaded = BTreeSet::new();
    let page = |file: &PathBuf| file.extension().is_some_and(|ending| ending == "html");
    let others = |file: &PathBuf| file.starts_with(site.join("examples"));
    for page in below(&site).into_iter().filter(|file| page(file) && !others(file)) {
        let text = fs::read_to_string(&page).expect("text");
        let folder = page.parent().expect("it is in the site");
        for (attribute, loads) in [("src=\"", true), ("href=\"", false)] {
            for way in text.split(attribute).skip(1).filter_map(|rest| rest.split('"').next()) {
                if way.starts_with('#') || way.contains("://") || way.starts_with("data:") {
                    continue;
                }
                let file = led(folder, way);
                assert!(file.is_file(), "{}: {way} leads to {}", page.display(), file.display());
                if loads {
                    assert!(file.starts_with(site.join(&first)), "{}: {way}", page.display());
                    loaded.insert(file);
                }
            }
        }
    }
    assert!(loaded.len() > 6, "{loaded:?}");
    let read = |file: &str| fs::read(site.join(file)).unwrap_or_else(|why| panic!("{file}: {why}"));
    for file in below(&site).into_iter().filter(|file| file.extension().is_none_or(|ending| ending != "br")) {
        let text = String::from_utf8_lossy(&fs::read(&file).expect("readable")).into_owned();
        assert!(!text.contains("program-0000000000000000"), "{} has no name in it", file.display());
    }

    // What others load goes by a name that stays.
    let entry = String::from_utf8(read("elements.js")).expect("text");
    assert_eq!(entry, format!("export * from './{first}/elements.js';\n"));
    assert!(!site.join("frames.js").exists(), "the program has no such script");

    // Packed both ways, which say the same.
    let page = read("05-lean/index.html");
    let mut unpacked = Vec::new();
    GzDecoder::new(read("05-lean/index.html.gz").as_slice()).read_to_end(&mut unpacked).expect("gzip");
    assert!(unpacked == page);
    unpacked.clear();
    brotli::BrotliDecompress(&mut read("05-lean/index.html.br").as_slice(), &mut unpacked).expect("brotli");
    assert!(unpacked == page);
    assert_eq!(read(&format!("{first}/page.js.br")), b"packed before");
    assert!(!site.join(&first).join("page.js.br.gz").exists(), "what is packed is not packed again");

    // One word changed: all of it goes by another name, and nothing of the first stays.
    let words = assets.join("strings/en/page.json");
    let text = fs::read_to_string(&words).expect("text");
    fs::write(&words, text.replacen(": \"", ": \"Now ", 1)).expect("writable");
    build(&place, &assets);
    let second = common::loaded(&site);
    assert_ne!(first, second);
    assert!(String::from_utf8(read("05-lean/index.html")).expect("text").contains(&second));
    // A text changed, and the page says so; what pages load is as it was.
    let shell = assets.join("shells/lesson.html");
    let text = fs::read_to_string(&shell).expect("text");
    fs::write(&shell, text.replace("<main", "<!-- changed --><main")).expect("writable");
    build(&place, &assets);
    assert_eq!(common::loaded(&site), second);
    assert!(String::from_utf8(read("index.html")).expect("text").contains("<!-- changed -->"));
}
