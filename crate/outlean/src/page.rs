//! Pages: a lesson set in the shell of the course.

use crate::lesson::{Block, Lesson, TITLE};
use outlean_course::{About, EstimateTemplate, Span, Vary, asking};
use outlean_picture::Words;
use outlean_rig::Rig;
use outlean_rigfile::{Value as Entry, entries_of};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

/// What every page is set in.
pub struct Shell {
    /// HTML with `{{places}}`.
    pub template: String,
    /// Words of the shell.
    pub words: Words,
    /// Words of pictures.
    pub picture: Words,
}

impl Shell {
    /// The shell with its places filled. Values are HTML.
    pub fn fill(&self, values: &[(&str, &str)]) -> String {
        let mut out = String::new();
        let mut rest = self.template.as_str();
        while let Some((before, after)) = rest.split_once("{{") {
            out.push_str(before);
            let Some((name, after)) = after.split_once("}}") else { break };
            match (values.iter().find(|(each, _)| *each == name), name.strip_prefix("words.")) {
                (Some((_, value)), _) => out.push_str(value),
                (None, Some(key)) => out.push_str(&escaped(self.words.say(key))),
                (None, None) => {}
            }
            rest = after;
        }
        out.push_str(rest);
        out
    }
}

/// The files of a lesson's page: the page itself, the still pictures of its figures, the notes of who leads it.
pub fn lesson(shell: &Shell, name: &str, lesson: &Lesson) -> Vec<(PathBuf, String)> {
    let folder = Path::new(name);
    let mut files = Vec::new();
    let mut body = format!("<p>{}</p>\n<ul>\n", escaped(shell.words.say("objectives")));
    for objective in &lesson.objectives {
        body.push_str(&format!("<li>{}</li>\n", escaped(objective)));
    }
    body.push_str("</ul>\n");
    for block in &lesson.body {
        match block {
            Block::Html(html) => body.push_str(html),
            Block::Figure { name, rig } => {
                let still = format!("{name}.svg");
                let alt = shell.picture.say("side.title").to_owned();
                body.push_str(&format!(
                    "<outlean-rig id=\"{name}\" cautioned veiled>{}<img src=\"{still}\" alt=\"{}\" width=\"830\" height=\"560\"><p>{}</p></outlean-rig>\n",
                    data(&flat(rig)),
                    escaped(&alt),
                    escaped(shell.words.say("no_script")),
                ));
                if let Some(picture) = still_picture(rig, &shell.picture) {
                    files.push((folder.join(&still), picture));
                }
            }
            Block::Question(block) => {
                body.push_str(&crate::question::element(block, objective(lesson, &block.about)))
            }
            Block::Estimate(block) => body.push_str(&format!(
                "<outlean-estimate id=\"{}\" figure=\"{}\" objective=\"{}\">{}<p>{}</p></outlean-estimate>\n",
                escaped(&block.template.id),
                block.figure,
                escaped(objective(lesson, &block.about)),
                data(&template(&block.template)),
                escaped(shell.words.say("question_still")),
            )),
        }
    }
    let facts = shell.words.fill("minutes", &[("minutes", &lesson.minutes.to_string())]);
    let title = escaped(&lesson.title);
    let page = shell.fill(&[
        ("title", &title),
        ("description", &escaped(&lesson.objectives.join(" "))),
        ("facts", &escaped(&facts)),
        ("root", "../"),
        ("anchor", TITLE),
        ("lesson", &escaped(name)),
        ("version", &crate::record_page::version(&body)),
        ("speaker", &speaker_key(shell)),
        ("body", &body),
    ]);
    files.push((folder.join("index.html"), page));
    files.push((folder.join("notes.json"), notes(lesson).to_string()));
    files
}

/// The key that opens the speaker's view of the same lesson.
fn speaker_key(shell: &Shell) -> String {
    let name = escaped(shell.words.say("speaker"));
    format!("<a data-speaker href=\"?view=speaker\" target=\"outlean-speaker\">{name}</a>")
}

/// The notes by the anchors of the steps that they are about; those of one step are joined.
fn notes(lesson: &Lesson) -> Value {
    let mut all = serde_json::Map::new();
    for (step, html) in &lesson.notes {
        let known = all.get(step).and_then(Value::as_str).unwrap_or_default();
        let joined = format!("{known}{html}");
        all.insert(step.clone(), joined.into());
    }
    all.into()
}

/// The words of the objective that a question is for; it is one of the lesson's, which was seen to when that was read.
fn objective<'a>(lesson: &'a Lesson, about: &About) -> &'a str {
    let number = usize::try_from(about.objective).unwrap_or(0);
    number.checked_sub(1).and_then(|place| lesson.objectives.get(place)).map_or("", String::as_str)
}

/// The page that lists the lessons.
pub fn home(shell: &Shell, lessons: &[(String, Lesson)]) -> String {
    let mut body = String::from("<ol>\n");
    for (name, lesson) in lessons {
        let facts = shell.words.fill("minutes", &[("minutes", &lesson.minutes.to_string())]);
        body.push_str(&format!(
            "<li><a href=\"{name}/\">{}</a>. {}</li>\n",
            escaped(&lesson.title),
            escaped(&facts)
        ));
    }
    body.push_str("</ol>\n");
    shell.fill(&[
        ("title", &escaped(shell.words.say("home_title"))),
        ("description", &escaped(shell.words.say("home_description"))),
        ("facts", &escaped(shell.words.say("home_description"))),
        ("root", ""),
        ("anchor", TITLE),
        ("body", &body),
    ])
}

/// A rig as pages read it: SI numbers and words by the keys of the field and choice tables.
pub fn flat(rig: &Rig) -> Value {
    let entry = |(key, value)| {
        let value = match value {
            Entry::Number(number) => Value::from(number),
            Entry::Word(word) => Value::from(word),
        };
        (key, value)
    };
    entries_of(rig).into_iter().map(entry).collect()
}

/// A question template as pages read it.
fn template(template: &EstimateTemplate) -> Value {
    let span = |vary: &Vary| match vary {
        Vary::Number(Span { field, least, most, step, units }) => {
            Some(json!({ "field": field, "least": least, "most": most, "step": step, "units": units }))
        }
        Vary::Sides => None,
    };
    json!({
        "id": template.id,
        "rig": flat(&template.rig),
        "ask": asking(template.ask),
        "tolerance": template.tolerance.relative,
        "answer": [template.answer.least, template.answer.most],
        "slips": template.slips.iter().map(|slip| slip.name()).collect::<Vec<_>>(),
        "vary": template.vary.iter().filter_map(span).collect::<Vec<_>>(),
        "sides": template.vary.contains(&Vary::Sides),
    })
}

/// Data for an element, as a script that is never run. `<` is escaped, so that nothing in it can end it.
pub fn data(value: &Value) -> String {
    format!("<script type=\"application/json\">{}</script>", value.to_string().replace('<', "\\u003c"))
}

/// Text as HTML.
pub fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

/// The rig as the figure first shows it, without forces, as an SVG file; `None` for a rig that cannot be solved,
/// which no lesson has.
fn still_picture(rig: &Rig, words: &Words) -> Option<String> {
    crate::still::side_view(rig, words, false)
}
