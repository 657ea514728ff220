//! Pages: a lesson set in the shell of the course.

use crate::figure::Figure;
use crate::glossary::{Glossary, Use};
use crate::lesson::{Block, Lesson, TITLE, objective_anchor};
use crate::markup::escaped;
use crate::policy;
use crate::program;
use crate::still;
use crate::translation::Translation;
use crate::version::way;
use outlean_course::About;
use outlean_picture::Words;
use serde_json::Value;
use std::path::{Path, PathBuf};

/// What every page is set in.
pub struct Shell {
    /// The language of its pages, by its code.
    pub language: String,
    /// Every language that there are pages in, this one among them: its code and what it calls itself.
    pub languages: Vec<(String, String)>,
    /// The way from the first page in this language to the first of all.
    pub up: &'static str,
    /// HTML with `{{places}}`.
    pub template: String,
    /// Words of the shell.
    pub words: Words,
    /// Words of pictures.
    pub picture: Words,
    /// Words of figures.
    pub figures: Words,
    /// Words of the plates of a build.
    pub steps: Words,
    /// Words of questions.
    pub questions: Words,
}

impl Shell {
    /// The shell with its places filled. Values are HTML.
    ///
    /// `home` is the way to the first page in this language.
    pub fn fill(&self, home: &str, values: &[(&str, &str)]) -> String {
        self.filled(&self.template, home, values)
    }

    /// HTML with `{{places}}` filled in the same way.
    pub fn filled(&self, template: &str, home: &str, values: &[(&str, &str)]) -> String {
        let root = format!("{home}{}", self.up);
        let program = self.program(home);
        let policy = policy::said(policy::POLICY);
        let all = [
            ("home", home),
            ("root", &root),
            ("program", &program),
            ("language", &self.language),
            ("policy", &policy),
        ];
        let values: Vec<(&str, &str)> = values.iter().copied().chain(all).collect();
        let mut out = String::new();
        let mut rest = template;
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

    /// The way from a page to the folder of what it loads; `home` is as in [`Self::fill`].
    pub fn program(&self, home: &str) -> String {
        format!("{home}{}{}/", self.up, program::UNNAMED)
    }

    /// The folder of the pages in its language.
    fn folder(&self) -> &Path {
        Path::new(if self.up.is_empty() { "" } else { &self.language })
    }

    /// A page of the course that is no lesson, with this body: its title and what it is are the words of its `name`.
    pub fn page(&self, home: &str, name: &str, body: &str) -> String {
        let say = |word: &str| escaped(self.words.say(&format!("{name}_{word}")));
        let title = say("title");
        let folder = if name == HOME { String::new() } else { format!("{name}/") };
        let about = if IN_EVERY_LANGUAGE.contains(&name) {
            say("description") + &self.elsewhere(home, &folder, |_| true)
        } else {
            say("description")
        };
        let values = [
            ("title", &*title),
            ("description", &say("description")),
            ("facts", &about),
            ("anchor", TITLE),
            ("body", body),
        ];
        self.fill(home, &values)
    }

    /// What stands in the element of a page until it starts, as HTML: words by their `key`, and, hidden until they are true, that
    /// something it needs is late, or does not come.
    pub fn still(&self, key: &str) -> String {
        let say = |key: &str| escaped(self.words.say(key));
        let (late, gone) = (say("late"), say("gone"));
        format!(
            "<p>{}</p><p class=\"late\" role=\"status\" hidden>{late}</p><p class=\"gone\" role=\"alert\" hidden>{gone}</p>",
            say(key)
        )
    }

    /// Links from a page to the same page, in `folder` below the first of its language, in the other languages that it is
    /// there in, each called what it calls itself.
    fn elsewhere(&self, home: &str, folder: &str, there: impl Fn(&str) -> bool) -> String {
        let others = self.languages.iter().filter(|(code, _)| *code != self.language && there(code));
        let link = |(code, name): &(String, String)| {
            let below = if code == ORIGINAL { String::new() } else { format!("{code}/") };
            let way = format!("{home}{}{below}{folder}", self.up);
            let way = if way.is_empty() { "./".to_owned() } else { way };
            format!(" <a href=\"{way}\" hreflang=\"{code}\" lang=\"{code}\">{}</a>", escaped(name))
        };
        others.map(link).collect()
    }
}

/// The language of the originals, whose pages stand above those of all others.
pub const ORIGINAL: &str = "en";

/// The name of the first page.
const HOME: &str = "home";

/// Pages that are no lesson and are there in every language. The others are all text, and that is in English alone.
const IN_EVERY_LANGUAGE: [&str; 5] = [HOME, "record", "class", "refresher", "plan"];

/// The files of a lesson's page, where they stand in the course: the page itself, the still pictures of its figures, the
/// notes of who leads it; and which terms of the `glossary` it uses, where. `languages` are those that it is there in
/// besides the original's. Answers are kept with the objectives of the `original`, so that they count for the same in
/// whatever language it was read.
pub fn lesson(
    shell: &Shell,
    name: &str,
    lesson: &Lesson,
    original: &Lesson,
    languages: &[&str],
    glossary: &Glossary,
) -> (Vec<(PathBuf, String)>, Vec<Use>) {
    let folder = shell.folder().join(name);
    // Pictures stand with what pages load.
    let pictures = Path::new("pictures").join(&folder);
    let mut files = Vec::new();
    let mut objectives = format!("<p>{}</p>\n<ul>\n", escaped(shell.words.say("objectives")));
    for (number, objective) in (1..).zip(&lesson.objectives) {
        objectives.push_str(&format!(
            "<li id=\"{}\">{}</li>\n",
            objective_anchor(number),
            escaped(objective)
        ));
    }
    objectives.push_str("</ul>\n");
    let mut body = String::new();
    // What moves in one section has browsers look at the others as one each: a third of a frame's time.
    let mut sections = 0;
    for block in &lesson.body {
        match block {
            Block::Html(html) => {
                if html.starts_with("<h2") {
                    body.push_str(if sections == 0 { "<section>\n" } else { "</section>\n<section>\n" });
                    sections += 1;
                }
                body.push_str(html);
            }
            Block::Figure { name, rig } => {
                let still = pictures.join(format!("{name}.svg"));
                // Only a prediction lifts the veil.
                let asked = |block: &Block| matches!(block, Block::Estimate(block) if block.figure == *name);
                let figure = Figure {
                    id: name,
                    rig,
                    veiled: lesson.body.iter().any(asked),
                    cautioned: true,
                    still: &(shell.program("../") + &way(&still)),
                    note: &escaped(shell.words.say("no_script")),
                    words: &shell.figures,
                };
                body.push_str(&(figure.element() + "\n"));
                if let Some(picture) = still::side_view(rig, &shell.picture, false) {
                    files.push((Path::new(program::UNNAMED).join(&still), picture));
                }
            }
            Block::Build(block) => body.push_str(&crate::plates::list(block, &shell.steps)),
            Block::Question(block) => body.push_str(&crate::question::element(
                block,
                objective(original, &block.about),
                &shell.questions,
            )),
            Block::Estimate(block) => body.push_str(&crate::question::estimate(
                block,
                objective(original, &block.about),
                shell.words.say("question_still"),
                &shell.questions,
            )),
        }
    }
    if sections > 0 {
        body.push_str("</section>\n");
    }
    let facts = shell.words.fill("minutes", &[("minutes", &lesson.minutes.to_string())]);
    let elsewhere =
        shell.elsewhere("../", &format!("{name}/"), |code| code == ORIGINAL || languages.contains(&code));
    let title = escaped(&lesson.title);
    // A version is of what the lesson says, whatever of it is explained elsewhere.
    let version = crate::version::version(format!("{objectives}{body}"));
    let (linked, uses) = glossary.linked(&body, "../glossary/", None);
    let page = shell.fill(
        "../",
        &[
            ("title", &title),
            ("description", &escaped(&lesson.objectives.join(" "))),
            ("facts", &(escaped(&facts) + &elsewhere)),
            ("anchor", TITLE),
            ("lesson", &escaped(name)),
            ("version", &version),
            ("speaker", &speaker_key(shell)),
            ("body", &(objectives + &linked)),
        ],
    );
    files.push((folder.join("index.html"), page));
    files.push((folder.join("notes.json"), notes(lesson).to_string()));
    (files, uses)
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

/// The page that lists the lessons, each in the language of the shell where it is there in it.
/// `size` is that of the whole course, bytes: the page offers to keep it on a machine.
pub fn home(shell: &Shell, lessons: &[(String, Lesson)], translated: &[&Translation], size: usize) -> String {
    let mut body = String::from("<ol>\n");
    for (name, original) in lessons {
        let own = translated.iter().find(|each| each.name == *name).map(|each| &each.lesson);
        let facts = shell.words.fill("minutes", &[("minutes", &original.minutes.to_string())]);
        let (way, lang, hreflang) = match own {
            None if !shell.up.is_empty() => (shell.up, " lang=\"en\"", " hreflang=\"en\""),
            _ => ("", "", ""),
        };
        let lesson = own.unwrap_or(original);
        body.push_str(&format!(
            "<li><a href=\"{way}{name}/\"{lang}{hreflang}>{}</a>. {}<br><span class=\"besides\"{lang}>{}</span></li>\n",
            escaped(&lesson.title),
            escaped(&facts),
            escaped(&lesson.objectives.join(" "))
        ));
    }
    body.push_str("</ol>\n");
    body.push_str(&format!(
        "<script type=\"module\" src=\"{}offline.js\"></script>\n<outlean-offline size=\"{size}\"></outlean-offline>\n",
        shell.program("")
    ));
    shell.page("", HOME, &body)
}
