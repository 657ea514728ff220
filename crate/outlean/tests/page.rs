//! `outlean build` on the course itself: what its pages say of questions before any program runs.

#![expect(clippy::expect_used, clippy::panic, reason = "a test that cannot build has failed")]

mod common;

use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The page of the lesson `name`, built without the pages' program.
fn built(lessons: &Path, name: &str) -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let place = Path::new(env!("CARGO_TARGET_TMPDIR")).join("page").join(name);
    let _ = fs::remove_dir_all(&place);
    let program = common::program(&place);
    let out = place.join("site");
    let output = Command::new(env!("CARGO_BIN_EXE_outlean"))
        .arg("build")
        .arg("--lessons")
        .arg(lessons)
        .arg("--assets")
        .arg(root.join("www"))
        .arg("--program")
        .arg(program)
        .arg("--out")
        .arg(&out)
        .output()
        .expect("the program runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    fs::read_to_string(out.join(name).join("index.html")).expect("the lesson has a page")
}

/// What stands inside each element of this name.
fn elements<'a>(page: &'a str, name: &str) -> Vec<&'a str> {
    let (start, end) = (format!("<{name} "), format!("</{name}>"));
    page.split(&start).skip(1).filter_map(|rest| rest.split(&end).next()).collect()
}

/// The data of an element.
fn data(element: &str) -> Value {
    let text = element.split("<script type=\"application/json\">").nth(1);
    let text = text.and_then(|rest| rest.split("</script>").next()).expect("it has data");
    serde_json::from_str(text).expect("its data is JSON")
}

fn count(value: &Value, key: &str) -> usize {
    value.get(key).and_then(Value::as_array).unwrap_or_else(|| panic!("no list `{key}` in {value}")).len()
}

#[test]
fn every_kind_of_question_stands_in_the_first_lesson_and_reads_without_a_program() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let page = built(&root.join("lessons"), "05-lean");
    // Of a figure what is set up, but no force before it is asked for.
    let figures = elements(&page, "outlean-rig");
    assert!(figures.iter().all(|at| at.contains("What is set up") && at.contains("260\u{2009}kg")));
    assert!(!figures.iter().any(|at| at.contains("What each part carries")), "{figures:?}");
    for (kind, list, class) in [
        ("choose", "statements", "options"),
        ("order", "steps", "steps"),
        ("faults", "items", "readings"),
        ("set", "until", "until"),
    ] {
        let found = elements(&page, &format!("outlean-{kind}"));
        let [element] = found.as_slice() else { panic!("{} of {kind}", found.len()) };
        let data = data(element);
        assert_eq!(data["kind"], kind);
        assert_eq!(data["rig"].is_object(), kind != "order", "{kind}");
        if kind != "order" {
            assert!(data["rig"]["lean"].is_number() && data["rig"]["line.path"].is_string());
        }
        // The question that seed 1 draws, as plain text.
        let still = element.split(&format!("<ul class=\"{class}\">")).nth(1);
        let still = still.and_then(|rest| rest.split("</ul>").next()).expect("it shows its list");
        assert_eq!(still.matches("<li>").count(), count(&data, list), "{kind}");
        assert!(!still.contains('{'), "gaps are filled: {still}");
        for part in
            ["class=\"asks\"", "<details class=\"hint\">", "<details class=\"explanation\">", "Source: "]
        {
            assert!(element.contains(part), "{kind} has no {part}");
        }
        // No answer is typed, and none stands in the still.
        for secret in ["\"holds\":true", "\"faulty\"", "\"example\"", "\"planted\""] {
            assert!(!element.contains(secret), "{kind} gives {secret} away");
        }
    }
    assert!(elements(&page, "outlean-set")[0].starts_with("id=\"as-far-as-it-goes\" figure=\"slate\""));
    // An estimate stands as it did.
    let [estimate, ..] = elements(&page, "outlean-estimate")[..] else { panic!("no estimate") };
    assert_eq!(data(estimate)["ask"], "compression of the left leg");
}

#[test]
fn nothing_an_author_writes_can_end_its_place() {
    let lessons = Path::new(env!("CARGO_TARGET_TMPDIR")).join("page-lessons");
    let _ = fs::remove_dir_all(&lessons);
    let made = |name: &str| -> PathBuf {
        let folder = lessons.join(name);
        fs::create_dir_all(&folder).expect("the folder can be made");
        folder
    };
    let wild = "</script><script>alert(1)</script><b a=\\\"1\\\"> & {lean}";
    let text = format!(
        "+++\ntitle = \"T {wild}\"\nminutes = 5\nobjectives = [\"O {wild}\"]\n+++\n\n```choose\nid = \"wild\"\nrig = \"rig.toml\"\nobjective = 1\nlevel = 1\nhint = \"1 \\\\< 2 & 3\"\nexplanation = \"*so*\"\nsource = \"[here](https://a.example/)\"\n[[statement]]\nsays = \"{wild}\"\nclaim = \"the aft guy works\"\n[[statement]]\nsays = \"no\"\nclaim = \"the fore guy works\"\n```\n"
    );
    fs::write(made("01-wild").join("lesson.md"), text).expect("writable");
    fs::write(made("01-wild").join("rig.toml"), include_str!("../new-lesson/rig.toml")).expect("writable");
    let page = built(&lessons, "01-wild");
    assert!(!page.contains("<script>alert"), "an author's script runs");
    let element = elements(&page, "outlean-choose")[0];
    assert!(
        element.contains(
            "&lt;/script&gt;&lt;script&gt;alert(1)&lt;/script&gt;&lt;b a=&quot;1&quot;&gt; &amp; 24°"
        )
    );
    assert!(element.contains("1 &lt; 2 &amp; 3") && element.contains("<em>so</em>"));
    assert!(element.contains("<a href=\"https://a.example/\">here</a>"));
    let said = data(element)["statements"][0]["says"].to_string();
    assert!(said.contains("</script><script>"), "data is as it was written: {said}");
}

#[test]
fn a_translation_has_pages_of_its_own_and_no_page_is_without_a_word() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let lessons = Path::new(env!("CARGO_TARGET_TMPDIR")).join("page-translated");
    let _ = fs::remove_dir_all(&lessons);
    let original = fs::read_to_string(root.join("lessons/05-lean/lesson.md")).expect("readable");
    for (folder, file) in [("01-two", "lesson.md"), ("01-two/lang", "de.md")] {
        fs::create_dir_all(lessons.join(folder)).expect("the folder can be made");
        let said = if file == "de.md" {
            original.replace("Lean and its price", "Neigung und ihr Preis")
        } else {
            original.clone()
        };
        fs::write(lessons.join(folder).join(file), said).expect("writable");
    }
    fs::copy(root.join("lessons/05-lean/rig.toml"), lessons.join("01-two/rig.toml")).expect("copied");
    let page = built(&lessons, "01-two");
    assert!(
        page.contains("<html lang=\"en\">")
            && page.contains("<a href=\"../de/01-two/\" hreflang=\"de\" lang=\"de\">de</a>")
    );
    let site = Path::new(env!("CARGO_TARGET_TMPDIR")).join("page/01-two/site");
    let read = |file: &str| fs::read_to_string(site.join(file)).unwrap_or_else(|why| panic!("{file}: {why}"));
    let german = read("de/01-two/index.html");
    let program = common::loaded(&site);
    for part in [
        "<html lang=\"de\">",
        "Neigung und ihr Preis",
        &format!("src=\"../../{program}/page.js\""),
        "<a class=\"name\" href=\"../\">",
        "href=\"../../01-two/\" hreflang=\"en\"",
        "data-lesson=\"01-two\"",
    ] {
        assert!(german.contains(part), "no {part}");
    }
    let picture = format!("{program}/pictures/de/01-two/slate.svg");
    assert!(site.join(&picture).is_file() && site.join("de/01-two/notes.json").is_file());
    assert!(german.contains(&format!("<img src=\"../../{picture}\"")), "no {picture}");
    assert!(read("de/index.html").contains("<a href=\"01-two/\">Neigung und ihr Preis</a>"));
    for (name, way) in [("record", "../../record/"), ("class", "../../class/"), ("plan", "../../plan/")] {
        let page = read(&format!("de/{name}/index.html"));
        let script = format!("src=\"../../{program}/{name}.js\"");
        assert!(
            page.contains(&script) && page.contains(&format!("<a href=\"{way}\" hreflang=\"en\"")),
            "{page}"
        );
    }
    let refresher = |language: &str| read(&format!("{language}refresher/index.html"));
    assert!(refresher("de/").contains("Neigung und ihr Preis") && refresher("").contains("../de/refresher/"));
    assert!(!refresher("de/").contains("abroad"), "the lesson is there in German");
    let words = |language: &str| -> Value {
        serde_json::from_str(&read(&format!("{program}/strings/{language}/page.json"))).expect("JSON")
    };
    assert_eq!(words("de"), words("en"), "what is not there is said in English");
}

#[test]
fn a_figure_that_nobody_asks_of_is_not_veiled() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../lessons");
    let lessons = Path::new(env!("CARGO_TARGET_TMPDIR")).join("page-figures");
    let _ = fs::remove_dir_all(&lessons);
    let lesson = lessons.join("01-looked-at");
    fs::create_dir_all(&lesson).expect("a folder is made");
    fs::copy(root.join("05-lean/rig.toml"), lesson.join("rig.toml")).expect("the rig is copied");
    let text = "+++\ntitle = \"Looked at\"\nminutes = 5\nobjectives = [\"Look.\"]\n+++\n\n```figure\nname = \"seen\"\nrig = \"rig.toml\"\n```\n";
    fs::write(lesson.join("lesson.md"), text).expect("the lesson is written");
    assert!(built(&lessons, "01-looked-at").contains("<outlean-rig id=\"seen\" cautioned>"));
    assert!(built(&root, "10-moving-under-load").contains(" cautioned veiled>"));
}

#[test]
fn a_build_stands_in_its_page_as_numbered_plates_told_in_words() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../lessons");
    let page = built(&root, "02-lashing-the-head");
    let list =
        page.split("<ol class=\"plates\" id=\"lash-it\" role=\"list\">").nth(1).expect("it has the plates");
    let list = list.split("</ol>").next().expect("they end");
    let plates: Vec<&str> = list.split("<li id=\"lash-it-").skip(1).collect();
    assert_eq!(plates.len(), 9);
    for (number, plate) in (1..).zip(&plates) {
        assert!(plate.starts_with(&format!(
            "{number}\"><figure><svg viewBox=\"0 0 320 240\" role=\"img\" aria-label=\""
        )));
        let told =
            plate.split("aria-label=\"").nth(1).and_then(|rest| rest.split('"').next()).expect("it is told");
        assert!(told.len() > 60 && !told.contains('{') && !told.contains('<'), "{told}");
        // The page's own colours, and nothing that its policy refuses.
        assert!(plate.contains("var(--ink)") && !plate.contains("style="));
        // A hold point is marked in the picture and in words.
        let held = plate.contains("<strong class=\"hold\">") && plate.contains("</strong> a second person");
        assert_eq!((held, plate.contains(">Hold point</text>")), (number == 8, number == 8), "{number}");
        // No word of a picture is a link.
        let picture = plate.split("</svg>").next().expect("it has a picture");
        assert!(!picture.contains("<a "));
    }
    assert!(plates[4].contains("8 wrapping turns"));
}

#[test]
fn a_translated_build_differs_in_words_alone() {
    let lessons = Path::new(env!("CARGO_TARGET_TMPDIR")).join("page-build-translated");
    let _ = fs::remove_dir_all(&lessons);
    fs::create_dir_all(lessons.join("01-two/lang")).expect("folders are made");
    fs::write(lessons.join("01-two/rig.toml"), include_str!("../new-lesson/rig.toml")).expect("writable");
    let text = |draws: &str, says: &str, hold: &str| {
        format!(
            "+++\ntitle = \"T\"\nminutes = 5\nobjectives = [\"O\"]\n+++\n\n```build\nname = \"made\"\nrig = \"rig.toml\"\n[[step]]\ndraws = \"{draws}\"\nsays = \"{says}\"\n{hold}\n```\n"
        )
    };
    fs::write(lessons.join("01-two/lesson.md"), text("spacer", "Put it in.", "hold = \"Look.\""))
        .expect("writable");
    let told = |german: String| {
        fs::write(lessons.join("01-two/lang/de.md"), german).expect("writable");
        let output = Command::new(env!("CARGO_BIN_EXE_outlean")).arg("check").arg(&lessons).output();
        String::from_utf8_lossy(&output.expect("the program runs").stderr).into_owned()
    };
    assert_eq!(told(text("spacer", "Leg es hinein.", "hold = \"Schau.\"")), "");
    for (draws, hold) in [("foot tie", "hold = \"Schau.\""), ("spacer", "")] {
        assert!(
            told(text(draws, "Leg es hinein.", hold)).contains("`steps` of `made` is not as in lesson.md")
        );
    }
}
