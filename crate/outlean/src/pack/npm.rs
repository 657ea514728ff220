//! What pages load as a package that npm and what builds pages take: a folder with `package.json`, for `npm pack`, `npm publish` or
//! `npm install FOLDER`.

use super::below;
use crate::disk::{Failure, bytes, text};
use crate::program;
use serde_json::{Map, Value, json};
use std::fs;
use std::path::{Path, PathBuf};

/// The module that is loaded where the package is named alone.
const ENTRY: &str = "elements.js";
/// The manifest of its elements, in the same folder; see <https://github.com/webcomponents/custom-elements-manifest>.
const ELEMENTS: &str = "custom-elements.json";
/// What others may read of it, and may do with it.
const READ_FIRST: &str = include_str!("npm.md");
const LICENCES: [(&str, &str); 2] = [
    ("LICENSE-MIT", include_str!("../../../../LICENSE-MIT")),
    ("LICENSE-APACHE", include_str!("../../../../LICENSE-APACHE")),
];

/// Fills a folder with the package; how many files that is, or what was wrong.
pub fn npm(site: &Path, types: Option<&Path>, output: &Path) -> Result<usize, Failure> {
    let page = site.join("index.html");
    let page = text(&page)?;
    let Some(name) = program::of(&page) else {
        return Err(Failure::File(
            site.join("index.html"),
            "it does not load the program of a built course".into(),
        ));
    };
    let mut files = Vec::new();
    let loaded = below(&site.join(name), output)?;
    // Pictures are of the course's lessons.
    for way in loaded.into_iter().filter(|way| !way.starts_with("pictures/")) {
        files.push((format!("program/{way}"), bytes(&site.join(name).join(&way))?));
    }
    if !files.iter().any(|(way, _)| way.strip_prefix("program/") == Some(ENTRY)) {
        return Err(Failure::File(
            site.join(name).join(ENTRY),
            "it is not there, and the package begins with it".into(),
        ));
    }
    if let Some(types) = types {
        for way in below(types, output)? {
            let mut content = bytes(&types.join(&way))?;
            if way == ELEMENTS {
                // It names modules from where the package begins.
                let text = String::from_utf8_lossy(&content);
                content = text.replace(&format!("\"{ENTRY}\""), &format!("\"program/{ENTRY}\"")).into_bytes();
            }
            files.push((format!("types/{way}"), content));
        }
    }
    let has = |way: &str| files.iter().any(|(file, _)| file == way);
    let there = |file: String| Some(file).filter(|file| has(&format!("types/{file}")));
    // Its declarations have its name.
    let package = package(there(ENTRY.replace(".js", ".d.ts")), there(ELEMENTS.into()))
        .map_err(|why| Failure::Content(why.to_string()))?;
    files.push(("package.json".into(), package.into_bytes()));
    files.push(("README.md".into(), READ_FIRST.replace("{entry}", ENTRY).into_bytes()));
    files.extend(LICENCES.map(|(way, text)| (way.to_owned(), text.as_bytes().to_vec())));
    for (way, content) in &files {
        write(&output.join(way), content)?;
    }
    Ok(files.len())
}

/// `package.json`.
fn package(types: Option<String>, elements: Option<String>) -> serde_json::Result<String> {
    let entry = format!("./program/{ENTRY}");
    let mut main = Map::new();
    // What is declared comes first: the first that is met is taken.
    main.extend(types.iter().map(|file| ("types".to_owned(), Value::from(format!("./types/{file}")))));
    main.insert("default".into(), entry.clone().into());
    let mut package = json!({
        "name": "outlean",
        "version": env!("CARGO_PKG_VERSION"),
        "description": "Elements that draw a leaning timber A-frame, work out what its parts carry, and ask about it. A teaching aid.",
        "keywords": ["web-components", "statics", "rope-rescue", "teaching"],
        "license": "(MIT OR Apache-2.0) AND OFL-1.1",
        "type": "module",
        "main": entry,
        "exports": {
            ".": main,
            "./program/*": "./program/*",
            "./types/*": "./types/*",
            "./package.json": "./package.json",
        },
        "files": ["program", "types", "LICENSE-MIT", "LICENSE-APACHE"],
        // Elements define themselves.
        "sideEffects": true,
    });
    if let Some(all) = package.as_object_mut() {
        all.extend(types.map(|file| ("types".to_owned(), format!("./types/{file}").into())));
        all.extend(elements.map(|file| ("customElements".to_owned(), format!("types/{file}").into())));
    }
    serde_json::to_string_pretty(&package).map(|text| text + "\n")
}

fn write(path: &PathBuf, content: &[u8]) -> Result<(), Failure> {
    let folder = path.parent().map_or(Ok(()), fs::create_dir_all);
    folder.and_then(|()| fs::write(path, content)).map_err(|why| Failure::File(path.clone(), why.to_string()))
}
