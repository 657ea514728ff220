//! Every page that the program makes keeps to the policy that it is served under, and says that policy itself, for hosts that do not:
//! no script or style in it, no event handler, nothing taken from elsewhere, and no way that runs anything.

mod wild;

use crate::{root, site};
use base64::{Engine, engine::general_purpose::STANDARD as BASE64};
use html5gum::emitters::default::DefaultEmitter;
use html5gum::{StartTag, Token, Tokenizer};
use sha2::{Digest, Sha256};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// As pages are served.
const POLICY: &str = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'";
/// Pages that are made to be copied into those of others, whose policy is theirs.
const OF_OTHERS: &str = "examples/";
/// What only ever holds data.
const DATA: [&str; 1] = ["application/json"];
/// Elements that load something, with the attribute that says what.
const LOADS: [(&str, &str); 8] = [
    ("script", "src"),
    ("link", "href"),
    ("img", "src"),
    ("iframe", "src"),
    ("source", "src"),
    ("use", "href"),
    ("image", "href"),
    ("form", "action"),
];
/// Elements that no page has a use for.
const NEVER: [&str; 10] =
    ["base", "object", "embed", "applet", "frame", "frameset", "foreignobject", "audio", "video", "animate"];

fn outlean(arguments: &[&str]) {
    let output = Command::new(env!("CARGO_BIN_EXE_outlean"))
        .args(arguments)
        .current_dir(root())
        .output()
        .expect("the program runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
}

/// The files below a folder whose names end so.
fn below(folder: &Path, ending: &str, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("readable") {
        let path = entry.expect("readable").path();
        if path.is_dir() {
            below(&path, ending, found);
        } else if path.extension().is_some_and(|each| each == ending) {
            found.push(path);
        }
    }
}

/// The tags and texts of a page. What stands in a script or a style is one text.
fn tokens(page: &str) -> Vec<Token> {
    let mut emitter = DefaultEmitter::default();
    emitter.naively_switch_states(true);
    Tokenizer::new_with_emitter(page, emitter).map(|Ok(token)| token).collect()
}

fn named(tag: &StartTag<()>) -> String {
    String::from_utf8_lossy(&tag.name).to_lowercase()
}

/// What is written in an attribute, by its name.
fn attributes(tag: &StartTag<()>) -> Vec<(String, String)> {
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    tag.attributes.iter().map(|(name, value)| (text(name).to_lowercase(), text(value))).collect()
}

/// Whether an address leads out of where it stands, or runs something.
fn leaves(address: &str) -> bool {
    let address = address.trim();
    let scheme = address.split([':', '/', '?', '#']).next().unwrap_or_default();
    address.starts_with("//") || address.starts_with('\\') || address[scheme.len()..].starts_with(':')
}

/// What a page may hold besides: scripts and styles by their hashes, pictures as addresses that hold them.
#[derive(Default)]
struct Held {
    hashes: BTreeSet<String>,
    pictures: bool,
}

/// All that breaks the policy in a page, or in a picture.
fn broken(text: &str, held: &Held) -> Vec<String> {
    let mut wrong = Vec::new();
    // What stands in the script or style that was begun last, and what that is.
    let mut inside: Option<(String, String)> = None;
    for token in tokens(text) {
        match token {
            Token::StartTag(tag) => {
                let name = named(&tag);
                let given = attributes(&tag);
                let value =
                    |key: &str| given.iter().find(|(name, _)| name == key).map(|(_, value)| value.as_str());
                if NEVER.contains(&name.as_str()) {
                    wrong.push(format!("<{name}>"));
                }
                for (key, value) in &given {
                    if key.starts_with("on") || key == "style" || key == "srcdoc" || key == "xlink:href" {
                        wrong.push(format!("<{name} {key}=\"{value}\">"));
                    }
                    if value.trim().to_lowercase().starts_with("javascript:") {
                        wrong.push(format!("<{name} {key}=\"{value}\">"));
                    }
                    // A paint that is fetched.
                    if value.contains("url(") && !value.contains("url(#") {
                        wrong.push(format!("<{name} {key}=\"{value}\">"));
                    }
                }
                let loads =
                    LOADS.iter().find(|(loading, _)| *loading == name).and_then(|(_, key)| value(key));
                let picture = held.pictures
                    && name == "img"
                    && loads.is_some_and(|way| way.starts_with("data:image/svg+xml;"));
                if let Some(way) = loads.filter(|way| leaves(way) && !picture) {
                    wrong.push(format!("<{name}> loads {way}"));
                }
                let way = value("href").filter(|way| name == "a" && leaves(way));
                if way.is_some_and(|way| !way.starts_with("https://") && !way.starts_with("http://")) {
                    wrong.push(format!("<a href=\"{}\">", way.unwrap_or_default()));
                }
                let refreshes = value("http-equiv")
                    .is_some_and(|what| !what.eq_ignore_ascii_case("content-security-policy"));
                if name == "meta" && refreshes {
                    wrong.push(format!("{given:?}"));
                }
                let runs = name == "script"
                    && value("src").is_none()
                    && !value("type").is_some_and(|kind| DATA.contains(&kind));
                if runs || name == "style" {
                    inside = Some((name, String::new()));
                }
            }
            Token::String(text) => {
                if let Some((_, so_far)) = &mut inside {
                    so_far.push_str(&String::from_utf8_lossy(&text));
                }
            }
            Token::EndTag(_) => {
                if let Some((name, text)) = inside.take() {
                    let hash = format!("'sha256-{}'", BASE64.encode(Sha256::digest(&text)));
                    if !held.hashes.contains(&hash) {
                        wrong.push(format!("<{name}>{}", text.chars().take(60).collect::<String>()));
                    }
                }
            }
            _ => {}
        }
    }
    wrong
}

/// The policy that a page says itself, where that stands before all that it is about.
fn said(page: &str) -> Option<String> {
    for token in tokens(page) {
        let Token::StartTag(tag) = token else { continue };
        let given = attributes(&tag);
        let is = |key: &str, wanted: &str| given.iter().any(|(name, value)| name == key && value == wanted);
        if is("http-equiv", "Content-Security-Policy") {
            return given.into_iter().find(|(name, _)| name == "content").map(|(_, value)| value);
        }
        if LOADS.iter().any(|(name, _)| *name == named(&tag)) || named(&tag) == "style" {
            return None;
        }
    }
    None
}

#[test]
fn every_page_of_a_course_keeps_to_the_policy_and_says_it() {
    let (mut pages, mut pictures) = (Vec::new(), Vec::new());
    below(site(), "html", &mut pages);
    below(site(), "svg", &mut pictures);
    assert!(pages.len() > 30 && pictures.len() > 20, "{} pages, {} pictures", pages.len(), pictures.len());
    for path in pages.iter().chain(&pictures) {
        let name = path.strip_prefix(site()).expect("below it").to_string_lossy().into_owned();
        let text = fs::read_to_string(path).expect("readable");
        assert_eq!(broken(&text, &Held::default()), Vec::<String>::new(), "{name}");
        if name.ends_with(".html") && !name.starts_with(OF_OTHERS) {
            assert_eq!(said(&text).as_deref(), Some(POLICY), "{name} does not say its policy");
        }
    }
    println!("{} pages and {} pictures keep to the policy", pages.len(), pictures.len());
}

/// What a policy names by hash.
fn hashes(policy: &str) -> BTreeSet<String> {
    policy.split([' ', ';']).filter(|part| part.starts_with("'sha256-")).map(str::to_owned).collect()
}

#[test]
fn a_lesson_in_one_file_and_a_sheet_run_and_load_nothing_but_what_they_name() {
    let folder = site().parent().expect("it is below one");
    let [file, sheet] =
        ["lesson.html", "sheet.html"].map(|name| folder.join(name).to_string_lossy().into_owned());
    let from = site().to_string_lossy();
    outlean(&["pack", "file", "--site", &from, "--lesson", "05-lean", "-o", &file]);
    outlean(&["sheet", "--lesson", "05-lean", "--seed", "7", "--count", "5", "-o", &sheet]);
    for (path, scripts) in [(&file, 1), (&sheet, 0)] {
        let page = fs::read_to_string(path).expect("it was written");
        let policy = said(&page).unwrap_or_else(|| panic!("{path} does not say its policy"));
        assert!(policy.starts_with("default-src 'none'; "), "{policy}");
        let hashes = hashes(&policy);
        assert_eq!(hashes.len(), scripts + 1, "{policy}");
        assert_eq!(broken(&page, &Held { hashes, pictures: true }), Vec::<String>::new(), "{path}");
    }
}

/// A test of pages that finds nothing must be one that finds something.
#[test]
fn what_breaks_the_policy_is_found() {
    for page in [
        "<script>alert(1)</script>",
        "<script src=\"https://elsewhere.example/a.js\"></script>",
        "<style>a{}</style>",
        "<p style=\"color:red\">",
        "<img src=x onerror=alert(1)>",
        "<a href=\"java&#115;cript:alert(1)\">",
        "<a href=\"data:text/html,x\">",
        "<img src=\"//elsewhere.example/a.png\">",
        "<base href=\"/\">",
        "<meta http-equiv=\"refresh\" content=\"0\">",
        "<svg><rect fill=\"url(https://elsewhere.example/#a)\"></svg>",
        "<svg><foreignObject></foreignObject></svg>",
    ] {
        assert!(!broken(page, &Held::default()).is_empty(), "{page}");
    }
    let good =
        "<script type=\"application/json\">{\"a\":\"<b onclick=1>\"}</script><a href=\"https://a.example/\">";
    assert_eq!(broken(good, &Held::default()), Vec::<String>::new());
    assert_eq!(
        said(&format!("<link href=a><meta http-equiv=\"Content-Security-Policy\" content=\"{POLICY}\">")),
        None
    );
}
