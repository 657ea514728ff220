//! `outlean class` on records: one whole, one that repeats it, one damaged, one that is none.

#![expect(clippy::expect_used, reason = "a test that cannot run the program has failed")]

mod program;

use program::{outlean, text};

#[test]
fn a_class_of_files() {
    let made = outlean(&["class", "ines.json", "ines-later.json", "mo-damaged.json", "past.toml"]);
    assert_eq!(made.status.code(), Some(1));
    let (out, errors) = (text(&made.stdout), text(&made.stderr));
    let ines = out.split("Mo\n").next().unwrap();
    assert!(ines.contains("Estimate a leg.: 3 answers, 67 % of the marks, last on 2023-11-20"), "{out}");
    assert!(ines.contains("Estimate a guy.: nothing yet"), "{out}");
    assert!(out.contains("Estimate a guy.: 1 answer, 50 % of the marks, last on 2023-11-14"), "{out}");
    assert!(out.contains("practical"), "{out}");
    assert!(
        errors
            .contains("mo-damaged.json: an answer is set aside: share is 3; allowed is a number from 0 to 1"),
        "{errors}"
    );
    assert!(errors.contains("past.toml: set aside: file is"), "{errors}");
}

#[test]
fn other_forms_and_codes() {
    let made = outlean(&["class", "ines.json", "--json"]);
    assert_eq!(made.status.code(), Some(0));
    let table: serde_json::Value = serde_json::from_slice(&made.stdout).unwrap();
    assert_eq!(table["learners"][0]["cells"][0]["attempts"], 2);
    let made = outlean(&["class", "ines.json", "ines-later.json", "--csv"]);
    assert_eq!(text(&made.stdout).lines().count(), 4);
    let made = outlean(&["class", "ines.json", "ines-later.json", "--table"]);
    assert_eq!(text(&made.stdout), "learner,Estimate a leg.\r\nInes,0.6666666666666666\r\n");
    assert_eq!(outlean(&["class", "nowhere.json"]).status.code(), Some(2));
    assert_eq!(outlean(&["class"]).status.code(), Some(2));
}
