//! A lesson as one HTML file that opens from a disk: styles, lettering, pictures, words and program inside it.
//!
//! A browser loads nothing beside a page from a disk, so nothing is linked to: what would lead to another page of the course is its
//! words alone. The file has a policy of its own, which lets its one script run, by its hash, and nothing be asked of anyone.

use super::Lesson;
use crate::disk::{Failure, bytes, text};
use crate::program;
use base64::{Engine, engine::general_purpose::STANDARD as BASE64};
use serde_json::{Map, Value, json};
use sha2::{Digest, Sha256};
use std::fs;
use std::path::Path;

/// How a page loads its style.
const STYLE: &str = "<link rel=\"stylesheet\"";

/// Writes the file of the only one of `lessons`; how many that is, or what was wrong.
pub fn single(site: &Path, lessons: &[Lesson], output: &Path) -> Result<usize, Failure> {
    let Some(lesson) = lessons.first() else {
        return Err(Failure::File(site.to_owned(), "the course has no lesson".into()));
    };
    let page = text(&site.join(&lesson.name).join("index.html"))?;
    let Some(name) = program::of(&page) else {
        let why = "its page does not load the program of a built course";
        return Err(Failure::File(site.join(&lesson.name), why.into()));
    };
    let program = site.join(name);
    let script = wrapped(&text(&program.join("single.js"))?);
    let style = with_fonts(&program, &joined(&program)?)?;
    let held = json_script(&held(&program)?);
    let page = with_pictures(&site.join(&lesson.name), &without_links(&page))?;
    let policy = format!(
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; script-src 'sha256-{}' 'wasm-unsafe-eval'; \
         style-src 'sha256-{}'; img-src data:; font-src data:\">\n",
        hash(&script),
        hash(&style)
    );
    // The policy stands before all that it is about.
    let page = page
        .replacen("<meta name=\"viewport\"", &(policy + "<meta name=\"viewport\""), 1)
        .replacen(&format!("{STYLE} href=\"../{name}/page.css\">\n"), &format!("<style>{style}</style>\n"), 1)
        .replacen(&format!("<script type=\"module\" src=\"../{name}/page.js\"></script>\n"), "", 1)
        .replacen("</body>", &format!("{held}\n<script>{script}</script>\n</body>"), 1);
    fs::write(output, page).map_err(|why| Failure::File(output.to_owned(), why.to_string()))?;
    Ok(1)
}

/// A file as an address that holds it.
fn data(path: &Path, kind: &str) -> Result<String, Failure> {
    Ok(format!("data:{kind};base64,{}", BASE64.encode(bytes(path)?)))
}

/// What a policy calls a script or a style by.
fn hash(content: &str) -> String {
    BASE64.encode(Sha256::digest(content))
}

/// A module as a script: in a scope of its own, with nothing that would end it early, and without an address of its own. By that
/// the bindings would find the program's module, where they are not given it.
fn wrapped(module: &str) -> String {
    let script = module.replace("</script", "<\\/script").replace("import.meta.url", "\"\"");
    format!("(()=>{{\"use strict\";{script}\n}})();")
}

/// The page's style with what it imports.
fn joined(program: &Path) -> Result<String, Failure> {
    let page = text(&program.join("page.css"))?;
    Ok(page.replacen("@import \"tokens.css\";", &text(&program.join("tokens.css"))?, 1))
}

/// A style with its lettering inside.
fn with_fonts(program: &Path, style: &str) -> Result<String, Failure> {
    let mut out = String::with_capacity(style.len());
    let mut rest = style;
    while let Some((before, after)) = rest.split_once("url(fonts/") {
        let (file, after) = after.split_once(')').unwrap_or((after, ""));
        out += &format!("{before}url({})", data(&program.join("fonts").join(file), "font/woff2")?);
        rest = after;
    }
    Ok(out + rest)
}

/// The page with its pictures inside.
fn with_pictures(folder: &Path, page: &str) -> Result<String, Failure> {
    let mut out = String::with_capacity(page.len());
    let mut rest = page;
    while let Some((before, after)) = rest.split_once("<img src=\"") {
        let (file, after) = after.split_once('"').unwrap_or((after, ""));
        out += &format!("{before}<img src=\"{}\"", data(&folder.join(file), "image/svg+xml")?);
        rest = after;
    }
    Ok(out + rest)
}

/// The page without links to anything beside it: of a lesson's text the words stay, of head and foot nothing does.
fn without_links(page: &str) -> String {
    let loads = |line: &str| line.starts_with("<link") && !line.starts_with(STYLE);
    let leads = |line: &str| line.starts_with("<a href=\"../") || line.starts_with("<a data-speaker");
    let mut foot = false;
    let mut kept = String::with_capacity(page.len());
    for line in page.lines() {
        foot = (foot || line.starts_with("<nav class=\"pages\"")) && !line.starts_with("<footer");
        if !foot && !loads(line) && !leads(line) {
            kept += line;
            kept.push('\n');
        }
    }
    let mut out = String::with_capacity(kept.len());
    let mut rest = kept.as_str();
    while let Some((before, after)) = rest.split_once("<a ") {
        let (tag, after) = after.split_once('>').unwrap_or((after, ""));
        let (words, after) = after.split_once("</a>").unwrap_or((after, ""));
        out += before;
        let stays = ["#", "https://"].iter().any(|way| tag.contains(&format!("href=\"{way}")));
        out += &if stays { format!("<a {tag}>{words}</a>") } else { words.to_owned() };
        rest = after;
    }
    out + rest
}

/// What the program loads: type and content of each file, by name.
fn held(program: &Path) -> Result<Value, Failure> {
    let mut all = Map::new();
    let mut put = |name: &str, kind: &str| {
        all.insert(name.to_owned(), json!([kind, BASE64.encode(bytes(&program.join(name))?)]));
        Ok::<(), Failure>(())
    };
    put("wasm/outlean_bg.wasm", "application/wasm")?;
    for style in ["figure.css", "question.css"] {
        put(style, "text/css")?;
    }
    for part in ["page", "picture", "curves", "question", "questions", "working", "records"] {
        put(&format!("strings/en/{part}.json"), "application/json")?;
    }
    Ok(all.into())
}

fn json_script(held: &Value) -> String {
    crate::markup::data(held).replacen("<script", "<script id=\"held\"", 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_links_stay_and_ways_out_go() {
        let page = "<link rel=\"icon\" href=\"../favicon.svg\">\n<link rel=\"stylesheet\" href=\"../page.css\">\n\
                    <a class=\"skip\" href=\"#lesson\">To it</a>\n<a href=\"../plan/\">Plan</a>\n\
                    <p>A <a class=\"term\" href=\"../glossary/#head\">head</a>, <a href=\"https://example.org/\">there</a>.</p>\n\
                    <nav class=\"pages\" aria-label=\"x\">\n<a href=\"../\">All</a>\n</nav>\n<footer>Caution</footer>\n";
        let wanted = "<link rel=\"stylesheet\" href=\"../page.css\">\n<a class=\"skip\" href=\"#lesson\">To it</a>\n\
                      <p>A head, <a href=\"https://example.org/\">there</a>.</p>\n<footer>Caution</footer>\n";
        assert_eq!(without_links(page), wanted);
    }

    #[test]
    fn a_script_cannot_be_ended_by_what_is_in_it() {
        assert_eq!(wrapped("a('</script>')"), "(()=>{\"use strict\";a('<\\/script>')\n})();");
    }
}
