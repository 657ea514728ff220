//! What fuzzers kept is replayed, every file of it: what once failed, and what comes by as much of the code as a few files can.

use outlean_fuzzed::TARGETS;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// Most files that are kept of a target, and most bytes of them.
const MOST_FILES: usize = 60;
const MOST_BYTES: usize = 100_000;
/// Nothing takes longer, on however slow a machine.
const PATIENCE: Duration = Duration::from_secs(20);

fn fuzz() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../fuzz")
}

#[test]
fn what_was_kept_is_held_and_little_is_kept() {
    for (name, held) in TARGETS {
        let folder = fuzz().join("corpus").join(name);
        let files: Vec<PathBuf> =
            fs::read_dir(&folder).expect("a corpus").map(|entry| entry.expect("a file").path()).collect();
        let mut bytes = 0;
        for file in &files {
            let data = fs::read(file).expect("readable");
            bytes += data.len();
            let began = Instant::now();
            println!("{name} {}", file.display());
            held(&data);
            assert!(began.elapsed() < PATIENCE, "{name} {} takes {:?}", file.display(), began.elapsed());
        }
        assert!((1..=MOST_FILES).contains(&files.len()), "{name} has {} files", files.len());
        assert!(bytes <= MOST_BYTES, "{name} has {bytes} bytes");
    }
}

#[test]
fn every_target_is_fuzzed() {
    let manifest = fs::read_to_string(fuzz().join("Cargo.toml")).expect("readable");
    let bins = manifest.lines().filter(|line| *line == "[[bin]]").count();
    assert_eq!(bins, TARGETS.len());
    for (name, _) in TARGETS {
        assert!(manifest.contains(&format!("name = \"{name}\"")), "{name}");
        let target = fs::read_to_string(fuzz().join(format!("targets/{name}.rs"))).expect("readable");
        assert!(target.contains(&format!("outlean_fuzzed::{name}(data)")), "{name}");
    }
}
