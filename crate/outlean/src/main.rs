#![doc = include_str!("../README.md")]
// What prints by itself panics where a pipe is closed; see `out`.
#![deny(clippy::print_stdout, clippy::print_stderr)]

mod bounded;
mod build;
mod check;
mod cited;
mod class;
mod course;
mod course_page;
mod crew;
mod diagnostics;
mod disk;
#[cfg(test)]
mod dry_run;
mod embed;
mod fault;
mod figure;
mod files;
mod folder;
mod glossary;
mod lesson;
mod markup;
mod materials;
mod name;
mod new_lesson;
mod numbers;
mod offline;
mod out;
mod pack;
mod packed;
mod page;
mod picture;
mod plan;
mod plan_page;
mod plates;
mod policy;
mod program;
mod propose;
mod question;
mod range;
mod reach;
mod reading;
mod scatter;
mod serve;
mod sheet;
mod solve;
mod sources;
mod stale;
mod statement;
mod still;
mod sweep;
mod text_page;
mod translation;
mod version;
mod watch;
mod words;
mod written;

use clap::{Parser, Subcommand};
use std::path::PathBuf;
use std::process::ExitCode;

/// A leaning two-legged timber frame, worked out from files.
#[derive(Parser)]
#[command(name = "outlean", version)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Build the course: lessons into pages, in a folder that any static server can serve.
    Build {
        /// Folder of the lessons, one folder each.
        #[arg(long)]
        lessons: PathBuf,
        /// Folder of elements, styles, strings, shells and fonts.
        #[arg(long)]
        assets: PathBuf,
        /// Folder of the compiled program.
        #[arg(long)]
        program: PathBuf,
        /// Folder to fill.
        #[arg(long)]
        out: PathBuf,
    },
    /// Say all that is wrong in lessons, without building anything.
    Check {
        /// Folders of lessons, or of one lesson.
        #[arg(default_value = "lessons")]
        folders: Vec<PathBuf>,
        /// Print for each question one number for all that so many seeds draw and how it is marked, to compare machines by.
        #[arg(long, value_name = "SEEDS")]
        digests: Option<u32>,
    },
    /// Begin a lesson: a folder with a text, a rig and a question of each kind, to be written over.
    NewLesson {
        /// Its name: a number for its place, then words, such as 04-feet.
        name: String,
        /// The folder to put it in.
        #[arg(long, default_value = "lessons")]
        lessons: PathBuf,
        /// A plan that the lesson is about: its rig file goes beside the text as it is.
        #[arg(long, value_name = "RIG.toml")]
        plan: Option<PathBuf>,
    },
    /// Print questions of a lesson, drawn by seed, with the key on a page of its own.
    Sheet(sheet::Wanted),
    /// Serve a built folder on this machine.
    Serve {
        /// The folder.
        #[arg(long)]
        dir: PathBuf,
        /// The port, or the next free one; 0 for any.
        #[arg(long, default_value_t = 8000)]
        port: u16,
        /// Do not open a browser.
        #[arg(long)]
        no_open: bool,
        /// Build the course into the folder first, and again whenever a lesson changes; open pages load themselves anew.
        #[arg(long, requires_all = ["lessons", "assets", "program"])]
        watch: bool,
        /// Folder of the lessons, to watch.
        #[arg(long, requires = "watch")]
        lessons: Option<PathBuf>,
        /// Folder of elements, styles, strings, shells and fonts.
        #[arg(long, requires = "watch")]
        assets: Option<PathBuf>,
        /// Folder of the compiled program.
        #[arg(long, requires = "watch")]
        program: Option<PathBuf>,
    },
    /// Solve rig files: what every part carries, and at which leans all of it holds.
    Solve(files::RigFiles),
    /// The working range of rig files, and the leans that each limit by itself allows.
    Range(files::RigFiles),
    /// Solve rig files again and again along one thing that is changed.
    Sweep(sweep::Along),
    /// What rig files come to when tape, angles, load and ground are not quite as entered.
    Scatter(scatter::Off),
    /// What must be carried to the site to build a rig.
    Materials(files::RigFiles),
    /// The smallest changes that bring rig files inside their limits.
    Propose(files::RigFiles),
    /// A plan that a crew can build from: verdict, pacing-out, cut list, build and inspection lists, briefing, as-built
    /// sheet.
    Plan(plan::Wanted),
    /// What hands must pull to haul the load, to raise the frame, and to luff it to another lean.
    Crew(crew::Team),
    /// The lean that a wanted clear reach asks for, and what that costs.
    Reach(reach::Wanted),
    /// Draw a rig as an SVG file: a view of it, its force polygon, its curves.
    Picture(picture::Wanted),
    /// Print a rig as an element to be pasted into anyone's page, and draw its still picture.
    Embed(embed::Wanted),
    /// Pack a built course: a zip that a learning system takes as it is, a lesson as one file, or a folder for npm.
    Pack(pack::Wanted),
    /// Set many learners' records side by side, by objective.
    Class(class::Records),
}

fn main() -> ExitCode {
    match Cli::parse().command {
        Command::Build { lessons, assets, program, out } => {
            told(build::build(&build::Places { lessons, assets, program, out }))
        }
        Command::Serve { dir, port, no_open, lessons, assets, program, .. } => {
            let places = lessons.zip(assets).zip(program).map(|((lessons, assets), program)| build::Places {
                lessons,
                assets,
                program,
                out: dir.clone(),
            });
            let builds = places.map(watch::watch);
            let ready = |address: &str| {
                // Whoever cannot read where still finds it in the browser.
                let _ = out::print(&format!("{address}\n"), ExitCode::SUCCESS);
                if !no_open {
                    open(address);
                }
            };
            match serve::serve(&dir, port, builds, ready) {
                Ok(()) => ExitCode::SUCCESS,
                Err(why) => failed(&why),
            }
        }
        Command::Check { folders, digests } => check::run(&folders, digests),
        Command::NewLesson { name, lessons, plan } => new_lesson::run(&lessons, &name, plan.as_deref()),
        Command::Sheet(wanted) => sheet::run(&wanted),
        Command::Solve(args) => solve::run(&args),
        Command::Range(args) => range::run(&args),
        Command::Sweep(args) => sweep::run(&args),
        Command::Scatter(args) => scatter::run(&args),
        Command::Materials(args) => materials::run(&args),
        Command::Propose(args) => propose::run(&args),
        Command::Plan(args) => plan::run(&args),
        Command::Crew(args) => crew::run(&args),
        Command::Reach(args) => reach::run(&args),
        Command::Picture(args) => picture::run(&args),
        Command::Embed(wanted) => embed::run(&wanted),
        Command::Pack(wanted) => pack::run(&wanted),
        Command::Class(args) => class::run(&args),
    }
}

/// Says how a build went. 1 where lessons have problems, 2 where files cannot be read or written.
fn told(built: Result<Vec<String>, disk::Failure>) -> ExitCode {
    match built {
        Ok(lessons) => out::print(&format!("built {}\n", lessons.join(", ")), ExitCode::SUCCESS),
        Err(disk::Failure::Content(problems)) => {
            out::tell(&problems);
            ExitCode::from(1)
        }
        Err(disk::Failure::File(path, why)) => failed(&format!("{}: {why}", path.display())),
    }
}

/// Says why nothing could be done.
fn failed(why: &str) -> ExitCode {
    out::tell(&format!("error: {why}\n"));
    ExitCode::from(2)
}

/// Opens the page in the reader's browser, where there is one: a courtesy, never an error.
fn open(address: &str) {
    let opener = if cfg!(target_os = "macos") {
        "open"
    } else if cfg!(windows) {
        "explorer"
    } else {
        "xdg-open"
    };
    let quiet = std::process::Stdio::null;
    let _ = std::process::Command::new(opener).arg(address).stdout(quiet()).stderr(quiet()).spawn();
}
