//! Options of the commands: one that is wrong is told as such, each is heeded beside the others, and what nothing can be said of is not
//! made up.

#![expect(clippy::expect_used, reason = "a test that cannot run the program has failed")]

mod program;

use program::{outlean, text};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A rig so small that of draws two metres off the first two cannot be solved.
const SMALL: &str = r#"
lean = "10 deg"
legs = { length = "0.6 m", lashing_below_tip = "0.2 m", weight = "0 kg/m" }
feet = { spread = "0.3 m", pinned = true, held_down = true }
load.mass = "100 kg"
line.path = "hung"
guy = [{ setback = "2 m" }]
plan.scatter.length = "2 m"
"#;

/// Where a file of this name may be written.
fn place(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("options");
    fs::create_dir_all(&folder).expect("the folder can be made");
    folder.join(name)
}

/// The small rig as a file of its own.
fn small(name: &str) -> String {
    let path = place(name);
    fs::write(&path, SMALL).expect("writable");
    path.display().to_string()
}

#[test]
fn a_wrong_option_is_a_command_that_was_not_understood() {
    for (arguments, wanted) in [
        (&["crew", "quarry.toml", "--each", "200 N", "--luff-to", "200 deg"][..], "allowed is −89° to 89°"),
        (&["scatter", "quarry.toml", "--load", "500 %"], "allowed is 0 % to 90 %"),
        (&["scatter", "quarry.toml", "--soil", "91 %"], "allowed is 0 % to 90 %"),
        (&["scatter", "quarry.toml", "--length=-5cm"], "allowed is 0.00 m to 2.00 m"),
        (&["scatter", "quarry.toml", "--length", "9 ft"], "allowed is 0 in to 6 ft 7 in"),
        (&["scatter", "quarry.toml", "--angle", "16 deg"], "allowed is 0° to 15°"),
        (&["scatter", "quarry.toml", "--draws", "0"], "--draws"),
    ] {
        let output = outlean(arguments);
        let said = text(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {said}");
        assert!(said.contains(wanted) && !said.contains("SI)"), "{arguments:?}: {said}");
    }
}

#[test]
fn what_cannot_be_solved_on_the_way_is_told_in_the_units_asked_for() {
    for (units, wanted) in [("us", "feet 29.53 ft apart do not fit"), ("metric", "feet 9 m apart do not fit")]
    {
        let sweep = ["sweep", "quarry.toml", "--over", "spread", "--from", "1 m", "--to", "9 m"];
        let output = outlean(&[&sweep[..], &["--units", units]].concat());
        let said = text(&output.stdout);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        assert!(said.contains(wanted) && !said.contains("SI)"), "{said}");
    }
}

#[test]
fn where_no_draw_can_be_solved_no_share_is_told() {
    let rig = small("scattered.toml");
    let said = |draws: &str| {
        let output = outlean(&["scatter", &rig, "--length", "2 m", "--draws", draws]);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        text(&output.stdout)
    };
    let none = said("2");
    assert!(none.contains("Of 2 draws none could be solved"), "{none}");
    assert!(!none.contains("past a limit") && !none.contains('%'), "{none}");
    assert!(said("20").contains("past a limit: 50 % of the draws"));
}

#[test]
fn a_picture_comes_beside_the_plan_and_not_in_its_stead() {
    let ground = place("ground.svg");
    let _ = fs::remove_file(&ground);
    let site = "../../sites/slate-bench.toml";
    let shown = ground.display().to_string();
    let plan =
        |more: &[&str]| outlean(&[&["plan", site, "--draws", "20", "--figure", &shown], more].concat());
    // A file that is not there is told of before anything is written.
    let missing = plan(&["--compare", "nowhere.toml"]);
    assert_eq!(missing.status.code(), Some(2));
    assert!(text(&missing.stderr).contains("nowhere.toml") && !ground.exists());
    let beside = plan(&[]);
    assert_eq!(beside.status.code(), Some(0), "{}", text(&beside.stderr));
    let alone = outlean(&["plan", site, "--draws", "20"]);
    assert_eq!(text(&beside.stdout), text(&alone.stdout));
    assert!(fs::read_to_string(&ground).expect("it was written").contains("<svg"));
    let json = plan(&["--json", "--as-built", "../../sites/slate-bench-as-built.toml"]);
    let json: serde_json::Value = serde_json::from_slice(&json.stdout).expect("it is JSON");
    assert!(json.get("measured").is_some());
}

#[test]
fn a_folder_without_rig_files_is_told_of() {
    let empty = place("empty");
    fs::create_dir_all(&empty).expect("the folder can be made");
    let shown = empty.display().to_string();
    let output = outlean(&["solve", &shown]);
    assert_eq!(output.status.code(), Some(2));
    let said = text(&output.stderr);
    assert!(said.contains(&shown) && said.contains("no rig file in it"), "{said}");
    let beside = outlean(&["solve", &shown, "quarry.toml"]);
    assert!(beside.status.code() == Some(2) && text(&beside.stdout).contains("Working range"));
}

/// Neither a stop that is not there nor a room that is not there has a number.
#[test]
fn what_is_not_there_is_said_in_words() {
    let rig = place("no-stop.toml");
    let no_stop = SMALL.to_owned() + "limits.upright_stop = \"none\"\n";
    fs::write(&rig, &no_stop).expect("writable");
    let solved = || text(&outlean(&["solve", &rig.display().to_string()]).stdout);
    let said = solved();
    assert!(said.contains("an upright stop at 10° or more: none, not met"), "{said}");
    // The edge lies beyond the head.
    let edge = "edge = { ahead = \"3 m\", clear_reach = \"50 cm\" }\n";
    fs::write(&rig, no_stop + edge).expect("writable");
    let said = solved();
    assert!(said.contains("governs here: the clear reach") && !said.contains("% of what"), "{said}");
}

/// As `… | head -0` does: nobody reads what is printed.
#[test]
fn a_closed_pipe_ends_no_command_with_an_error() {
    let lessons = place("closed");
    let _ = fs::remove_dir_all(&lessons);
    let folder = lessons.display().to_string();
    assert_eq!(outlean(&["new-lesson", "01-one", "--lessons", &folder]).status.code(), Some(0));
    let one = lessons.join("01-one").display().to_string();
    let still = place("still.svg").display().to_string();
    for (arguments, wanted) in [
        (&["sheet", "--lesson", &one, "--seed", "1", "--count", "3"][..], 0),
        (&["check", &folder, "--digests", "3"], 0),
        (&["class", "ines.json"], 0),
        (&["class", "mo-damaged.json"], 1),
        (&["embed", "quarry.toml", "--out", &still], 0),
        (&["picture", "quarry.toml", "--view", "side"], 0),
        (&["solve", "quarry.toml", "past.toml"], 0),
        (&["solve", "wrong.toml"], 1),
        (&["new-lesson", "02-two", "--lessons", &folder], 0),
        (&["pack", "file", "--site", "nowhere", "--lesson", "a", "-o", "b"], 2),
    ] {
        let (read, write) = std::io::pipe().expect("there are pipes");
        let (read_errors, write_errors) = std::io::pipe().expect("there are pipes");
        drop((read, read_errors));
        let status = Command::new(env!("CARGO_BIN_EXE_outlean"))
            .args(arguments)
            .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data"))
            .stdout(write)
            .stderr(write_errors)
            .status()
            .expect("the program runs");
        assert_eq!(status.code(), Some(wanted), "{arguments:?}");
    }
}

#[test]
fn a_picture_of_nothing_is_not_written() {
    let (rig, spread) = (small("planned.toml"), place("spread.svg"));
    let _ = fs::remove_file(&spread);
    let shown = spread.display().to_string();
    let output = outlean(&["plan", &rig, "--draws", "1", "--spread", &shown]);
    assert_eq!(output.status.code(), Some(1));
    let said = text(&output.stderr);
    assert!(said.contains("of 1 draws none could be solved") && !spread.exists(), "{said}");
}
