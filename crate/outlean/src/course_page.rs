//! The pages that hold the whole course: the learner's record, the table of a class and the refresher.

use crate::lesson::{Block, Lesson};
use crate::page::{Shell, data, escaped};
use serde_json::{Value, json};

/// The page of `name`, `record`, `class` or `refresher`: its script, its element with the course, its words by that name.
pub fn page(shell: &Shell, lessons: &[(String, Lesson)], name: &str) -> String {
    let say = |word: &str| escaped(shell.words.say(&format!("{name}_{word}")));
    let body = format!(
        "<script type=\"module\" src=\"{}{name}.js\"></script>\n<outlean-{name}>{}<p>{}</p></outlean-{name}>\n",
        shell.program("../"),
        data(&course(lessons)),
        say("still")
    );
    shell.page("../", name, &body)
}

/// The course: of each lesson its name, title, objectives, and its questions with the numbers of their objectives.
pub fn course(lessons: &[(String, Lesson)]) -> Value {
    let question = |block: &Block| match block {
        Block::Estimate(block) => Some(json!([block.template.id, block.about.objective])),
        Block::Question(block) => Some(json!([block.template.id(), block.about.objective])),
        Block::Html(_) | Block::Figure { .. } | Block::Build(_) => None,
    };
    lessons
        .iter()
        .map(|(name, lesson)| {
            let questions: Vec<Value> = lesson.body.iter().filter_map(question).collect();
            json!({ "name": name, "title": lesson.title, "objectives": lesson.objectives, "questions": questions })
        })
        .collect()
}
