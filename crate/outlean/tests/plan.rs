//! Plans of five invented sites, from end to end: the text that a crew gets, read line by line as an instructor.
//! `OUTLEAN_BLESS=1` writes it anew, to be read again.

#![expect(clippy::expect_used, reason = "a test that cannot run the program has failed")]

mod program;

use program::{outlean, text};
use serde_json::Value;
use std::fs;
use std::path::Path;

/// The sites, and their units.
const SITES: [(&str, &str); 5] = [
    ("slate-bench", "metric"),
    ("mill-race", "us"),
    ("peat-bank", "metric"),
    ("sea-stairs", "metric"),
    ("lock-wall", "metric"),
];

fn site(name: &str) -> String {
    format!("../../sites/{name}.toml")
}

/// What the program prints of files that it can plan.
fn planned(arguments: &[&str]) -> String {
    let output = outlean(&[&["plan"], arguments].concat());
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert_eq!(text(&output.stderr), "", "a right file is not complained of");
    text(&output.stdout)
}

/// As JSON; what is drawn takes longest and is looked at elsewhere.
fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&planned(&[arguments, &["--json", "--draws", "20"]].concat())).expect("it is JSON")
}

/// What was printed beside what was read by an instructor and found right.
fn as_reviewed(name: &str, found: &str) {
    let beside = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/plans/{name}.txt"));
    if std::env::var_os("OUTLEAN_BLESS").is_some() {
        fs::write(&beside, found).expect("writable");
    }
    let wanted = fs::read_to_string(&beside).unwrap_or_default();
    for (line, (found, wanted)) in (1..).zip(found.lines().zip(wanted.lines())) {
        assert_eq!(found, wanted, "{name}, line {line}");
    }
    assert_eq!(found.lines().count(), wanted.lines().count(), "{name}");
}

#[test]
fn every_site_has_the_plan_that_was_reviewed() {
    for (name, units) in SITES {
        as_reviewed(name, &planned(&[&site(name), "--units", units]));
    }
}

#[test]
fn a_measured_rig_and_variants_stand_beside_the_plan() {
    let (planned_rig, built) = (site("slate-bench"), site("slate-bench-as-built"));
    as_reviewed("slate-bench-as-built", &planned(&[&planned_rig, "--as-built", &built]));
    let beside = planned(&[&planned_rig, "--compare", &built, "--compare", &site("lock-wall")]);
    as_reviewed("three-variants", &beside);
    let four =
        outlean(&["plan", &planned_rig, "--compare", &built, "--compare", &built, "--compare", &built]);
    assert_eq!(four.status.code(), Some(2));
}

/// One of the five is not to be built: it says so, and why, and hands nobody a list to build it by.
#[test]
fn what_is_not_to_be_built_says_so_and_why() {
    let plan = json(&[&site("peat-bank")]);
    assert_eq!(plan.pointer("/plan/advice"), Some(&Value::from("do_not_build")));
    let past = plan.pointer("/plan/verdict/past").and_then(Value::as_array).expect("what it is past");
    assert!(past.len() > 3);
    let said = planned(&[&site("peat-bank"), "--draws", "20"]);
    assert!(said.contains("Do not build this.") && !said.contains("Read the briefing out"), "{said}");
    for (name, advice) in [("slate-bench", "build"), ("lock-wall", "change")] {
        assert_eq!(json(&[&site(name)]).pointer("/plan/advice"), Some(&Value::from(advice)), "{name}");
    }
}

#[test]
fn no_word_is_missing_and_nothing_is_called_safe() {
    for (name, _) in SITES {
        for more in
            [&[][..], &["--as-built", &site("slate-bench-as-built")], &["--compare", &site("mill-race")]]
        {
            let said = planned(&[&[site(name).as_str(), "--draws", "20"], more].concat());
            // A key without words is shown itself, and a place that nothing fills stays.
            for sign in ["plan.", "field.", "stretch.", "crew.", "materials.", "{", "NaN", "inf ", "safe"] {
                assert!(!said.contains(sign), "{name}: {sign} in\n{said}");
            }
        }
    }
}

#[test]
fn every_key_of_the_json_is_in_the_readme() {
    let readme = include_str!("../README.md");
    let plan = json(&[
        &site("slate-bench"),
        "--as-built",
        &site("slate-bench-as-built"),
        "--compare",
        &site("lock-wall"),
    ]);
    let keys = |at: &str| {
        let object =
            plan.pointer(at).and_then(Value::as_object).unwrap_or_else(|| panic!("no object at {at}"));
        object.keys().cloned().collect::<Vec<_>>()
    };
    let places =
        ["/plan", "/plan/job", "/plan/verdict", "/plan/stretching", "/plan/test", "/compared", "/measured"];
    let first = [
        "/plan/pacing/0",
        "/plan/as_built/0",
        "/plan/demands/0",
        "/plan/steps/0",
        "/plan/sources/0",
        "/compared/variants/0",
        "/compared/differences/0",
        "/measured/rows/0",
    ];
    for key in places.into_iter().chain(first).flat_map(keys) {
        assert!(readme.contains(&format!("`{key}`")), "{key} is not in the README");
    }
}

/// Printed at its own size the ground plan is to the scale that it names.
#[test]
fn the_pictures_are_written() {
    let places = ["ground", "spread"]
        .map(|name| std::env::temp_dir().join(format!("outlean-plan-{name}-{}.svg", std::process::id())));
    let [ground, spread] = places.each_ref().map(|place| place.to_str().expect("a plain path"));
    let output = outlean(&["plan", &site("sea-stairs"), "--figure", ground, "--spread", spread]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let wanted = [&["1 : 200", "right foot", "6.00"][..], &["100", "limit", "nine in ten"]];
    for (place, wanted) in places.iter().zip(wanted) {
        let drawn = fs::read_to_string(place).expect("it was written");
        fs::remove_file(place).expect("it can go");
        for part in wanted.iter().chain(&["<svg", "not leave to hang a life on it"]) {
            assert!(drawn.contains(part), "no {part} in\n{drawn}");
        }
    }
    let two = outlean(&["plan", &site("sea-stairs"), &site("mill-race"), "--figure", ground]);
    assert_eq!(two.status.code(), Some(2), "a picture is of one rig");
}

/// The plan's numbers are those of the other commands, to the bit.
#[test]
fn the_numbers_are_those_of_the_other_commands() {
    for (name, _) in SITES {
        let plan = json(&[&site(name)]);
        let of = |command: &str, more: &[&str]| -> Value {
            let output = outlean(&[&[command, &site(name), "--json"], more].concat());
            serde_json::from_str(&text(&output.stdout)).expect("it is JSON")
        };
        let solved = of("solve", &[]);
        for (here, there) in [
            ("governing", "governing"),
            ("range", "range"),
            ("clearance", "clearance"),
            ("findings", "findings"),
        ] {
            let strip = |value: Option<&Value>| {
                let mut value = value.cloned();
                if let Some(Value::Array(all)) = &mut value {
                    for each in all.iter_mut().filter_map(Value::as_object_mut) {
                        each.retain(|key, _| key != "cited" && key != "at_most");
                    }
                }
                value
            };
            let (here, there) = (strip(plan.pointer(&format!("/plan/{here}"))), strip(solved.get(there)));
            assert!(here.is_some() && here == there, "{name}: {here:?}, not {there:?}");
        }
        assert_eq!(plan.pointer("/plan/materials"), of("materials", &[]).get("materials"), "{name}");
        assert_eq!(plan.pointer("/plan/proposals"), of("propose", &[]).get("proposals"), "{name}");
        let job = |key: &str| plan.pointer(&format!("/plan/job/scatter/{key}")).map(Value::to_string);
        let said =
            |key: &str, unit: &str| job(key).map_or_else(String::new, |value| format!("{value}{unit}"));
        let scatter = of(
            "scatter",
            &[
                "--draws",
                "20",
                "--length",
                &said("length", " m"),
                "--angle",
                &said("angle", " rad"),
                "--load",
                &said("load", ""),
                "--soil",
                &said("soil", ""),
            ],
        );
        assert_eq!(plan.pointer("/plan/uncertainty"), scatter.get("uncertainty"), "{name}");
    }
}
