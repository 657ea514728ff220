//! The pages that hold the whole course: the learner's record, the table of a class and the refresher.

use crate::lesson::{Block, Lesson};
use crate::markup::data;
use crate::page::{ORIGINAL, Shell};
use crate::translation::Translation;
use serde_json::{Value, json};

/// The page of `name`, `record`, `class` or `refresher`: its script, its element with the course, its words by that name.
/// Of a lesson it says what is said of it in `translated`, if it is there.
pub fn page(shell: &Shell, lessons: &[(String, Lesson)], translated: &[&Translation], name: &str) -> String {
    let body = format!(
        "<script type=\"module\" src=\"{}{name}.js\"></script>\n<outlean-{name}>{}{}</outlean-{name}>\n",
        shell.program("../"),
        data(&course(&shell.language, lessons, translated)),
        shell.still(&format!("{name}_still"))
    );
    shell.page("../", name, &body)
}

/// The course in a language: of each lesson its name, title, objectives, its questions with the numbers of their
/// objectives; the objectives as its original has them, `originals`, or `abroad` where it is there as the original only.
pub fn course(language: &str, lessons: &[(String, Lesson)], translated: &[&Translation]) -> Value {
    let question = |block: &Block| block.question().map(|(id, about)| json!([id, about.objective]));
    lessons
        .iter()
        .map(|(name, original)| {
            let own = translated.iter().find(|each| each.name == *name).map(|each| &each.lesson);
            let Lesson { title, objectives, .. } = own.unwrap_or(original);
            let questions: Vec<Value> = original.body.iter().filter_map(question).collect();
            let mut said =
                json!({ "name": name, "title": title, "objectives": objectives, "questions": questions });
            match (own, said.as_object_mut()) {
                (Some(_), Some(said)) => said.insert("originals".into(), json!(original.objectives)),
                (None, Some(said)) if language != ORIGINAL => said.insert("abroad".into(), true.into()),
                _ => None,
            };
            said
        })
        .collect()
}
