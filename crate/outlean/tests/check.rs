//! The wrong lesson is the test: each file in `tests/lessons-wrong` must be told exactly what stands beside it in `.txt`.
//! `OUTLEAN_BLESS=1` writes them anew, to be read by eye. And what is shown to teachers as right is right.

#![expect(clippy::expect_used, reason = "a test that cannot read its files has failed")]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const RIG: &str = include_str!("../new-lesson/rig.toml");

/// An empty folder of this name.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("check").join(name);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("the folder can be made");
    folder
}

/// A lesson in a folder of lessons, on the rig of every new lesson.
fn lesson(lessons: &Path, name: &str, text: &str) {
    let folder = lessons.join(name);
    fs::create_dir_all(&folder).expect("the folder can be made");
    fs::write(folder.join("lesson.md"), text).expect("writable");
    fs::write(folder.join("rig.toml"), RIG).expect("writable");
}

fn outlean(lessons: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_outlean"))
        .args(arguments)
        .current_dir(lessons)
        .output()
        .expect("the program runs")
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("what is printed is text")
}

#[test]
fn every_wrong_lesson_is_told_what_is_wrong_with_it() {
    let wrong = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/lessons-wrong");
    let mut files: Vec<PathBuf> = fs::read_dir(&wrong)
        .expect("the folder is there")
        .map(|entry| entry.expect("readable").path())
        .collect();
    files.retain(|path| path.extension().is_some_and(|ending| ending == "md"));
    files.sort();
    assert!(files.len() >= 25, "{} wrong lessons", files.len());
    let lessons = folder("wrong");
    let mut differing = Vec::new();
    for path in &files {
        let name = path.file_stem().expect("it has a name").to_string_lossy().into_owned();
        lesson(&lessons, &name, &fs::read_to_string(path).expect("readable"));
        let output = outlean(&lessons, &["check", &name]);
        let found = format!("{}{}", text(&output.stderr), text(&output.stdout));
        assert_eq!(output.status.code(), Some(1), "{name}\n{found}");
        assert!(found.contains(&format!("--> {name}/lesson.md:")), "{name} has no place\n{found}");
        assert!(found.contains("= help: "), "{name} has no hint\n{found}");
        let beside = path.with_extension("txt");
        if std::env::var_os("OUTLEAN_BLESS").is_some() {
            fs::write(&beside, &found).expect("writable");
        }
        let wanted = fs::read_to_string(&beside).unwrap_or_default();
        if found != wanted {
            differing.push(format!("{name}\n--- wanted\n{wanted}--- found\n{found}"));
        }
    }
    assert!(differing.is_empty(), "{}", differing.join("\n"));
}

/// The examples in the format's description.
fn shown() -> Vec<&'static str> {
    let described = include_str!("../../../lessons/README.md");
    let blocks = described.split("\n````markdown\n").skip(1);
    blocks.map(|rest| rest.split("\n````").next().unwrap_or(rest)).collect()
}

/// Every block that the format's description shows, put into a lesson.
#[test]
fn every_example_shown_to_teachers_is_right() {
    let shown = shown();
    let front = shown.iter().find(|block| block.starts_with("+++")).expect("it shows the front matter");
    let figure = shown.iter().find(|block| block.contains("```figure")).expect("it shows a figure");
    let mut all = format!("{front}\n\n{figure}\n");
    for kind in ["build", "estimate", "choose", "order", "faults", "set"] {
        let block = shown.iter().find(|block| block.starts_with(&format!("```{kind}\n")));
        all += &format!("\n{}\n", block.unwrap_or_else(|| panic!("it shows no {kind}")));
    }
    let lessons = folder("described");
    lesson(&lessons, "01-described", &all);
    let output = outlean(&lessons, &["check", "."]);
    assert_eq!(text(&output.stderr), "");
    assert_eq!(text(&output.stdout), "1 lesson read, 0 errors, 0 warnings\n");
}

/// The description's example of a translation, beside the block that it translates.
#[test]
fn a_translation_differs_in_words_alone() {
    let shown = shown();
    let front = shown.iter().find(|block| block.starts_with("+++")).expect("it shows the front matter");
    let [original, german] =
        shown.iter().filter(|block| block.starts_with("```choose\n")).collect::<Vec<_>>()[..]
    else {
        panic!("a block and its translation")
    };
    let lessons = folder("translated");
    lesson(&lessons, "01-two", &format!("{front}\n\n{original}\n"));
    let lang = lessons.join("01-two/lang");
    fs::create_dir_all(&lang).expect("the folder can be made");
    let told = |german: &str| {
        fs::write(lang.join("de.md"), format!("{front}\n\n{german}\n")).expect("writable");
        let output = outlean(&lessons, &["check", "."]);
        text(&output.stdout) + &text(&output.stderr)
    };
    assert_eq!(told(german), "1 lesson read, 0 errors, 0 warnings\n");
    for (from, to, wanted) in [
        ("to = \"260 kg\"", "to = \"270 kg\"", "`vary` of `which-leg` is not as in lesson.md"),
        ("the fore guy works", "the aft guy works", "`statements` of `which-leg` is not as in lesson.md"),
        ("level = 1", "level = 2", "`level` of `which-leg` is not as in lesson.md"),
        ("fact = false", "fact = true", "`statements` of `which-leg` is not as in lesson.md"),
        ("\"which-leg\"", "\"welches-bein\"", "`which-leg` of lesson.md is missing"),
        ("{load.mass}", "{load.mas}", "load.mas"),
    ] {
        let told = told(&german.replace(from, to));
        assert!(told.contains(wanted) && told.contains("lang/de.md"), "{wanted}: {told}");
    }
    fs::rename(lang.join("de.md"), lang.join("deutsch.md")).expect("renamed");
    assert!(told(german).contains("`deutsch.md` names no language"));
}

/// Every claim, field form and reading that the description lists in a table.
#[test]
fn every_claim_shown_to_teachers_is_one() {
    let described = include_str!("../../../lessons/README.md");
    let table = described.split("| a claim | says |").nth(1).expect("it has a table of claims");
    let claims: Vec<&str> = table
        .lines()
        .skip(2)
        .map_while(|line| line.strip_prefix("| `"))
        .filter_map(|line| line.split('`').next())
        .collect();
    assert!(claims.len() >= 10, "{claims:?}");
    for claim in claims {
        assert!(outlean_course::Claim::read(claim).is_ok(), "{claim}");
    }
    let flowing = described.split_whitespace().collect::<Vec<_>>().join(" ");
    let slips = outlean_course::SlipKind::ALL.map(|slip| slip.name().replace('_', " "));
    let enders = outlean_course::Ender::ALL.map(|(name, _)| name);
    let readings = outlean_course::Operand::words();
    for name in readings.chain(enders).map(str::to_owned).chain(slips) {
        assert!(flowing.contains(&name), "{name} is not told of");
    }
}

/// Every step that can be drawn, in the order in which the description's table lists them.
#[test]
fn every_step_of_a_build_is_shown_to_teachers() {
    let described = include_str!("../../../lessons/README.md");
    let table = described.split("| `draws` | the plate shows |").nth(1).expect("it has a table of steps");
    let rows = table.lines().skip(2).map_while(|line| line.strip_prefix("| `"));
    let told: Vec<&str> = rows.filter_map(|line| line.split('`').next()).collect();
    let drawn: Vec<&str> = outlean_picture::BuildStep::all().map(|(name, _)| name).collect();
    assert_eq!(told, drawn);
}

#[test]
fn a_new_lesson_is_right_and_is_not_written_over() {
    let lessons = folder("new");
    for name in ["01-first", "02-second"] {
        let output = outlean(&lessons, &["new-lesson", name, "--lessons", "."]);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    }
    let output = outlean(&lessons, &["check", "."]);
    assert_eq!(text(&output.stderr), "");
    assert_eq!(text(&output.stdout), "2 lessons read, 0 errors, 0 warnings\n");
    fs::write(lessons.join("01-first/lesson.md"), "mine").expect("writable");
    assert_eq!(outlean(&lessons, &["new-lesson", "01-first", "--lessons", "."]).status.code(), Some(2));
    assert_eq!(fs::read_to_string(lessons.join("01-first/lesson.md")).expect("readable"), "mine");
    for name in ["../out", "Über", "", "plan", "es"] {
        assert_eq!(
            outlean(&lessons, &["new-lesson", name, "--lessons", "."]).status.code(),
            Some(2),
            "{name}"
        );
    }
}

/// One that is a page of the course would be lost; one that is no address would break pages and packages.
#[test]
fn a_folder_whose_name_no_lesson_can_have_is_an_error() {
    let lessons = folder("names");
    let own = include_str!("../new-lesson/lesson.md");
    for (name, why) in [
        ("plan", "the course has pages of its own there"),
        ("05 lean&x", "small letters, digits and hyphens, at most 80"),
    ] {
        lesson(&lessons, name, own);
        let inside = lessons.join(name);
        for (at, given) in [(&lessons, name), (&inside, ".")] {
            let output = outlean(at, &["check", given]);
            let said = text(&output.stderr);
            assert_eq!(output.status.code(), Some(1), "{name}: {said}");
            let named = format!("`{name}` is no name for the folder of a lesson");
            assert!(said.contains(&named) && said.contains(why) && said.contains("lesson.md"), "{said}");
        }
        fs::remove_dir_all(inside).expect("it can go");
    }
}

/// Of every site whose frame stands; the file beside it is the plan's, byte for byte.
#[test]
fn a_plan_becomes_a_lesson() {
    let lessons = folder("planned");
    let sites = concat!(env!("CARGO_MANIFEST_DIR"), "/sites");
    let names = ["slate-bench", "mill-race", "sea-stairs", "lock-wall"];
    for name in names {
        let site = format!("{sites}/{name}.toml");
        let output = outlean(&lessons, &["new-lesson", name, "--lessons", ".", "--plan", &site]);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        let beside = fs::read(lessons.join(name).join("rig.toml")).expect("readable");
        assert_eq!(beside, fs::read(&site).expect("readable"), "{name}");
    }
    let output = outlean(&lessons, &["check", "."]);
    assert_eq!(text(&output.stderr), "");
    assert_eq!(text(&output.stdout), "4 lessons read, 0 errors, 0 warnings\n");
    let none = outlean(&lessons, &["new-lesson", "none", "--lessons", ".", "--plan", "none.toml"]);
    assert!(none.status.code() != Some(0) && !lessons.join("none").exists());
}

#[test]
fn two_questions_of_a_course_have_two_names() {
    let lessons = folder("twice");
    let block = "+++\ntitle = \"T\"\nminutes = 5\nobjectives = [\"O\"]\n+++\n\n```order\nid = \"same\"\nobjective = 1\nlevel = 1\nhint = \"h\"\nexplanation = \"e\"\nsource = \"common practice\"\n[[step]]\nid = \"a\"\nsays = \"A\"\n[[step]]\nid = \"b\"\nsays = \"B\"\nafter = [\"a\"]\n[[step]]\nid = \"c\"\nsays = \"C\"\n```\n";
    lesson(&lessons, "01-one", block);
    assert_eq!(outlean(&lessons, &["check", "."]).status.code(), Some(0));
    lesson(&lessons, "02-two", block);
    let output = outlean(&lessons, &["check", "."]);
    assert_eq!(output.status.code(), Some(1));
    let said = text(&output.stderr);
    assert!(said.contains("the question `same` has the name of another, in ./01-one/lesson.md"), "{said}");
    assert!(said.contains("02-two/lesson.md:8:6"), "{said}");
    assert_eq!(text(&output.stdout), "2 lessons read, 1 error, 0 warnings\n");
    assert_eq!(outlean(&lessons, &["check", "nowhere"]).status.code(), Some(2));
    let empty = folder("empty");
    assert_eq!(outlean(&empty, &["check", "."]).status.code(), Some(2));
}

/// Every file that someone else may have written, one byte longer than it may be, through the commands that read it.
#[test]
fn no_file_of_a_course_is_read_past_its_bound() {
    const MOST: usize = 200_000;
    let lessons = folder("bounds");
    let plain = "+++\ntitle = \"T\"\nminutes = 5\nobjectives = [\"O\"]\n+++\n\nText.\n";
    let glossary = "[[term]]\nterm = \"guy\"\nsays = \"A rope.\"\n";
    let sources = "[[source]]\ntitle = \"A work.\"\nnamed = [\"S\"]\nkind = \"published\"\n";
    lesson(&lessons, "01-one", plain);
    fs::create_dir_all(lessons.join("01-one/lang")).expect("the folder can be made");
    for (file, right, rest) in [
        ("01-one/lesson.md", plain, "\n"),
        ("01-one/lang/xx.md", plain, "\n"),
        ("glossary.toml", glossary, "#"),
        ("sources.toml", sources, "#"),
        ("01-one/rig.toml", RIG, "#"),
    ] {
        let command: &[&str] = if file.ends_with("rig.toml") { &["solve", file] } else { &["check", "."] };
        for (bytes, taken) in [(MOST, true), (MOST + 1, false)] {
            let long = format!("{right}{}", rest.repeat(bytes - right.len()));
            fs::write(lessons.join(file), long).expect("writable");
            let output = outlean(&lessons, command);
            let told = text(&output.stderr);
            assert_eq!(output.status.success(), taken, "{file}, {bytes} bytes: {told}");
            // No more of it was read than may be.
            assert!(taken || told.contains(file) && told.contains("it has more than 200000 bytes"), "{told}");
        }
        fs::write(lessons.join(file), right).expect("writable");
    }
    // A record has a bound of its own: past it none of the file is read, which is an input that cannot be read and no record with a fault.
    let record = r#"{"format":"outlean-record","version":2,"learner":"Ines","attempts":[],"aside":[]}"#;
    for (bytes, code) in [(16_000_000, Some(0)), (16_000_001, Some(2))] {
        let long = format!("{record}{}", " ".repeat(bytes - record.len()));
        fs::write(lessons.join("record.json"), long).expect("writable");
        let output = outlean(&lessons, &["class", "record.json"]);
        assert_eq!(output.status.code(), code, "{bytes} bytes: {}", text(&output.stderr));
    }
}
