//! `outlean picture` from end to end: the program itself, on files of its own.

#![expect(clippy::expect_used, reason = "a test that cannot run the program has failed")]

mod program;

use program::{outlean, text};
use std::path::PathBuf;

/// The picture that goes to standard output.
fn picture(arguments: &[&str]) -> String {
    let output = outlean(&[&["picture"], arguments].concat());
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert_eq!(text(&output.stderr), "", "a right file is not complained of");
    text(&output.stdout)
}

/// Exit code and what is told of a command that is refused.
fn refused(arguments: &[&str]) -> (Option<i32>, String) {
    let output = outlean(&[&["picture"], arguments].concat());
    assert_eq!(text(&output.stdout), "", "nothing is drawn");
    (output.status.code(), text(&output.stderr))
}

fn has(text: &str, parts: &[&str]) {
    for part in parts {
        assert!(text.contains(part), "no {part:?} in\n{text}");
    }
}

/// What is between the tags: lettering, title and description, a space between pieces.
fn lettering(svg: &str) -> String {
    svg.split('<')
        .filter_map(|piece| piece.split_once('>'))
        .map(|(_, said)| said)
        .collect::<Vec<_>>()
        .join(" ")
}

/// Every element closed in its turn.
fn well_formed(svg: &str) {
    let mut open: Vec<&str> = Vec::new();
    for piece in svg.split('<').skip(1) {
        let (tag, _) = piece.split_once('>').expect("a tag ends");
        assert_eq!(tag.matches('"').count() % 2, 0, "{tag}");
        assert!(!tag.contains("NaN") && !tag.contains("inf"), "{tag}");
        let name = tag.trim_start_matches('/').split([' ', '/']).next().expect("it has a name");
        if tag.starts_with('/') {
            assert_eq!(open.pop(), Some(name));
        } else if !tag.ends_with('/') {
            open.push(name);
        }
    }
    assert!(open.is_empty(), "{open:?}");
}

const VIEWS: [&str; 4] = ["side", "front", "polygon", "curves"];

#[test]
fn every_view_is_drawn_in_every_theme_with_title_description_fallbacks_and_caution() {
    for view in VIEWS {
        for (theme, paper) in [
            ("light", "#F5F7F2"),
            ("dark", "#11191E"),
            ("projector", "#FFFFFF"),
            ("sunlight", "#FFFFFF"),
            ("print", "#FFFFFF"),
        ] {
            let svg = picture(&["quarry.toml", "--view", view, "--theme", theme]);
            well_formed(&svg);
            let background = format!("Z\" fill=\"{paper}\"/>");
            has(
                &svg,
                &[
                    "role=\"img\"><title>",
                    "Two spruce poles over a quarry lip</title><desc>The frame leans 19° from the vertical.",
                    "Arial Narrow&quot;,sans-serif\"",
                    "Georgia,serif\"",
                    &background,
                ],
            );
            // Once in the description, once in the foot, where it is broken into lines.
            let said = lettering(&svg).split_whitespace().collect::<Vec<_>>().join(" ");
            assert_eq!(said.matches("test-loads it with nobody under it, and decides.").count(), 2, "{view}");
        }
    }
}

#[test]
fn each_view_shows_its_own_and_says_what_the_core_says() {
    let solved = outlean(&["solve", "plumb.toml", "--json"]);
    let json: serde_json::Value = serde_json::from_slice(&solved.stdout).expect("it is JSON");
    let number = |path: &str| json.pointer(path).and_then(serde_json::Value::as_f64).expect("a number");
    let force = |newtons: f64| {
        outlean_rigfile::show(newtons, outlean_rig::Dimension::Force, outlean_rigfile::Units::Metric)
            .to_string()
            .replace('\u{2009}', " ")
    };
    let guy = force(number("/solution/balance/stands/guys/0/tension"));
    let leg = force(number("/solution/balance/stands/compression/left"));
    for (view, parts) in [
        ("side", vec!["both legs", "aft guy", "setback 6.00 m", &guy]),
        ("front", vec!["left leg", "right leg", "looking out", "spread 6.00 m", &leg]),
        ("polygon", vec!["Forces on the head", "tail to head, closed", "both legs", &guy]),
        ("curves", vec!["Leg compression, kN", "Guy tension, kN"]),
    ] {
        let svg = picture(&["plumb.toml", "--view", view]);
        has(&lettering(&svg), &parts);
        has(
            &svg,
            &["30° from the vertical", &format!("Left leg {leg}, right leg {leg}"), &format!("{guy}.")],
        );
    }
    let grounded = picture(&["plumb.toml", "--view", "front", "--ground"]);
    has(&grounded, &["ground, left foot", "pushes outward"]);
}

#[test]
fn size_units_and_lean_are_as_asked_for() {
    let svg = picture(&[
        "plumb.toml",
        "--view",
        "side",
        "--width",
        "640",
        "--height",
        "500",
        "--units",
        "us",
        "--lean",
        "20 deg",
    ]);
    has(&svg, &["width=\"640\" height=\"500\"", "leans 20° from", "lbf"]);
    assert!(!svg.contains("kN<"), "{svg}");
    // A reach of 2 m on a slant height of 4 m, and 60 degrees from the ground, are both 30 degrees.
    let asked = |lean: &str| picture(&["plumb.toml", "--view", "front", "--lean", lean]);
    assert_eq!(asked("2 m"), picture(&["plumb.toml", "--view", "front"]));
    assert_eq!(asked("60 deg from ground"), asked("2 m"));
    for view in VIEWS {
        let svg = picture(&["plumb.toml", "--view", view, "--width", "300", "--height", "360"]);
        has(&svg, &["<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"300\" height=\"360\""]);
    }
}

#[test]
fn a_frame_that_tips_is_a_picture_too() {
    for (view, part) in
        [("side", "Tips forward"), ("polygon", "the frame tips forward"), ("front", "left leg")]
    {
        let svg = picture(&["no-aft-guy.toml", "--view", view]);
        has(&svg, &[part, "Here it tips forward."]);
    }
}

/// With bands there is more under the lines, and the lines are as they were.
#[test]
fn bands_lie_under_the_curves() {
    let plain = picture(&["plumb.toml", "--view", "curves"]);
    let banded = picture(&["plumb.toml", "--view", "curves", "--bands"]);
    well_formed(&banded);
    assert!(banded.len() > plain.len() + 1000, "{} and {}", plain.len(), banded.len());
    let lines = |svg: &str| svg.split_once("<g transform=").map(|(_, rest)| rest.to_owned());
    assert_eq!(lines(&plain), lines(&banded));
    assert_eq!(banded, picture(&["plumb.toml", "--view", "curves", "--bands"]), "the same draws each time");
}

#[test]
fn a_file_is_written_where_it_is_asked_for() {
    let place: PathBuf = std::env::temp_dir().join(format!("outlean-picture-{}.svg", std::process::id()));
    let path = place.to_str().expect("it is text");
    let output = outlean(&["picture", "plumb.toml", "--view", "polygon", "-o", path]);
    assert_eq!((output.status.code(), output.stdout.len()), (Some(0), 0), "{}", text(&output.stderr));
    let written = std::fs::read(&place).expect("it is there");
    std::fs::remove_file(&place).expect("it can go");
    assert_eq!(text(&written), picture(&["plumb.toml", "--view", "polygon"]));
}

#[test]
fn what_is_wrong_is_named_with_its_value_and_what_is_allowed() {
    for (arguments, code, parts) in [
        (vec!["plumb.toml", "--view", "top"], 2, vec!["top", "--view", "side, front, polygon, curves"]),
        (vec!["plumb.toml"], 2, vec!["--view"]),
        (vec!["plumb.toml", "--view", "side", "--width", "20"], 2, vec!["20", "--width", "200..=8000"]),
        (
            vec!["plumb.toml", "--view", "side", "--theme", "sepia"],
            2,
            vec!["sepia", "light, dark, projector, sunlight, print"],
        ),
        (vec!["plumb.toml", "--view", "side", "--lean", "20 kg"], 2, vec!["--lean: “20 kg”", "“20 deg”"]),
        (
            vec!["plumb.toml", "--view", "side", "--lean", "5 m"],
            2,
            vec!["--lean: “5 m”", "−89° to 89°", "at most 4.00 m"],
        ),
        (vec!["plumb.toml", "--view", "side", "--lean", "95 deg"], 2, vec!["“95 deg”", "−89° to 89°"]),
        (vec!["nowhere.toml", "--view", "side"], 2, vec!["nowhere.toml cannot be read"]),
        (vec!["wrong.toml", "--view", "side"], 1, vec!["wrong.toml", "heavy", "one error"]),
        (
            vec!["plumb.toml", "--view", "side", "-o", "no/such/folder.svg"],
            2,
            vec!["no/such/folder.svg cannot be written"],
        ),
    ] {
        let (found, said) = refused(&arguments);
        assert_eq!(found, Some(code), "{arguments:?}: {said}");
        has(&said, &parts);
    }
}
