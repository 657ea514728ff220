//! The licences of all that others wrote and that is compiled into the program and into what pages load.

use crate::command::{Failure, cargo, output_of};
use crate::wasm::TARGET as WASM;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// What a licence's file is called, to begin with.
const CALLED: [&str; 5] = ["LICENSE", "LICENCE", "COPYING", "NOTICE", "COPYRIGHT"];
/// What is compiled for pages.
const OF_PAGES: [&str; 4] = ["outlean-widget", "outlean-refresher", "outlean-class", "outlean-planner"];

/// Each crate that others wrote, with its version, what it is licensed under, and the texts that come with it; a text that many
/// share stands once, below all of them. `host` is what the native program is compiled for.
pub fn text(host: &str) -> Result<String, Failure> {
    let metadata = output_of(cargo("metadata --format-version 1 --locked"))
        .and_then(|text| serde_json::from_str::<Value>(&text).ok())
        .ok_or_else(|| Failure::new("`cargo metadata` does not tell where the sources of crates are."))?;
    let mut used = used("outlean", host)?;
    for package in OF_PAGES {
        used.append(&mut self::used(package, WASM)?);
    }
    let mut of_text: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for package in metadata.get("packages").and_then(Value::as_array).into_iter().flatten() {
        let said = |key: &str| package.get(key).and_then(Value::as_str).unwrap_or_default();
        let name = format!("{} v{}", said("name"), said("version"));
        // What has no source was written here.
        if !used.contains(&name) || said("source").is_empty() {
            continue;
        }
        let folder = Path::new(said("manifest_path")).parent().unwrap_or(Path::new(""));
        let texts = texts(folder).map_err(|why| Failure::new(format!("{}: {why}", folder.display())))?;
        of_text.entry(texts).or_default().push(format!("{name} ({})", said("license")));
    }
    if of_text.is_empty() {
        return Err(Failure::new("no crate of others is found among what `cargo tree` lists."));
    }
    let mut groups: Vec<(Vec<String>, String)> =
        of_text.into_iter().map(|(texts, names)| (names, texts)).collect();
    groups.iter_mut().for_each(|(names, _)| names.sort());
    groups.sort();
    let rule = "=".repeat(80);
    let groups =
        groups.iter().map(|(names, texts)| format!("{rule}\n{}\n{rule}\n\n{texts}", names.join("\n")));
    Ok(groups.collect())
}

/// The crates that are compiled into a package for a target, as `NAME vVERSION`.
fn used(package: &str, target: &str) -> Result<BTreeSet<String>, Failure> {
    let tree = format!("tree --locked --edges normal --prefix none --package {package} --target {target}");
    let said = output_of(cargo(&tree)).ok_or_else(|| Failure::new(format!("`cargo {tree}` failed.")))?;
    let named = |line: &str| line.split(' ').take(2).collect::<Vec<_>>().join(" ");
    Ok(said.lines().map(named).collect())
}

/// The licences in a folder, one after another.
fn texts(folder: &Path) -> std::io::Result<String> {
    let mut all = BTreeMap::new();
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        if entry.file_type()?.is_file() && CALLED.iter().any(|called| name.to_uppercase().starts_with(called))
        {
            all.insert(name, fs::read_to_string(entry.path())?);
        }
    }
    if all.is_empty() {
        return Ok("It comes without a text of its licence.\n\n".into());
    }
    Ok(all.into_values().map(|text| format!("{}\n\n", text.replace("\r\n", "\n").trim_end())).collect())
}
