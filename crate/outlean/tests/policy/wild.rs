//! Words with markup in them, wherever an author or a translator writes words: in the built pages they stand as they were written, and
//! nothing of them is an element, an attribute or a place of the shell.

use super::{Held, attributes, below, broken, named, tokens};
use crate::{built, folder, root};
use html5gum::Token;
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Command;

/// What would run or load if it were taken for anything but text, what would end its place, and a place of the shell.
const WILD: &str = "'\"></p></script><script>document.wild=1</script><img src=x onerror=document.wild=1><b title=x>{{program}}";

/// As TOML, in a string.
fn toml(text: &str) -> String {
    text.replace('\\', "\\\\").replace('"', "\\\"")
}

/// As Markdown that says it as text.
fn markdown(text: &str) -> String {
    text.replace('<', "\\<")
}

/// A lesson that is wild wherever it has words.
fn lesson() -> String {
    let (plain, marked, code) = (toml(WILD), markdown(WILD), format!("`{}`", WILD.replace('`', "")));
    // Of what is asked braces are gaps that the rig fills.
    let said = plain.replace(['{', '}'], "");
    let asked = toml(&markdown(WILD)).replace(['{', '}'], "");
    format!(
        "+++\ntitle = \"T {plain}\"\nminutes = 5\nobjectives = [\"O {plain}\"]\n+++\n\n## H {marked}\n\nThe guy {marked} {code} [l {marked}](https://a.example/?\"onclick=1 '\"><img>')\n\n| a {marked} |\n|---|\n| {code} |\n\n```\n{WILD}\n```\n\n```figure\nname = \"seen\"\nrig = \"rig.toml\"\n```\n\n```notes\nN {marked} {code}\n```\n\n```choose\nid = \"wild\"\nrig = \"rig.toml\"\nobjective = 1\nlevel = 1\nhint = \"{asked}\"\nexplanation = \"{asked}\"\nsource = \"S {asked}\"\n[[statement]]\nsays = \"{said}\"\nbecause = \"{asked}\"\nclaim = \"the aft guy works\"\n[[statement]]\nsays = \"no\"\nbecause = \"no\"\nclaim = \"the fore guy works\"\n```\n"
    )
}

/// A course with it in the original and in a language whose words are all wild, as are those of the original.
fn course(place: &Path) {
    let (lessons, assets) = (place.join("lessons"), place.join("www"));
    let of_lesson = lessons.join("01-wild");
    fs::create_dir_all(of_lesson.join("lang")).expect("the folder can be made");
    fs::write(of_lesson.join("lesson.md"), lesson()).expect("writable");
    fs::write(of_lesson.join("lang/xx.md"), lesson()).expect("writable");
    fs::write(of_lesson.join("rig.toml"), include_str!("../../new-lesson/rig.toml")).expect("writable");
    let (plain, marked) = (toml(WILD), toml(&markdown(WILD)));
    let glossary = format!(
        "[[term]]\nterm = \"guy {plain}\"\nsays = \"{marked}\"\nforms = [\"guy\"]\nalso = [\"{plain}\"]\nsymbol = \"{plain}\"\nunit = \"{plain}\"\n"
    );
    fs::write(lessons.join("glossary.toml"), glossary).expect("writable");
    let sources =
        format!("[[source]]\ntitle = \"{marked}\"\nnamed = [\"S {plain}\"]\nkind = \"published\"\n");
    fs::write(lessons.join("sources.toml"), sources).expect("writable");
    copied(&root().join("www"), &assets);
    fs::create_dir_all(assets.join("strings/xx")).expect("the folder can be made");
    for entry in fs::read_dir(assets.join("strings/en")).expect("readable") {
        let path = entry.expect("readable").path();
        let text = fs::read_to_string(&path).expect("readable");
        let words: BTreeMap<String, String> = serde_json::from_str(&text).expect("words");
        let wild: BTreeMap<String, String> =
            words.into_iter().map(|(key, says)| (key, format!("{says} {WILD}"))).collect();
        let text = serde_json::to_string(&wild).expect("words");
        fs::write(assets.join("strings/xx").join(path.file_name().expect("it has a name")), &text)
            .expect("writable");
        fs::write(path, text).expect("writable");
    }
    let output = built(&lessons, &assets, place);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
}

fn copied(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("the folder can be made");
    for entry in fs::read_dir(from).expect("readable") {
        let path = entry.expect("readable").path();
        let into = to.join(path.file_name().expect("it has a name"));
        if path.is_dir() {
            copied(&path, &into);
        } else {
            fs::copy(&path, &into).expect("copied");
        }
    }
}

/// What of the wild words became more than text: the page breaks the policy by it, or has an element or an attribute of theirs.
fn amiss(page: &str) -> Vec<String> {
    let mut wrong = broken(page, &Held::default());
    for token in tokens(page) {
        let Token::StartTag(tag) = token else { continue };
        let given = attributes(&tag);
        let theirs = |(key, value): &(String, String)| {
            key.starts_with("on")
                || key.contains(['<', '\'', '"'])
                || (key == "title" || key == "src") && value == "x"
        };
        if let Some(theirs) = given.iter().find(|each| theirs(each)) {
            wrong.push(format!("<{} {theirs:?}>", named(&tag)));
        }
    }
    wrong
}

#[test]
fn what_authors_and_translators_write_stands_in_the_pages_as_text() {
    let place = folder("wild");
    course(&place);
    let site = place.join("site");
    let mut pages = Vec::new();
    for ending in ["html", "svg"] {
        below(&site, ending, &mut pages);
    }
    let (mut wild, mut in_xx) = (0, 0);
    for path in &pages {
        let name = path.strip_prefix(&site).expect("below it").to_string_lossy().into_owned();
        if name.starts_with(super::OF_OTHERS) {
            continue;
        }
        let page = fs::read_to_string(path).expect("readable");
        assert_eq!(amiss(&page), Vec::<String>::new(), "{name}");
        assert!(!page.contains("<img src=x") && !page.contains("<b title=x"), "{name}");
        let says = page.matches("&lt;img src=x").count();
        wild += usize::from(says > 0);
        in_xx += usize::from(says > 0 && name.starts_with("xx/"));
        // A place of the shell that someone else wrote is no place.
        let places =
            page.split("title=x").skip(1).map(|rest| rest.trim_start_matches("&gt;").trim_start_matches('>'));
        let mut filled = places.filter(|rest| rest.starts_with(".."));
        assert_eq!(filled.next(), None, "{name}");
    }
    assert!(wild >= 15 && in_xx >= 6, "{wild} pages, {in_xx} of them translated, say what was written");
    for file in ["01-wild/notes.json", "xx/01-wild/notes.json"] {
        let notes: Value =
            serde_json::from_str(&fs::read_to_string(site.join(file)).expect("readable")).expect("JSON");
        let all: Vec<&str> = notes.as_object().expect("by step").values().filter_map(Value::as_str).collect();
        assert!(all.iter().any(|html| html.contains("&lt;img src=x")), "{file} says what was written");
        assert!(all.iter().all(|html| amiss(html).is_empty()), "{all:?}");
    }
}

#[test]
fn markup_among_the_words_of_glossary_sources_and_notes_is_refused() {
    let place = folder("wild-markup");
    let lessons = place.join("lessons");
    let write = |file: &str, text: &str| {
        let path = lessons.join(file);
        fs::create_dir_all(path.parent().expect("it stands in one")).expect("the folder can be made");
        fs::write(path, text).expect("writable");
    };
    let checked = || {
        let output = Command::new(env!("CARGO_BIN_EXE_outlean")).arg("check").arg(&lessons).output();
        let output = output.expect("the program runs");
        (output.status.success(), String::from_utf8_lossy(&output.stderr).into_owned())
    };
    let front = "+++\ntitle = \"T\"\nminutes = 5\nobjectives = [\"O\"]\n+++\n\n";
    let plain = format!("{front}Text.\n");
    let glossary = |says: &str| format!("[[term]]\nterm = \"guy\"\nsays = \"{says}\"\n");
    let sources =
        |title: &str| format!("[[source]]\ntitle = \"{title}\"\nnamed = [\"S\"]\nkind = \"published\"\n");
    for (file, wrong, right) in [
        ("glossary.toml", glossary("A <img src=x onerror=a()>"), glossary("A rope.")),
        ("glossary.toml", glossary("A [rope](javascript:a())"), glossary("A rope.")),
        ("sources.toml", sources("<script>a()</script>"), sources("A work.")),
        ("sources.toml", sources("![a](x)"), sources("A work.")),
        ("01-one/lesson.md", format!("{front}```notes\n<img src=x onerror=a()>\n```\n"), plain.clone()),
        ("01-one/lesson.md", format!("{front}```notes\n[a](javascript:a())\n```\n"), plain.clone()),
        ("01-one/lang/xx.md", format!("{front}<script>a()</script>\n"), plain.clone()),
    ] {
        write("01-one/lesson.md", &plain);
        write(file, &wrong);
        let (taken, told) = checked();
        assert!(!taken && told.contains(file), "{file}: {wrong}\n{told}");
        write(file, &right);
        let (taken, told) = checked();
        assert!(taken, "{file}: {right}\n{told}");
    }
}
