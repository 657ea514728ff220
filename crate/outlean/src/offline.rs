//! The worker that keeps the course on a machine: its script, with what there is to keep.

use crate::version::{version_of, way};
use serde_json::json;
use std::path::{Path, PathBuf};

/// Its file. It stands beside the first page: a worker answers for what is below it.
pub const WORKER: &str = "offline-worker.js";

/// The worker's script, told of these files of the course. Its version changes with any of them, and with the script.
pub fn worker(script: &str, files: &[(PathBuf, Vec<u8>)]) -> String {
    let own = (Path::new(WORKER), script.as_bytes());
    let others = files.iter().map(|(file, content)| (file.as_path(), content.as_slice()));
    let version = version_of(others.chain([own]));
    let mut files: Vec<String> = files.iter().map(|(file, _)| way(file)).collect();
    files.sort();
    format!("self.course = {};\n{script}", json!({ "version": version, "files": files }))
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
