//! Words in other languages, `www/strings/xx`, held against the English ones: no key that English has not, every place to
//! fill in both, every file there is. What is not there is said in English, and is counted.

#![expect(clippy::expect_used, reason = "a test that cannot read has failed")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// The words of a file by key.
fn words(file: &Path) -> BTreeMap<String, String> {
    let text = fs::read_to_string(file).unwrap_or_default();
    if text.is_empty() {
        BTreeMap::new()
    } else {
        serde_json::from_str(&text).expect("JSON of keys and texts")
    }
}

/// What a folder holds, by name.
fn inside(folder: &Path) -> Vec<PathBuf> {
    let mut all: Vec<_> =
        fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path()).collect();
    all.sort();
    all
}

/// The `{places}` of a text.
fn places(text: &str) -> BTreeSet<&str> {
    text.split('{').skip(1).filter_map(|rest| rest.split_once('}')).map(|(name, _)| name).collect()
}

/// All that is wrong in one file of a language.
fn wrong(english: &BTreeMap<String, String>, own: &BTreeMap<String, String>) -> Vec<String> {
    let mut all = Vec::new();
    for (key, text) in own {
        let Some(original) = english.get(key) else {
            all.push(format!("`{key}` is no key of the English file"));
            continue;
        };
        if text.trim().is_empty() && !original.trim().is_empty() {
            all.push(format!("`{key}` is empty"));
        }
        if places(text) != places(original) {
            all.push(format!("`{key}` has the places {:?}, English {:?}", places(text), places(original)));
        }
        if text.lines().count() != original.lines().count() {
            all.push(format!("`{key}` has not as many lines as in English"));
        }
    }
    all
}

#[test]
fn every_language_keeps_to_the_english_keys_and_places() {
    let strings = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../www/strings");
    let english = strings.join("en");
    let mut languages = 0;
    for folder in inside(&strings).into_iter().filter(|folder| folder.is_dir() && *folder != english) {
        languages += 1;
        let name = |path: &Path| path.file_name().map(|name| name.to_string_lossy().into_owned());
        let language = name(&folder).expect("a name");
        for file in inside(&folder) {
            assert!(
                english.join(name(&file).expect("a name")).is_file(),
                "{} is not in English",
                file.display()
            );
        }
        let (mut all, mut missing) = (0, 0);
        for file in inside(&english) {
            let (original, own) = (words(&file), words(&folder.join(name(&file).expect("a name"))));
            let wrong = wrong(&original, &own);
            assert!(wrong.is_empty(), "{language}, {}: {wrong:#?}", file.display());
            let fallbacks = original.keys().filter(|key| !own.contains_key(*key)).count();
            all += original.len();
            missing += fallbacks;
            println!("{language}: {fallbacks} of {} said in English, {}", original.len(), file.display());
        }
        println!("{language}: {missing} of {all} words are said in English");
    }
    assert!(languages > 0, "there is a language besides English");
}

#[test]
fn what_is_wrong_is_told() {
    let of = |pairs: &[(&str, &str)]| -> BTreeMap<String, String> {
        pairs.iter().map(|(key, text)| ((*key).to_owned(), (*text).to_owned())).collect()
    };
    let english = of(&[("lean", "It leans {lean}."), ("a", "one"), ("b", "two")]);
    assert!(wrong(&english, &of(&[("lean", "Se inclina {lean}.")])).is_empty());
    for (own, told) in [
        (("lean", "Se inclina."), "places"),
        (("lean", "Se inclina {lean} {load}."), "places"),
        (("a", " "), "empty"),
        (("c", "tres"), "no key"),
        (("b", "dos\nlíneas"), "lines"),
    ] {
        let wrong = wrong(&english, &of(&[own]));
        assert!(wrong.len() == 1 && wrong[0].contains(told), "{own:?}: {wrong:?}");
    }
}

/// Whether `text` has the words `term` as whole words.
fn has_term(text: &str, term: &str) -> bool {
    let (text, term) = (text.to_lowercase(), term.to_lowercase());
    let bound = |c: Option<char>| c.is_none_or(|c| !c.is_alphanumeric() && c != '_' && c != '{');
    text.match_indices(&term).any(|(at, found)| {
        let before = text.get(..at).and_then(|before| before.chars().next_back());
        let after = text.get(at + found.len()..).and_then(|after| after.chars().next());
        bound(before) && bound(after)
    })
}

/// A term of the table of a language: the English word, what may stand for it, where that was read.
#[derive(serde::Deserialize)]
struct Term {
    en: String,
    es: Vec<String>,
    source: String,
}

#[derive(serde::Deserialize)]
struct Terms {
    term: Vec<Term>,
}

#[test]
fn one_word_stands_for_one_thing_in_spanish_too() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let table = fs::read_to_string(root.join("www/strings/es-terms.toml")).expect("the terms");
    let table: Terms = toml::from_str(&table).expect("terms, what may stand for them, sources");
    assert!(table.term.iter().all(|term| !term.source.is_empty()));
    let (mut held, mut wrong) = (0, Vec::new());
    for file in inside(&root.join("www/strings/es")) {
        let original = words(&root.join("www/strings/en").join(file.file_name().expect("a name")));
        for (key, text) in words(&file) {
            let english = original.get(&key).map(String::as_str).unwrap_or_default();
            for term in table.term.iter().filter(|term| has_term(english, &term.en)) {
                held += 1;
                if !term.es.iter().any(|own| text.to_lowercase().contains(own)) {
                    wrong.push(format!("`{key}`: “{text}” has none of {:?} for “{}”", term.es, term.en));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(held > 300, "{held}");
}
