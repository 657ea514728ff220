//! The tables of keys in the program's README, held against what it prints; those of a plan are held in `plan.rs`.

#![expect(clippy::expect_used, reason = "a test that cannot run the program has failed")]

mod program;

use program::{outlean, text};
use serde_json::Value;

const README: &str = include_str!("../README.md");
const SITE: &str = "../../sites/mill-race.toml";

fn json(arguments: &[&str]) -> Value {
    let output = outlean(&[arguments, &["--json"]].concat());
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    serde_json::from_str(&text(&output.stdout)).expect("it is JSON")
}

/// Whether a key is told of by itself or on the way to another.
fn told(key: &str) -> bool {
    [format!("`{key}`"), format!("`{key}."), format!(".{key}`")].iter().any(|form| README.contains(form))
}

#[test]
fn every_key_is_told_of() {
    let solved = [
        "",
        "/rig",
        "/rig/case",
        "/solution",
        "/solution/layout",
        "/solution/line",
        "/solution/second",
        "/solution/resultant",
        "/solution/balance/stands",
        "/solution/balance/stands/guys/0",
        "/solution/balance/stands/footing",
        "/solution/balance/stands/footing/feet/left",
        "/checks/0",
        "/checks/0/worked/0",
        "/governing",
        "/range",
        "/range/intervals/0",
        "/findings/0",
        "/holdfasts/0",
        "/clearance",
        "/stretch",
    ];
    let all: [(&[&str], &[&str]); 7] = [
        (&["solve", SITE], &solved),
        (&["range", SITE], &["", "/limits/0"]),
        (&["materials", SITE], &["", "/materials", "/materials/lashing", "/materials/guys/0/holdfast"]),
        (&["propose", "past.toml"], &["", "/proposals/0"]),
        (
            &["scatter", SITE, "--draws", "5"],
            &["", "/scatter", "/uncertainty", "/uncertainty/compression/left"],
        ),
        (&["sweep", SITE, "--over", "lean", "--from", "10 deg", "--to", "20 deg"], &["", "/points/0"]),
        (&["class", "ines.json"], &["", "/learners/0", "/learners/0/cells/0"]),
    ];
    for (arguments, places) in all {
        let answer = json(arguments);
        for place in places {
            let object = answer.pointer(place).and_then(Value::as_object);
            let object = object.unwrap_or_else(|| panic!("{arguments:?} has no object at {place}"));
            for key in object.keys() {
                assert!(told(key), "{arguments:?}: {key} at {place} is not told of");
            }
        }
    }
}

/// What the README says of the findings of a plan beside those of a solved rig.
#[test]
fn findings_of_a_plan_are_without_their_sources_in_words() {
    let keys = |answer: &Value, place: &str| -> Vec<String> {
        let object = answer.pointer(place).and_then(Value::as_object);
        object.unwrap_or_else(|| panic!("no object at {place}")).keys().cloned().collect()
    };
    let mut solved = keys(&json(&["solve", SITE]), "/findings/0");
    let plan = json(&["plan", SITE, "--draws", "5"]);
    solved.retain(|key| !["at_most", "cited"].contains(&key.as_str()));
    assert_eq!(keys(&plan, "/plan/findings/0"), solved);
    assert!(keys(&plan, "/plan/materials").iter().all(|key| told(key)));
}

/// What the README says of all commands on rig files, and of the one that is on records.
#[test]
fn only_a_class_is_of_another_version() {
    let commands: [&[&str]; 4] =
        [&["solve", SITE], &["reach", SITE, "--clear", "1 ft"], &["range", SITE], &["materials", SITE]];
    for arguments in commands {
        let answer = json(arguments);
        assert_eq!(answer["version"], 2, "{arguments:?}");
        assert!(["file", "title", "caution"].iter().all(|key| answer.get(key).is_some()), "{arguments:?}");
    }
    let class = json(&["class", "ines.json"]);
    let keys: Vec<&String> = class.as_object().expect("it is an object").keys().collect();
    assert_eq!(keys, ["learners", "objectives", "version"]);
    assert_eq!(class["version"], 1);
}
