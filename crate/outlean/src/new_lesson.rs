//! `outlean new-lesson`: a lesson to begin from.

use crate::files::{self, Unread};
use crate::folder;
use crate::out;
use crate::words::words;
use outlean_plan::lesson_of;
use std::fs;
use std::path::Path;
use std::process::ExitCode;

/// Its text; the name of the lesson goes where `NAME` stands, so that its questions are named unlike any others.
const LESSON: &str = include_str!("../new-lesson/lesson.md");
/// Its rig.
const RIG: &str = include_str!("../new-lesson/rig.toml");

/// Writes the lesson `name` into `lessons`, about the rig of the file `plan` if there is one. 2 where that cannot be done; what
/// is there already is never touched.
pub fn run(lessons: &Path, name: &str, plan: Option<&Path>) -> ExitCode {
    if let Some(why) = folder::wrong(name) {
        return crate::failed(&format!("`{name}` is no name for a lesson: {why}"));
    }
    let (lesson, rig) = match plan.map(|path| of_plan(path, name)) {
        None => (LESSON.replace("NAME", name), RIG.to_owned()),
        Some(Ok(texts)) => texts,
        Some(Err(code)) => return code,
    };
    let folder = lessons.join(name);
    let written = fs::create_dir_all(lessons)
        .and_then(|()| fs::create_dir(&folder))
        .and_then(|()| fs::write(folder.join("lesson.md"), &lesson))
        .and_then(|()| fs::write(folder.join("rig.toml"), &rig));
    match written {
        Ok(()) => {
            let said =
                format!("{0}\nWrite it over, and look at it with: outlean check {0}\n", folder.display());
            out::print(&said, ExitCode::SUCCESS)
        }
        Err(why) => crate::failed(&format!("{}: {why}", folder.display())),
    }
}

/// The text of a lesson about a plan, and the text of its rig file as it is.
fn of_plan(path: &Path, name: &str) -> Result<(String, String), ExitCode> {
    let (file, _) = files::read(path).map_err(|Unread { errors, code }| {
        out::tell(&errors);
        ExitCode::from(code)
    })?;
    let shown = path.display().to_string();
    let text = fs::read_to_string(path).map_err(|why| crate::failed(&format!("{shown}: {why}")))?;
    let title = file.title.as_deref().unwrap_or(&shown);
    let lesson = lesson_of(&file.rig, title, name);
    lesson
        .map(|lesson| (lesson, text))
        .ok_or_else(|| crate::failed(&words().fill("plan.no_lesson", &[("rig", &shown)])))
}
