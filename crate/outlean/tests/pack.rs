//! `outlean pack`: what goes into a package, and what is said where nothing can be packed.

#![expect(clippy::expect_used, reason = "a test that cannot build has failed")]

use serde_json::Value;
use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::Read;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use zip::ZipArchive;

/// The folder of what its pages load.
const PROGRAM: &str = "program-0123456789abcdef";

/// A folder of this name with a built course of two lessons, as far as a package is made of it.
fn site(name: &str) -> PathBuf {
    let site = Path::new(env!("CARGO_TARGET_TMPDIR")).join("pack").join(name);
    let _ = fs::remove_dir_all(&site);
    let put = |file: &str, text: &str| {
        let path = site.join(file);
        fs::create_dir_all(path.parent().expect("it is below the site")).expect("it can be made");
        fs::write(path, text).expect("writable");
    };
    put(
        "course.json",
        r#"[{"name":"01-a","title":"Ropes & < poles"},{"name":"02-b","title":"Feet","objectives":["Tie & haul.","Stop."]}]"#,
    );
    for lesson in ["01-a", "02-b", "glossary"] {
        put(
            &format!("{lesson}/index.html"),
            &format!(
                "<html><head><script type=\"module\" src=\"../{PROGRAM}/page.js\"></script>\n</head><body></body></html>"
            ),
        );
    }
    put("01-a/rig.svg", "<svg/>");
    put(&format!("{PROGRAM}/page.js"), "0");
    put(&format!("{PROGRAM}/page.js.gz"), "packed for a server");
    put(&format!("{PROGRAM}/page.js.br"), "packed for a server");
    site
}

fn pack(site: &Path, more: &[&str], out: &Path) -> Output {
    pack_for("scorm12", site, more, out)
}

fn pack_for(form: &str, site: &Path, more: &[&str], out: &Path) -> Output {
    Command::new(env!("CARGO_BIN_EXE_outlean"))
        .args(["pack", form, "--site"])
        .arg(site)
        .args(more)
        .arg("--output")
        .arg(out)
        .output()
        .expect("the program runs")
}

fn read(zip: &Path, file: &str) -> String {
    let mut archive = ZipArchive::new(File::open(zip).expect("it was written")).expect("it is a zip");
    let mut text = String::new();
    archive.by_name(file).expect("it is in it").read_to_string(&mut text).expect("it is text");
    text
}

#[test]
fn one_lesson_is_started_and_all_of_the_course_goes_in() {
    let site = site("one");
    let zip = site.with_extension("zip");
    let output = pack(&site, &["--lesson", "01-a"], &zip);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let archive = ZipArchive::new(File::open(&zip).expect("it was written")).expect("it is a zip");
    let names: BTreeSet<&str> = archive.file_names().collect();
    let wanted = [
        "imsmanifest.xml",
        "course.json",
        "program-0123456789abcdef/page.js",
        "01-a/index.html",
        "01-a/rig.svg",
        "02-b/index.html",
        "glossary/index.html",
    ];
    assert_eq!(names, wanted.into_iter().collect());
    assert!(read(&zip, "01-a/index.html").contains(
        "<script type=\"module\" src=\"../program-0123456789abcdef/lms.js\" data-pass=\"0.8\" \
             data-course=\"urn:uuid:bbf19409-37de-400a-8c08-301ebfddc435\"></script>\n</head>"
    ));
    assert!(!read(&zip, "02-b/index.html").contains("lms.js"), "it is not started by the learning system");
    let manifest = read(&zip, "imsmanifest.xml");
    assert!(manifest.contains("<title>Ropes &amp; &lt; poles</title>"), "{manifest}");
    assert_eq!(manifest.matches("scormtype=\"sco\"").count(), 1);
    // The same course gives the same bytes.
    let again = site.with_extension("again.zip");
    assert!(pack(&site, &["--lesson", "01-a"], &again).status.success());
    assert_eq!(fs::read(&zip).expect("readable"), fs::read(&again).expect("readable"));
    assert!(pack(&site, &[], &again).status.success());
    assert_eq!(read(&again, "imsmanifest.xml").matches("scormtype=\"sco\"").count(), 2);
}

#[test]
fn the_program_is_a_package_for_npm_with_its_types_where_there_are_some() {
    let site = site("npm");
    let page = fs::read_to_string(site.join("01-a/index.html")).expect("text");
    fs::write(site.join("index.html"), page.replace("../", "")).expect("writable");
    fs::create_dir_all(site.join(PROGRAM).join("pictures/01-a")).expect("made");
    fs::write(site.join(PROGRAM).join("pictures/01-a/rig.svg"), "<svg/>").expect("writable");
    fs::write(site.join(PROGRAM).join("elements.js"), "0").expect("writable");
    let types = site.join("types");
    fs::create_dir_all(&types).expect("made");
    for name in ["elements.d.ts", "custom-elements.json"] {
        fs::write(types.join(name), "{\"path\": \"elements.js\"}").expect("writable");
    }
    let package = site.join("package");
    let about = |more: &[&str]| -> Value {
        let output = pack_for("npm", &site, more, &package);
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        let text = fs::read_to_string(package.join("package.json")).expect("it is there");
        serde_json::from_str(&text).expect("JSON")
    };
    let plain = about(&[]);
    assert!(plain.get("types").is_none() && plain.get("customElements").is_none(), "{plain}");
    let way = |about: &Value, pointer: &str| {
        let way = about.pointer(pointer).and_then(Value::as_str).unwrap_or_default().to_owned();
        assert!(package.join(&way).is_file(), "{pointer} is `{way}`");
        way
    };
    assert_eq!(way(&plain, "/exports/./default"), "./program/elements.js");
    let typed = about(&["--types", &types.display().to_string()]);
    let wanted = ["/types", "/customElements", "/exports/./types"].map(|pointer| way(&typed, pointer));
    assert_eq!(wanted, ["./types/elements.d.ts", "types/custom-elements.json", "./types/elements.d.ts"]);
    let elements = fs::read_to_string(package.join("types/custom-elements.json")).expect("text");
    assert_eq!(elements, "{\"path\": \"program/elements.js\"}", "from where the package begins");
    assert!(package.join("LICENSE-MIT").is_file() && package.join("README.md").is_file());
    assert!(!package.join("program/pictures").exists(), "they are of the course's lessons");
    assert!(!package.join("program/page.js.br").exists(), "who serves it packs it");
    // A folder with pages, but of no built course.
    fs::write(site.join("index.html"), "<p>A page</p>").expect("writable");
    let output = pack_for("npm", &site, &[], &package);
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(said.contains("index.html") && said.contains("built course"), "{said}");
}

#[test]
fn by_cmi5_each_lesson_is_a_unit_with_the_mark_that_passes() {
    let site = site("cmi5");
    let zip = site.with_extension("zip");
    assert!(pack_for("cmi5", &site, &[], &zip).status.success());
    let listed = read(&zip, "cmi5.xml");
    assert_eq!(listed.matches("moveOn=\"CompletedAndPassed\" masteryScore=\"0.8\"").count(), 2, "{listed}");
    assert!(listed.contains("<url>01-a/index.html</url>"), "{listed}");
    assert!(listed.contains("<langstring lang=\"en\">Ropes &amp; &lt; poles</langstring>"), "{listed}");
    assert!(listed.contains("<langstring lang=\"en\">Tie &amp; haul. Stop.</langstring>"), "{listed}");
    assert!(read(&zip, "02-b/index.html").contains("/lms.js"), "it tells how it goes");
    let archive = ZipArchive::new(File::open(&zip).expect("it was written")).expect("it is a zip");
    assert!(archive.file_names().all(|name| name != "imsmanifest.xml"), "it is of one standard alone");
}

/// Packed into the course's own folder, a package is the same each time.
#[test]
fn an_earlier_package_is_not_packed() {
    let site = site("inside");
    let zip = site.join("package.zip");
    let packed = || {
        assert!(pack(&site, &[], &zip).status.success());
        fs::read(&zip).expect("it was written")
    };
    assert_eq!(packed(), packed());
    let archive = ZipArchive::new(File::open(&zip).expect("it was written")).expect("it is a zip");
    assert!(archive.file_names().all(|name| name != "package.zip"));
}

/// Nothing that a build makes; whatever else wrote the list, the manifest is still XML.
#[test]
fn a_name_cannot_break_a_manifest() {
    let site = site("names");
    fs::write(site.join("course.json"), r#"[{"name":"a&<b","title":"T"}]"#).expect("writable");
    let zip = site.with_extension("zip");
    for (form, list) in [("scorm12", "imsmanifest.xml"), ("cmi5", "cmi5.xml")] {
        assert!(pack_for(form, &site, &[], &zip).status.success());
        let listed = read(&zip, list);
        assert!(listed.contains("a&amp;&lt;b/index.html") && !listed.contains("a&<b"), "{listed}");
    }
}

#[test]
fn what_cannot_be_packed_is_named() {
    let site = site("wrong");
    let zip = site.with_extension("zip");
    let said = |output: &Output| String::from_utf8_lossy(&output.stderr).into_owned();
    let output = pack(&site, &["--lesson", "03-c"], &zip);
    assert_eq!(output.status.code(), Some(2));
    assert!(said(&output).contains("--lesson is `03-c`; the course has 01-a, 02-b"), "{}", said(&output));
    let output = pack(&site.join("01-a"), &[], &zip);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        said(&output).contains("course.json") && said(&output).contains("no built course"),
        "{}",
        said(&output)
    );
    let output = pack(&site, &[], &site.join("nowhere/at-all.zip"));
    assert_eq!(output.status.code(), Some(2));
    assert!(said(&output).contains("at-all.zip"), "{}", said(&output));
    assert!(!zip.exists(), "nothing is left behind");
    let output = pack_for("file", &site, &[], &zip);
    assert_eq!(output.status.code(), Some(2));
    assert!(said(&output).contains("--lesson"), "one file holds one lesson: {}", said(&output));
    let output = pack_for("file", &site, &["--lesson", "01-a"], &zip);
    assert_eq!(output.status.code(), Some(2));
    assert!(said(&output).contains("single.js"), "what is missing is named: {}", said(&output));
}
