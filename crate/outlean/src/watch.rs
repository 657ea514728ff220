//! Building a course anew whenever a file of it changes, and telling open pages so.

use crate::build::{self, Places};
use crate::disk::Failure;
use crate::out;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::thread;
use std::time::{Duration, SystemTime};

/// How often files are looked at.
const EVERY: Duration = Duration::from_millis(300);

/// The address at which a page asks for the number of the present build, and that of the script that asks.
pub const NUMBER: &str = "/~build";
/// See [`NUMBER`].
pub const SCRIPT: &str = "/~watch.js";
/// What a page gets at its end, to load the script.
pub const LOADS: &str = "<script type=\"module\" src=\"/~watch.js\"></script>\n";
/// The script: loads the page anew once the number is another.
pub const ASKS: &str =
    "const ask = () => fetch('/~build', { cache: 'no-store' }).then(answer => answer.text());
const first = await ask();
for (;;) {
  await new Promise(done => setTimeout(done, 400));
  // While the server is away there is nothing new.
  if ((await ask().catch(() => first)) !== first) {
    location.reload();
    break;
  }
}
";

/// When each file was last written.
type Files = BTreeMap<PathBuf, Option<SystemTime>>;

/// Builds a course once and says how that went, on standard error what is wrong.
fn build(places: &Places) -> bool {
    match build::build(places) {
        Ok(lessons) => {
            // Whoever started it may no longer listen.
            let _ = out::print(&format!("built {}\n", lessons.join(", ")), ExitCode::SUCCESS);
            true
        }
        Err(Failure::Content(said)) => {
            out::tell(&format!("{said}not built: the pages are as they were\n"));
            false
        }
        Err(Failure::File(path, why)) => {
            out::tell(&format!("not built: {}: {why}\n", path.display()));
            false
        }
    }
}

/// The files that a course is built from.
fn files(places: &Places) -> Files {
    let mut files = Files::new();
    for folder in [&places.lessons, &places.assets] {
        collect(folder, &mut files);
    }
    files
}

/// Builds a course, and again whenever a file of it changes, until the process ends. The number goes up by one with each
/// build that came to its end.
pub fn watch(places: Places) -> Arc<AtomicU64> {
    let number = Arc::new(AtomicU64::new(0));
    let told = Arc::clone(&number);
    let mut before = files(&places);
    build(&places);
    thread::spawn(move || {
        loop {
            thread::sleep(EVERY);
            let now = files(&places);
            if now == before {
                continue;
            }
            before = now;
            if build(&places) {
                told.fetch_add(1, Ordering::Relaxed);
            }
        }
    });
    number
}

/// Adds every file under `folder`; one that goes away meanwhile is not there.
fn collect(folder: &Path, files: &mut Files) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let path = entry.path();
        if path.is_dir() {
            collect(&path, files);
        } else {
            let written = entry.metadata().and_then(|file| file.modified()).ok();
            files.insert(path, written);
        }
    }
}
