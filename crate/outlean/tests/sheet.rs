//! `outlean sheet` from end to end: the sheet of the lesson that every new lesson begins from.

#![expect(clippy::expect_used, reason = "a test that cannot run the program has failed")]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn lessons(name: &str) -> PathBuf {
    let lessons = Path::new(env!("CARGO_TARGET_TMPDIR")).join("sheet").join(name);
    let _ = fs::remove_dir_all(&lessons);
    fs::create_dir_all(&lessons).expect("the folder can be made");
    assert!(outlean(&lessons, &["new-lesson", "01-lock", "--lessons", "."]).status.success());
    lessons
}

fn outlean(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_outlean"))
        .args(arguments)
        .current_dir(folder)
        .output()
        .expect("the program runs")
}

fn sheet(lessons: &Path, seed: &str) -> String {
    let arguments = ["sheet", "--lessons", ".", "--lesson", "01-lock", "--seed", seed, "--count", "7"];
    let output = outlean(lessons, &arguments);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("a page is text")
}

#[test]
fn the_same_seed_prints_the_same_sheet_with_its_key_apart() {
    let lessons = lessons("same");
    let page = sheet(&lessons, "11");
    assert_eq!(page, sheet(&lessons, "11"), "the same bytes");
    let other = sheet(&lessons, "12");
    let question = |page: &str, number: usize| -> Option<String> {
        let section = page.split("</h2>\n").nth(number)?.split("</section>").next()?;
        Some(section.replace(&format!("q{number}-"), ""))
    };
    assert!(question(&page, 1).is_some_and(|question| question.contains("How much does the aft guy carry?")));
    assert_ne!(question(&page, 1), question(&other, 1), "another seed, another question");
    assert_ne!(question(&page, 1), question(&page, 6), "and another each time round");
    assert_eq!(question(&page, 6), question(&other, 1), "which is the next seed's");
    let (questions, key) = page.split_once("<main class=\"key\">").expect("the key stands apart");
    assert!(page.contains(".key { break-before: page;"), "on a page of its own");
    for part in [questions, key] {
        assert_eq!(part.matches("<h2>Question ").count(), 7);
        assert!(part.contains("Seed 11, questions 1 to 7."));
        assert!(part.contains("<p class=\"caution\">"), "both are cautioned");
    }
    // Nothing on the questions' side gives an answer away.
    for secret in ["<math", "<strong>", "holds</", "at fault", "Numbers that slips", "right within"] {
        assert!(!questions.contains(secret), "{secret}");
    }
    // Two estimates, each worked out as formulas and in plain text.
    let (formulas, twins) = (key.matches("<math").count(), key.matches("class=\"twin\"").count());
    assert!(formulas > 20 && formulas == twins, "{formulas} formulas, {twins} in plain text");
    for said in [
        "right within 8",
        "holds</strong>",
        "as it should be</strong>",
        "at fault</strong>",
        "A right order",
        "One setting that holds",
        " against ",
        ", one step farther.",
    ] {
        assert!(key.contains(said), "{said}");
    }
    // The last step of a worked solution is the answer.
    let answer = key.split("<strong>the aft guy: ").nth(1).and_then(|rest| rest.split(',').next());
    let answer = answer.expect("it has an answer");
    assert!(key.contains(&format!("= {answer}</span></li>\n</ol>")), "{answer} is worked out");
    for hole in ["{", "sheet.", "told.", "symbol.", "step.", "question."] {
        let words = page.split("<style>").next().into_iter().chain(page.split("</style>").nth(1));
        assert!(words.into_iter().all(|part| !part.contains(hole)), "{hole} is left");
    }
}

#[test]
fn a_sheet_stands_alone() {
    let page = sheet(&lessons("alone"), "3");
    let own = ["http://www.w3.org/1998/Math/MathML", "http://www.w3.org/2000/svg", "url(#q"];
    let page = own.into_iter().fold(page, |page, own| page.replace(own, ""));
    for outside in ["http://", "https://", "<script", "<link", "url("] {
        assert!(!page.contains(outside), "{outside}");
    }
    // Every pattern is named once.
    let mut names: Vec<&str> =
        page.split("<pattern id=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
    let all = names.len();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), all);
}

#[test]
fn what_cannot_be_printed_is_told() {
    let lessons = lessons("told");
    let code = |arguments: &[&str]| outlean(&lessons, arguments).status.code();
    assert_eq!(
        code(&["sheet", "--lessons", ".", "--lesson", "02-none", "--seed", "1", "--count", "2"]),
        Some(2)
    );
    assert_eq!(code(&["sheet", "--lesson", "01-lock", "--seed", "1", "--count", "0"]), Some(2));
    assert_eq!(
        code(&["sheet", "--lesson", "01-lock", "--seed", "1", "--count", "2", "-o", "out.html"]),
        Some(0)
    );
    assert!(fs::read_to_string(lessons.join("out.html")).is_ok_and(|page| page.ends_with("</html>\n")));
    fs::write(lessons.join("01-lock/lesson.md"), "no lesson").expect("writable");
    assert_eq!(code(&["sheet", "--lesson", "01-lock", "--seed", "1", "--count", "2"]), Some(1));
}

#[test]
fn what_an_estimate_asks_has_its_gaps_filled() {
    let lessons = lessons("gaps");
    let path = lessons.join("01-lock/lesson.md");
    let text = fs::read_to_string(&path).expect("readable");
    let asks = "within = \"8 %\"\nasks = \"The fore holdfast is {fore.ahead} ahead & low. What does the aft guy carry?\"";
    fs::write(&path, text.replacen("within = \"8 %\"", asks, 1)).expect("writable");
    let page = sheet(&lessons, "11");
    let said = page
        .split("The fore holdfast is ")
        .nth(1)
        .expect("it asks so")
        .split('.')
        .collect::<Vec<_>>()
        .join(".");
    assert!(said.starts_with(|digit: char| digit.is_ascii_digit()), "{}", said.get(..40).unwrap_or_default());
    assert!(said.contains("m ahead &amp; low. What does") && !page.contains("{fore"));
}
