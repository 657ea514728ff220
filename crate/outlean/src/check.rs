//! `outlean check`: all that is wrong in lessons, and nothing built.

use crate::course;
use crate::disk::Failure;
use crate::lesson::Block;
use crate::out;
use outlean_course::Template;
use std::path::PathBuf;
use std::process::ExitCode;

/// Says it on standard error and how much it is on standard output. 1 where a lesson has errors, 2 where a file cannot be
/// read or there is no lesson.
///
/// With `digests`, a line follows for each question: its name and one number for all that so many seeds draw and for how they are
/// marked. Two machines that give the same number draw and mark alike.
pub fn run(folders: &[PathBuf], digests: Option<u32>) -> ExitCode {
    let course = match course::read(folders) {
        Ok(course) => course,
        Err(Failure::Content(said)) => {
            out::tell(&said);
            return ExitCode::from(1);
        }
        Err(Failure::File(path, why)) => return crate::failed(&format!("{}: {why}", path.display())),
    };
    if course.count == 0 {
        let all: Vec<String> = folders.iter().map(|folder| folder.display().to_string()).collect();
        return crate::failed(&format!("{}: no lesson in it: no folder with a lesson.md", all.join(", ")));
    }
    out::tell(&course.said);
    let mut answer = format!(
        "{} read, {}, {}\n",
        counted(course.count, "lesson"),
        counted(course.errors, "error"),
        counted(course.warnings, "warning")
    );
    let questions = course.lessons.iter().flat_map(|(_, lesson)| &lesson.body).filter_map(template);
    for template in questions {
        let Some(seeds) = digests else { break };
        match template.digest(0..u64::from(seeds)) {
            Ok(digest) => answer += &format!("{} {digest:016x}\n", template.id()),
            // Beyond the seeds that were tried a template may fail, in principle.
            Err(why) => return crate::failed(&format!("{}: {why:?}", template.id())),
        }
    }
    out::print(&answer, u8::from(course.errors > 0).into())
}

fn template(block: &Block) -> Option<Template> {
    match block {
        Block::Estimate(block) => Some(Template::Estimate(block.template.clone())),
        Block::Question(block) => Some(block.template.clone()),
        _ => None,
    }
}

fn counted(count: usize, of: &str) -> String {
    if count == 1 { format!("1 {of}") } else { format!("{count} {of}s") }
}
