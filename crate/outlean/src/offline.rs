//! The worker that keeps the course on a machine: its script, with what there is to keep.

use crate::version::version;
use serde_json::json;
use std::path::{Path, PathBuf};

/// Its file. It stands beside the first page: a worker answers for what is below it.
pub const WORKER: &str = "offline-worker.js";

/// The worker's script, told of these files of the course. Its version changes with any of them, and with the script.
pub fn worker(script: &str, files: &[(PathBuf, Vec<u8>)]) -> String {
    let mut all: Vec<(String, &[u8])> =
        files.iter().map(|(file, content)| (way(file), content.as_slice())).collect();
    all.sort();
    let mut whole = script.as_bytes().to_vec();
    for (file, content) in &all {
        whole.extend_from_slice(file.as_bytes());
        whole.extend_from_slice(version(content).as_bytes());
    }
    let files: Vec<&str> = all.iter().map(|(file, _)| file.as_str()).collect();
    format!("self.course = {};\n{script}", json!({ "version": version(&whole), "files": files }))
}

/// A file's way from the first page.
fn way(file: &Path) -> String {
    file.to_string_lossy().replace('\\', "/")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_version_changes_with_any_file_and_with_the_script() {
        let files = |b: &str| vec![("b/x".into(), b.as_bytes().to_vec()), ("a".into(), b"1".to_vec())];
        let usual = worker("answer();", &files("2"));
        assert!(usual.starts_with("self.course = {") && usual.ends_with(";\nanswer();"), "{usual}");
        assert!(usual.contains(r#""files":["a","b/x"]"#), "{usual}");
        let first = |text: String| text.lines().next().map(str::to_owned);
        assert_eq!(usual, worker("answer();", &files("2")));
        assert_ne!(first(usual.clone()), first(worker("answer();", &files("3"))));
        assert_ne!(first(usual), first(worker("other();", &files("2"))));
    }
}
