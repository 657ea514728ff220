//! `outlean build` on the course itself: what its pages say of questions before any program runs.

#![expect(clippy::expect_used, clippy::panic, reason = "a test that cannot build has failed")]

use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The page of the lesson `name`, built without the pages' program.
fn built(lessons: &Path, name: &str) -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let place = Path::new(env!("CARGO_TARGET_TMPDIR")).join("page").join(name);
    let _ = fs::remove_dir_all(&place);
    let program = place.join("program");
    fs::create_dir_all(&program).expect("the folder can be made");
    for file in ["page.js", "record.js", "speaker.js", "outlean_bg.wasm"] {
        fs::write(program.join(file), "stands for the program").expect("writable");
    }
    let out = place.join("site");
    let output = Command::new(env!("CARGO_BIN_EXE_outlean"))
        .arg("build")
        .arg("--lessons")
        .arg(lessons)
        .arg("--assets")
        .arg(root.join("www"))
        .arg("--program")
        .arg(program)
        .arg("--out")
        .arg(&out)
        .output()
        .expect("the program runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    fs::read_to_string(out.join(name).join("index.html")).expect("the lesson has a page")
}

/// What stands inside each element of this name.
fn elements<'a>(page: &'a str, name: &str) -> Vec<&'a str> {
    let (start, end) = (format!("<{name} "), format!("</{name}>"));
    page.split(&start).skip(1).filter_map(|rest| rest.split(&end).next()).collect()
}

/// The data of an element.
fn data(element: &str) -> Value {
    let text = element.split("<script type=\"application/json\">").nth(1);
    let text = text.and_then(|rest| rest.split("</script>").next()).expect("it has data");
    serde_json::from_str(text).expect("its data is JSON")
}

fn count(value: &Value, key: &str) -> usize {
    value.get(key).and_then(Value::as_array).unwrap_or_else(|| panic!("no list `{key}` in {value}")).len()
}

#[test]
fn every_kind_of_question_stands_in_the_first_lesson_and_reads_without_a_program() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let page = built(&root.join("lessons"), "01-lean");
    for (kind, list, class) in [
        ("choose", "statements", "options"),
        ("order", "steps", "steps"),
        ("faults", "items", "readings"),
        ("set", "until", "until"),
    ] {
        let found = elements(&page, &format!("outlean-{kind}"));
        let [element] = found.as_slice() else { panic!("{} of {kind}", found.len()) };
        let data = data(element);
        assert_eq!(data["kind"], kind);
        assert!(data["objective"].as_u64().is_some_and(|objective| objective >= 1), "{kind}");
        assert_eq!(data["rig"].is_object(), kind != "order", "{kind}");
        if kind != "order" {
            assert!(data["rig"]["lean"].is_number() && data["rig"]["line.path"].is_string());
        }
        // The question that seed 1 draws, as plain text.
        let still = element.split(&format!("<ul class=\"{class}\">")).nth(1);
        let still = still.and_then(|rest| rest.split("</ul>").next()).expect("it shows its list");
        assert_eq!(still.matches("<li>").count(), count(&data, list), "{kind}");
        assert!(!still.contains('{'), "gaps are filled: {still}");
        for part in
            ["class=\"asks\"", "<details class=\"hint\">", "<details class=\"explanation\">", "Source: "]
        {
            assert!(element.contains(part), "{kind} has no {part}");
        }
        // No answer is typed, and none stands in the still.
        for secret in ["\"holds\":true", "\"faulty\"", "\"example\"", "\"planted\""] {
            assert!(!element.contains(secret), "{kind} gives {secret} away");
        }
    }
    assert!(elements(&page, "outlean-set")[0].starts_with("id=\"as-far-as-it-goes\" figure=\"slate\""));
    // An estimate stands as it did.
    let [estimate] = elements(&page, "outlean-estimate")[..] else { panic!("one estimate") };
    assert_eq!(data(estimate)["ask"], "compression of the left leg");
}

#[test]
fn nothing_an_author_writes_can_end_its_place() {
    let lessons = Path::new(env!("CARGO_TARGET_TMPDIR")).join("page-lessons");
    let _ = fs::remove_dir_all(&lessons);
    let made = |name: &str| -> PathBuf {
        let folder = lessons.join(name);
        fs::create_dir_all(&folder).expect("the folder can be made");
        folder
    };
    let wild = "</script><script>alert(1)</script><b a=\\\"1\\\"> & {lean}";
    let text = format!(
        "+++\ntitle = \"T {wild}\"\nminutes = 5\nobjectives = [\"O {wild}\"]\n+++\n\n```choose\nid = \"wild\"\nrig = \"rig.toml\"\nobjective = 1\nlevel = 1\nhint = \"1 \\\\< 2 & 3\"\nexplanation = \"*so*\"\nsource = \"[here](https://a.example/)\"\n[[statement]]\nsays = \"{wild}\"\nclaim = \"the aft guy works\"\n[[statement]]\nsays = \"no\"\nclaim = \"the fore guy works\"\n```\n"
    );
    fs::write(made("01-wild").join("lesson.md"), text).expect("writable");
    fs::write(made("01-wild").join("rig.toml"), include_str!("../new-lesson/rig.toml")).expect("writable");
    let page = built(&lessons, "01-wild");
    assert!(!page.contains("<script>alert"), "an author's script runs");
    let element = elements(&page, "outlean-choose")[0];
    assert!(
        element.contains(
            "&lt;/script&gt;&lt;script&gt;alert(1)&lt;/script&gt;&lt;b a=&quot;1&quot;&gt; &amp; 24°"
        )
    );
    assert!(element.contains("1 &lt; 2 &amp; 3") && element.contains("<em>so</em>"));
    assert!(element.contains("<a href=\"https://a.example/\">here</a>"));
    let said = data(element)["statements"][0]["says"].to_string();
    assert!(said.contains("</script><script>"), "data is as it was written: {said}");
}
