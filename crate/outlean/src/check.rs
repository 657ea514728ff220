//! `outlean check`: all that is wrong in lessons, and nothing built.

use crate::build::Failure;
use crate::course;
use std::path::PathBuf;
use std::process::ExitCode;

/// Says it on standard error and how much it is on standard output. 1 where a lesson has errors, 2 where a file cannot be
/// read or there is no lesson.
pub fn run(folders: &[PathBuf]) -> ExitCode {
    let course = match course::read(folders) {
        Ok(course) => course,
        Err(Failure::Content(said)) => {
            eprint!("{said}");
            return ExitCode::from(1);
        }
        Err(Failure::File(path, why)) => return crate::failed(&format!("{}: {why}", path.display())),
    };
    if course.count == 0 {
        let all: Vec<String> = folders.iter().map(|folder| folder.display().to_string()).collect();
        return crate::failed(&format!("{}: no lesson in it: no folder with a lesson.md", all.join(", ")));
    }
    eprint!("{}", course.said);
    println!(
        "{} read, {}, {}",
        counted(course.count, "lesson"),
        counted(course.errors, "error"),
        counted(course.warnings, "warning")
    );
    if course.errors > 0 { ExitCode::from(1) } else { ExitCode::SUCCESS }
}

fn counted(count: usize, of: &str) -> String {
    if count == 1 { format!("1 {of}") } else { format!("{count} {of}s") }
}
