//! `outlean embed` from end to end: the program itself, on a rig file of the course.

#![expect(clippy::expect_used, reason = "a test that cannot run the program has failed")]

mod program;

use program::{outlean, text};
use std::fs;
use std::path::{Path, PathBuf};

fn rig() -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    root.join("lessons/05-lean/rig.toml").display().to_string()
}

fn place(name: &str) -> PathBuf {
    Path::new(env!("CARGO_TARGET_TMPDIR")).join(name)
}

#[test]
fn a_rig_file_becomes_lines_to_paste_and_a_picture() {
    let picture = place("embedded.svg");
    let _ = fs::remove_file(&picture);
    let out = picture.display().to_string();
    let output = outlean(&["embed", &rig(), "--program", "https://course.example/elements.js", "-o", &out]);
    assert_eq!((output.status.code(), text(&output.stderr)), (Some(0), String::new()));
    let lines = text(&output.stdout);
    assert!(lines.starts_with("<script type=\"module\" src=\"https://course.example/elements.js\"></script>\n<outlean-rig id=\"rig\">"));
    // No style, no script that runs, nothing that a strict policy refuses.
    assert!(!lines.contains("style=") && lines.matches("<script").count() == 2, "{lines}");
    let data = lines.split("application/json\">").nth(1).and_then(|rest| rest.split("</script>").next());
    let data: serde_json::Value = serde_json::from_str(data.expect("the rig")).expect("it is JSON");
    assert_eq!(data.get("load.mass"), Some(&260.0.into()));
    assert!(
        lines.contains("<img src=\"embedded.svg\" alt=\"Side view of the frame as it begins: Legs 4.60 m")
    );
    // What is set up, what it comes to, what each part carries, and the caution.
    for part in [
        "<td>260 kg</td>",
        "In the working range, 10°",
        "What each part carries",
        "<th scope=\"row\">Left leg</th>",
        "Not assessed: ",
        "A teaching aid.",
    ] {
        assert!(lines.contains(part), "no {part} in {lines}");
    }
    assert!(fs::read_to_string(&picture).expect("the picture").starts_with("<svg"));
}

#[test]
fn what_cannot_be_is_told() {
    let nowhere = place("nowhere/embedded.svg").display().to_string();
    let output = outlean(&["embed", &rig(), "-o", &nowhere]);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("embedded.svg"), "{}", text(&output.stderr));
    let wrong = place("wrong.toml");
    fs::write(&wrong, "lean = \"200 deg\"\n").expect("written");
    let output =
        outlean(&["embed", &wrong.display().to_string(), "-o", &place("wrong.svg").display().to_string()]);
    assert_eq!(output.status.code(), Some(1));
    assert!(text(&output.stderr).contains("lean"), "{}", text(&output.stderr));
    assert_eq!(text(&output.stdout), "");
}
