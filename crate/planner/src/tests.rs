//! What the page does with its program, without a page.

use super::*;
use outlean_plan::{DRAWS, Given, Plan};
use outlean_rigfile::{JOB, JOB_TEXTS, choices, fields};
use serde_json::Value;
use std::collections::BTreeMap;

/// Keys and templates of string files in turn.
fn joined(texts: &[&str]) -> Vec<String> {
    let read = |text: &&str| serde_json::from_str::<BTreeMap<String, String>>(text).unwrap();
    texts.iter().flat_map(read).flat_map(|(key, template)| [key, template]).collect()
}

fn new() -> Planner {
    let words = [
        include_str!("../../../www/strings/en/native.json"),
        include_str!("../../../www/strings/en/plan.json"),
        include_str!("../../../www/strings/en/planner.json"),
    ];
    Planner::new(joined(&words), joined(&[include_str!("../../../www/strings/en/picture.json")]))
}

fn parsed(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

/// What governs the plan as it stands, over what is allowed.
fn ratio(planner: &mut Planner) -> f64 {
    planner.work().unwrap().worked.plan.governing.ratio
}

/// The row of a key.
fn row(planner: &Planner, key: &str) -> Value {
    let form = parsed(&planner.form());
    let sections = form["sections"].as_array().unwrap().clone();
    let rows = sections.iter().flat_map(|section| section["rows"].as_array().unwrap().clone());
    rows.into_iter().find(|row| row["key"] == key).unwrap_or_else(|| panic!("no row {key}"))
}

#[test]
fn a_new_page_has_a_plan_and_a_form_without_an_error() {
    let mut planner = new();
    let form = parsed(&planner.form());
    assert!(
        form["problems"].as_array().unwrap().is_empty() && !form.to_string().contains("\"error\":true"),
        "{form}"
    );
    let answer = parsed(&planner.answer());
    assert!(answer["sections"].as_array().unwrap().len() > 4, "{answer}");
    // Nothing is known of what it is made of, and it says so.
    assert_eq!(answer["advice"], "find_out");
    let side = planner.side(800.0, 500.0, false);
    assert!(side.starts_with("<svg") && !side.contains('{'), "{side}");
    assert!(planner.ground(180.0, 100.0, true).starts_with("<svg"));
}

/// Drawn a few at a time it is what `outlean plan` draws at one go, and of another text nothing is drawn yet.
#[test]
fn how_surely_is_said_once_all_is_drawn() {
    let mut planner = new();
    let surely = |planner: &mut Planner| planner.answer().contains("\"key\":\"uncertainty\"");
    let left = planner.draw(200);
    assert_eq!(left, 2 * DRAWS - 200, "each source by itself too");
    assert!(!surely(&mut planner) && planner.spread(600.0, false).is_empty());
    assert_eq!(planner.draw(left), 0);
    assert!(surely(&mut planner) && planner.spread(600.0, false).starts_with("<svg"));
    let Worked { file, plan, .. } = planner.work().unwrap().worked;
    let at_one_go = Plan::of(&Given { rig: &file.rig, job: &file.job, draws: DRAWS }).unwrap();
    assert!(plan.uncertainty.is_some() && *plan == at_one_go);
    planner.set("load.mass", "210 kg");
    assert!(!surely(&mut planner) && planner.draw(1) == 2 * DRAWS - 1);
    planner.set("load.mass", "210");
    assert_eq!(planner.draw(1), 0);
}

/// Every row has words for what it means, and every key of the field table that a file may hold has a row.
#[test]
fn every_row_says_what_it_means() {
    let planner = new();
    let form = parsed(&planner.form());
    for section in form["sections"].as_array().unwrap() {
        assert!(!section["heading"].as_str().unwrap().contains("form."), "{section}");
        for row in section["rows"].as_array().unwrap() {
            assert!(!row["means"].as_str().unwrap().starts_with("field."), "{row}");
            assert!(!row.to_string().contains("form."), "{row}");
        }
    }
}

/// Whatever may stand in a file can be entered; only legs and feet that differ are left to the file.
#[test]
fn every_field_has_a_row() {
    let planner = new();
    let keys = fields().map(|spec| spec.key).chain(choices().map(|spec| spec.key));
    let one_sided = |key: &str| [".left.", ".right."].iter().any(|side| key.contains(side));
    let all = keys.chain(JOB.iter().map(|field| field.key)).chain(JOB_TEXTS).chain(["title", "guy.N.name"]);
    for key in all.filter(|key| !one_sided(key)) {
        let _ = row(&planner, &key.replace('N', "1"));
    }
}

#[test]
fn what_is_half_entered_is_told_at_its_row_and_nothing_is_worked_out_of_it() {
    let mut planner = new();
    let before = planner.text();
    assert!(planner.set("feet.spread", "1.2"));
    let row = row(&planner, "feet.spread");
    assert!(row["problem"]["error"] == true && row["value"] == "1.2", "{row}");
    let answer = parsed(&planner.answer());
    assert!(answer["advice"].is_null() && answer["sections"].as_array().unwrap().is_empty());
    // What is typed into one field is one step, until one is through with it.
    assert!(planner.set("feet.spread", "1.2 m"));
    assert_eq!(planner.steps(), [1, 0]);
    planner.rest();
    assert!(planner.set("feet.spread", "1.25 m"));
    assert!(ratio(&mut planner).is_finite());
    assert!(planner.step(true) && planner.step(true) && !planner.step(true));
    assert_eq!(planner.text(), before);
    assert_eq!(planner.steps(), [0, 2]);
    assert!(planner.step(false) && planner.step(false) && planner.text().contains("1.25 m"));
}

/// A space at the end of a title changes nothing yet, and is where another word begins.
#[test]
fn what_is_typed_after_what_changes_nothing_is_one_step() {
    let mut planner = new();
    planner.set("title", "One");
    planner.rest();
    let before = planner.text();
    for typed in ["One ", "One w", "One wo"] {
        assert!(planner.set("title", typed));
    }
    planner.rest();
    assert!(planner.text() != before && planner.step(true) && planner.text() == before);
    assert!(planner.step(false) && planner.text().contains("One wo"));
}

#[test]
fn an_emptied_field_is_gone_and_a_new_guy_is_there() {
    let mut planner = new();
    assert!(planner.set("edge.headroom", ""));
    assert!(!planner.text().contains("headroom"));
    assert!(planner.set("guy.2.ahead", "5 m"));
    assert_eq!(row(&planner, "guy.2.ahead")["value"], "5 m");
    assert!(!planner.set("guy.9.ahead", "5 m") && !planner.set("feet.colour", "red"));
}

/// A guy is added, said, taken out again, each in one step back; the others keep what is said of them.
#[test]
fn a_guy_comes_and_goes_by_one_step() {
    let mut planner = new();
    let before = planner.text();
    assert_eq!(planner.add_guy(), Some(2));
    // Of one of which nothing is said nothing is worked out: it is asked where it is anchored.
    assert!(row(&planner, "guy.2.setback")["problem"]["error"] == true);
    assert!(parsed(&planner.answer())["advice"].is_null());
    assert!(planner.set("guy.2.setback", "5 m") && !parsed(&planner.answer())["advice"].is_null());
    let three = planner.text();
    assert!(planner.take_out_guy(0));
    assert_eq!(row(&planner, "guy.0.ahead")["value"], "6 m");
    assert_eq!(row(&planner, "guy.1.setback")["value"], "5 m");
    assert!(planner.step(true) && planner.text() == three);
    assert!(planner.step(true) && planner.step(true) && planner.text() == before);
    assert!(!planner.take_out_guy(2) && planner.text() == before && planner.steps() == [0, 3]);
    // Without any, the frame is told to fall, and there is room for six.
    assert!(planner.take_out_guy(0) && planner.take_out_guy(0));
    assert_eq!(parsed(&planner.answer())["advice"], "do_not_build");
    let added: Vec<_> = (0..7).map(|_| planner.add_guy()).collect();
    assert_eq!(added, [Some(0), Some(1), Some(2), Some(3), Some(4), Some(5), None]);
    assert_eq!(parsed(&planner.form())["room"], false);
}

/// The first proposal of a rig past its rope does what it says, in one step back.
#[test]
fn a_proposal_is_written_into_the_file_and_undone_by_one_step() {
    let mut planner = new();
    for (key, value) in
        [("guy.0.rope_allowable", "0.5 kN"), ("guy.1.rope_allowable", "2 kN"), ("lean", "25 deg")]
    {
        assert!(planner.set(key, value));
    }
    let before = planner.text();
    let answer = parsed(&planner.answer());
    let proposals = answer["proposals"].as_array().unwrap().len();
    assert!(proposals > 0, "{answer}");
    let mut done = 0;
    for place in 0..proposals {
        if !planner.propose(place) {
            assert_eq!(planner.text(), before, "what could not be done changed something");
            continue;
        }
        done += 1;
        assert!(ratio(&mut planner) <= 1.0, "{place}: {}", planner.text());
        assert!(planner.step(true));
        assert_eq!(planner.text(), before);
    }
    assert!(done > 0 && !planner.propose(proposals));
}

#[test]
fn text_that_is_no_rig_file_is_kept_and_told() {
    let mut planner = new();
    planner.open("lean = [");
    assert_eq!(planner.text(), "lean = [");
    let form = parsed(&planner.form());
    assert!(form["problems"].as_array().unwrap().iter().any(|one| one["error"] == true), "{form}");
    assert!(!planner.set("lean", "12 deg") && planner.answer().contains("\"advice\":null"));
}
