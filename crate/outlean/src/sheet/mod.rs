//! `outlean sheet`: questions of a lesson on paper, drawn by seed, and their key on a page of its own.

mod key;
mod put;

pub use key::steps;

use crate::course;
use crate::disk::Failure;
use crate::lesson::{Block, EstimateBlock, Lesson, QuestionBlock};
use crate::markup::escaped;
use crate::out;
use crate::policy;
use crate::words::{of_questions, words};
use outlean_course::{About, Template};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What is to be printed.
#[derive(clap::Args)]
pub struct Wanted {
    /// Folder of the lesson, or its name in the folder of lessons.
    #[arg(long)]
    lesson: String,
    /// The folder of lessons.
    #[arg(long, default_value = "lessons")]
    lessons: PathBuf,
    /// What the questions are drawn by: the same seed gives the same sheet.
    #[arg(long)]
    seed: u32,
    /// How many questions, 1 to 200: the lesson's in turn, then again with other numbers.
    #[arg(long, value_parser = clap::value_parser!(u32).range(1..=200))]
    count: u32,
    /// The file to write; standard output where none is named.
    #[arg(short, long)]
    output: Option<PathBuf>,
}

/// How the sheet looks, on a screen and on paper.
const STYLE: &str = include_str!("sheet.css");

/// One question of a lesson, of whatever kind.
pub struct Asked<'a> {
    template: Template,
    about: &'a About,
    asks: Option<String>,
}

/// Writes the sheet. 1 where the lesson has errors, 2 where a file cannot be read or written.
pub fn run(wanted: &Wanted) -> ExitCode {
    let folder = match Path::new(&wanted.lesson) {
        path if path.join("lesson.md").is_file() => path.to_owned(),
        name => wanted.lessons.join(name),
    };
    if !folder.join("lesson.md").is_file() {
        return crate::failed(&format!("{}: there is no lesson.md in it", folder.display()));
    }
    let course = match course::read(std::slice::from_ref(&folder)) {
        Ok(course) => course,
        Err(Failure::Content(said)) => {
            out::tell(&said);
            return ExitCode::from(1);
        }
        Err(Failure::File(path, why)) => return crate::failed(&format!("{}: {why}", path.display())),
    };
    out::tell(&course.said);
    let Some((_, lesson)) = course.lessons.first() else { return ExitCode::from(1) };
    let all = questions(lesson);
    if all.is_empty() {
        return crate::failed(&format!("{}: the lesson has no questions", folder.display()));
    }
    let page = match sheet(lesson, &all, wanted.seed, wanted.count) {
        Ok(page) => page,
        Err((id, seed)) => {
            return crate::failed(&format!(
                "with seed {seed} no question can be drawn from `{id}`: take another"
            ));
        }
    };
    match &wanted.output {
        Some(path) => match std::fs::write(path, page) {
            Ok(()) => ExitCode::SUCCESS,
            Err(why) => crate::failed(&format!("{}: {why}", path.display())),
        },
        None => out::print(&page, ExitCode::SUCCESS),
    }
}

/// The questions of a lesson in its order.
fn questions(lesson: &Lesson) -> Vec<Asked<'_>> {
    let mut all = Vec::new();
    for block in &lesson.body {
        match block {
            Block::Estimate(block) => {
                let EstimateBlock { template, about, asks, .. } = &**block;
                let asks = asks.as_deref().map(escaped);
                all.push(Asked { template: Template::Estimate(template.clone()), about, asks });
            }
            Block::Question(block) => {
                let QuestionBlock { template, about, .. } = &**block;
                let asks = Some(crate::question::asks(block, of_questions()));
                all.push(Asked { template: template.clone(), about, asks });
            }
            Block::Html(_) | Block::Figure { .. } | Block::Build(_) => {}
        }
    }
    all
}

/// The sheet: the questions in turn, with the next seed each time round.
fn sheet(lesson: &Lesson, all: &[Asked<'_>], seed: u32, count: u32) -> Result<String, (String, u64)> {
    let say = |key: &str| escaped(of_questions().say(key));
    let fill = |key: &str, values: &[(&str, &str)]| escaped(&of_questions().fill(key, values));
    let (mut questions, mut keys) = (String::new(), String::new());
    let mut seeds = (u64::from(seed)..).flat_map(|seed| all.iter().map(move |asked| (asked, seed)));
    for (number, (asked, seed)) in (1..=count).zip(&mut seeds) {
        let drawn = asked.template.draw(seed).map_err(|_| (asked.template.id().to_owned(), seed))?;
        let heading = fill("sheet.question", &[("number", &number.to_string())]);
        let about = fill(
            "sheet.about",
            &[("objective", &asked.about.objective.to_string()), ("level", &asked.about.level.to_string())],
        );
        let put = put::question(asked, &drawn, number);
        questions += &format!("<section>\n<h2>{heading}</h2>\n{put}</section>\n");
        let answered = key::answer(asked, &drawn);
        keys +=
            &format!("<section>\n<h2>{heading}</h2>\n<p class=\"about\">{about}</p>\n{answered}</section>\n");
    }
    let title = &lesson.title;
    let caution = format!("<p class=\"caution\">{}</p>\n", escaped(words().say("caution")));
    let numbers =
        fill("sheet.numbers", &[("seed", &seed.to_string()), ("from", "1"), ("to", &count.to_string())]);
    let head = |heading: &str| format!("<h1>{}</h1>\n<p class=\"numbers\">{numbers}</p>\n", escaped(heading));
    let asked = of_questions().fill("sheet.title", &[("title", title)]);
    let key = of_questions().fill("sheet.key", &[("title", title)]);
    let policy = format!("default-src 'none'; style-src {}", policy::named(&format!("\n{STYLE}")));
    Ok(format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n{}\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{}</title>\n\
         <style>\n{STYLE}</style>\n</head>\n<body>\n<main class=\"questions\">\n{}\
         <p class=\"who\"><span>{}</span><span>{}</span></p>\n{questions}{caution}</main>\n\
         <main class=\"key\">\n{}{keys}{caution}</main>\n</body>\n</html>\n",
        policy::said(&policy),
        escaped(&asked),
        head(&asked),
        say("sheet.name"),
        say("sheet.date"),
        head(&key),
    ))
}

/// A list of items that are HTML.
pub fn list(tag: &str, class: &str, items: impl IntoIterator<Item = String>) -> String {
    let items: String = items.into_iter().map(|item| format!("<li>{item}</li>\n")).collect();
    format!("<{tag} class=\"{class}\">\n{items}</{tag}>\n")
}
