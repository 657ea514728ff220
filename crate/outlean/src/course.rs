//! The lessons of a course, read together, with all that is wrong in them.

use crate::diagnostics;
use crate::disk::{Failure, bounded, entries, files, name_of};
use crate::folder;
use crate::glossary::{self, Glossary};
use crate::lesson::{self, Block, Complaint, Lesson};
use crate::reading;
use crate::sources::{self, Sources};
use crate::translation::{Translation, differences, is_language};
use outlean_rig::Rig;
use outlean_rigfile::Severity;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// What was read.
#[derive(Default)]
pub struct Course {
    /// Lessons with nothing wrong in them, by the names of their folders.
    pub lessons: Vec<(String, Lesson)>,
    /// Their translations with nothing wrong in them, in the order of the lessons.
    pub translations: Vec<Translation>,
    /// The words of the trade; none where there is no glossary, or something wrong in it.
    pub glossary: Glossary,
    /// What it rests on; none where none are listed, or something is wrong in the list.
    pub sources: Sources,
    /// How many lessons there are, wrong ones as well.
    pub count: usize,
    /// All that is to be said of them, ready to be read.
    pub said: String,
    /// How many errors are among it.
    pub errors: usize,
    /// How many warnings.
    pub warnings: usize,
}

/// Finds a rig by the name of its file.
type RigOf<'a> = &'a dyn Fn(&str) -> Option<Rig>;

/// A question's name and where it was first given: the path of its lesson.
type Names = BTreeMap<String, String>;

/// Reads the lessons in `folders`: each is one lesson's or holds lessons, one folder each.
///
/// # Errors
///
/// The first file that cannot be read.
pub fn read(folders: &[PathBuf]) -> Result<Course, Failure> {
    let mut course = Course::default();
    let mut names = Names::new();
    for folder in folders {
        let is_lesson = |folder: &PathBuf| folder.join("lesson.md").is_file();
        let all = if is_lesson(folder) {
            vec![folder.clone()]
        } else {
            entries(folder)?.into_iter().filter(is_lesson).collect()
        };
        for folder in &all {
            course.lesson(folder, &mut names)?;
        }
        let lessons: Vec<String> = all.iter().map(|folder| called(folder)).collect();
        if let Some(read) = course.beside(folder, "glossary.toml", |text| glossary::read(text, &lessons))? {
            course.glossary = read;
        }
        if let Some(read) = course.beside(folder, "sources.toml", sources::read)? {
            course.sources = read;
        }
    }
    Ok(course)
}

/// What the folder of a lesson is called, by whatever way it was given: `.` has a name too.
fn called(folder: &Path) -> String {
    let whole = if folder.file_name().is_none() { folder.canonicalize().ok() } else { None };
    name_of(whole.as_deref().unwrap_or(folder))
}

impl Course {
    /// Reads the lesson in `folder` and all rigs beside it.
    fn lesson(&mut self, folder: &Path, names: &mut Names) -> Result<(), Failure> {
        self.count += 1;
        let before = self.errors;
        let mut rigs: BTreeMap<String, Rig> = BTreeMap::new();
        let is_rig = |file: &PathBuf| file.extension().is_some_and(|ending| ending == "toml");
        for file in files(folder)?.into_iter().filter(is_rig) {
            let source = bounded(&file)?;
            let (rig, problems) = outlean_rigfile::read(&source);
            self.said += &diagnostics::problems(&file.display().to_string(), &source, &problems);
            let errors = problems.iter().filter(|problem| problem.severity == Severity::Error).count();
            self.errors += errors;
            self.warnings += problems.len() - errors;
            if let Some(read) = rig {
                rigs.insert(name_of(&file), read.rig);
            }
        }
        let path = folder.join("lesson.md");
        let source = bounded(&path)?;
        let path = path.display().to_string();
        let name = called(folder);
        if let Some(hint) = folder::wrong(&name) {
            let message = format!("`{name}` is no name for the folder of a lesson");
            self.complain(&path, &source, Complaint { span: 0..0, message, hint: Some(hint) });
        }
        match lesson::read(&source, &|name| rigs.get(name).cloned()) {
            Ok(lesson) => {
                for complaint in reading::hard(&source) {
                    self.warn(&path, &source, complaint);
                }
                self.twice(&lesson, &path, &source, names);
                self.translations(folder, &name, &lesson, &|name| rigs.get(name).cloned())?;
                if self.errors == before {
                    self.lessons.push((name, lesson));
                }
            }
            Err(complaints) => {
                for complaint in complaints {
                    self.complain(&path, &source, complaint);
                }
            }
        }
        Ok(())
    }

    /// Reads what stands in `lang` beside a lesson.
    fn translations(
        &mut self,
        folder: &Path,
        name: &str,
        original: &Lesson,
        rig_of: RigOf<'_>,
    ) -> Result<(), Failure> {
        let lang = folder.join("lang");
        if !lang.is_dir() {
            return Ok(());
        }
        for file in files(&lang)? {
            let (source, path) = (bounded(&file)?, file.display().to_string());
            let language = name_of(&file).strip_suffix(".md").unwrap_or_default().to_owned();
            if !is_language(&language) {
                let message = format!("`{}` names no language", name_of(&file));
                let hint = "name it by its code and .md, such as de.md".to_owned();
                self.complain(&path, &source, Complaint { span: 0..0, message, hint: Some(hint) });
                continue;
            }
            let complaints = match lesson::read(&source, rig_of) {
                Ok(lesson) => {
                    let complaints = differences(original, &lesson, &source);
                    if complaints.is_empty() {
                        self.translations.push(Translation { language, name: name.to_owned(), lesson });
                    }
                    complaints
                }
                Err(complaints) => complaints,
            };
            for complaint in complaints {
                self.complain(&path, &source, complaint);
            }
        }
        Ok(())
    }

    /// Reads what stands in a file beside the lessons, if it is there and nothing is wrong in it.
    fn beside<R>(
        &mut self,
        folder: &Path,
        name: &str,
        read: impl FnOnce(&str) -> Result<R, Vec<Complaint>>,
    ) -> Result<Option<R>, Failure> {
        let path = folder.join(name);
        if !path.is_file() {
            return Ok(None);
        }
        let source = bounded(&path)?;
        let complaints = match read(&source) {
            Ok(read) => return Ok(Some(read)),
            Err(complaints) => complaints,
        };
        for complaint in complaints {
            self.complain(&path.display().to_string(), &source, complaint);
        }
        Ok(None)
    }

    /// Complains of names of questions that another question of the course has.
    fn twice(&mut self, lesson: &Lesson, path: &str, source: &str, names: &mut Names) {
        for (id, _) in lesson.body.iter().filter_map(Block::question) {
            let Some(earlier) = names.insert(id.to_owned(), path.to_owned()) else { continue };
            let quoted = format!("\"{id}\"");
            let at = source.rfind(&quoted).unwrap_or(0);
            let message = format!("the question `{id}` has the name of another, in {earlier}");
            let hint = "give it a name unlike any other of the course".to_owned();
            let span = at..at + quoted.len();
            self.complain(path, source, Complaint { span, message, hint: Some(hint) });
        }
    }

    fn warn(&mut self, path: &str, source: &str, complaint: Complaint) {
        let Complaint { span, message, hint } = complaint;
        self.said += &diagnostics::warning(path, source, span, &message, hint.as_deref());
        self.warnings += 1;
    }

    fn complain(&mut self, path: &str, source: &str, complaint: Complaint) {
        let Complaint { span, message, hint } = complaint;
        self.said += &diagnostics::complaint(path, source, span, &message, hint.as_deref());
        self.errors += 1;
    }
}
