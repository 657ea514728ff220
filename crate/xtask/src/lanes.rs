//! Files of tests that are run by one process each few: they share its browsers, which take longer to start than most tests to run.

use crate::command::Failure;
use crate::place;
use std::fs;

/// As few as keep two processors busy to the end.
const LANES: usize = 4;
/// What a file loads that asks for browsers; others may put something of their own in the place of what all see, and stay alone.
const HARNESS: &str = "./harness.mjs";

/// Writes lanes that between them load these files (paths from the root of the repository), each a file for Node; gives their paths, and
/// those of the files that stay alone.
pub fn of(files: &[String]) -> Result<Vec<String>, Failure> {
    let failed = |why| Failure::new(format!("tests could not be put together: {why}"));
    let mut run = Vec::new();
    let mut together = Vec::new();
    for file in files {
        let text = fs::read_to_string(place::root().join(file)).map_err(failed)?;
        if text.contains(HARNESS) { together.push(file) } else { run.push(file.clone()) }
    }
    let folder = place::target().join("lanes");
    fs::create_dir_all(&folder).map_err(failed)?;
    for lane in 0..LANES {
        let path = folder.join(format!("{lane}.test.mjs"));
        fs::write(&path, loading(together.iter().skip(lane).step_by(LANES))).map_err(failed)?;
        run.push(path.to_string_lossy().into_owned());
    }
    Ok(run)
}

/// A module that loads these.
fn loading<'a>(files: impl Iterator<Item = &'a &'a String>) -> String {
    let load = |file: &&String| format!("await import(pathToFileURL({:?}));\n", place::root().join(file));
    format!("import {{ pathToFileURL }} from 'node:url';\n{}", files.map(load).collect::<String>())
}
