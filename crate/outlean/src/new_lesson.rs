//! `outlean new-lesson`: a lesson to begin from.

use std::fs;
use std::path::Path;
use std::process::ExitCode;

/// Its text; the name of the lesson goes where `NAME` stands, so that its questions are named unlike any others.
const LESSON: &str = include_str!("../new-lesson/lesson.md");
/// Its rig.
const RIG: &str = include_str!("../new-lesson/rig.toml");

/// Writes the lesson `name` into `lessons`. 2 where that cannot be done; what is there already is never touched.
pub fn run(lessons: &Path, name: &str) -> ExitCode {
    let plain = |b: u8| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-';
    if name.is_empty() || !name.bytes().all(plain) {
        return crate::failed(&format!(
            "`{name}` is no name for a lesson: small letters, digits and hyphens, such as 04-feet"
        ));
    }
    let folder = lessons.join(name);
    let written = fs::create_dir_all(lessons)
        .and_then(|()| fs::create_dir(&folder))
        .and_then(|()| fs::write(folder.join("lesson.md"), LESSON.replace("NAME", name)))
        .and_then(|()| fs::write(folder.join("rig.toml"), RIG));
    match written {
        Ok(()) => {
            println!("{0}\nWrite it over, and look at it with: outlean check {0}", folder.display());
            ExitCode::SUCCESS
        }
        Err(why) => crate::failed(&format!("{}: {why}", folder.display())),
    }
}
