//! The runner runs the cases that stand here, and fails where it should.

use super::{Report, run};
use serde_json::{Value, json};

/// Made with general-purpose structural programs, apart from this core.
const PUBLIC: &str = include_str!("../../data/statics_cases.json");

fn public() -> Value {
    serde_json::from_str(PUBLIC).unwrap()
}

fn run_value(file: &Value) -> Report {
    run(&file.to_string()).unwrap()
}

/// A file with one case of the public ones.
fn only(id: &str) -> Value {
    let mut file = public();
    file["cases"].as_array_mut().unwrap().retain(|case| case["id"] == id);
    assert_eq!(file["cases"].as_array().unwrap().len(), 1);
    file
}

fn the_trouble(file: &Value) -> String {
    let report = run_value(file);
    assert!(!report.passes());
    let [(_, trouble)] = report.troubles.as_slice() else { panic!("one trouble, not {report}") };
    trouble.to_string()
}

#[test]
fn the_public_cases_agree() {
    let report = run(PUBLIC).unwrap();
    assert!(report.passes(), "{report}");
    assert_eq!((report.cases, report.determinate, report.elastic), (15, 13, 2));
    // Every reading of the convention is compared: of determinate cases, of large displacements, of rigid legs.
    assert_eq!(report.tallies.len(), 27 + 30 + 27, "{report}");
    assert!(report.notes.is_empty(), "{report}");
    assert!(report.failures.is_empty(), "{report}");
    // The large displacements were iterated elsewhere; all else is as exact as numbers are.
    assert!(report.largest() < 3e-11, "{report}");
    let closed = report.tallies.iter().filter(|(quantity, _)| !quantity.starts_with("elastic "));
    assert!(closed.into_iter().all(|(_, tally)| tally.largest < 1e-12), "{report}");
}

#[test]
fn any_doctored_number_fails() {
    let file = public();
    let mut doctored = 0;
    for (place, case) in file["cases"].as_array().unwrap().iter().enumerate() {
        let of: &[(&str, &str)] = match case["inputs"]["analysis"].as_str().unwrap() {
            "determinate" => &[("outputs", "")],
            _ => &[("outputs_large_displacement", "elastic "), ("outputs_rigid_leg_limit", "rigid legs ")],
        };
        for (outputs, prefix) in of {
            for (key, value) in case[outputs].as_object().unwrap() {
                let mut copy = file.clone();
                copy["cases"][place][outputs][key] = doctor(key, value);
                let report = run_value(&copy);
                assert!(!report.passes(), "{} {outputs} {key} doctored", case["id"]);
                assert_eq!(report.failures.len(), 1, "{report}");
                assert_eq!(report.failures[0].quantity, format!("{prefix}{key}"));
                doctored += 1;
            }
        }
    }
    assert_eq!(doctored, 13 * 27 + 2 * (30 + 27));
}

/// A wrong value in place of a right one.
fn doctor(key: &str, value: &Value) -> Value {
    match value {
        Value::Number(number) => json!(number.as_f64().unwrap() * (1.0 + 3e-8) + 1e-3),
        Value::Array(list) if list.first().is_some_and(Value::is_number) => {
            let mut list = list.clone();
            let last = list.len() - 1;
            list[last] = json!(list[last].as_f64().unwrap() * (1.0 + 3e-8) + 1e-3);
            Value::Array(list)
        }
        Value::Array(list) if list.is_empty() => json!(["left_foot_lifts"]),
        Value::Array(_) => json!(["right_foot_lifts"]),
        Value::String(status) if status == "ok" => json!("topples_forward"),
        Value::String(_) => json!("ok"),
        Value::Null if key.starts_with("foot") || key.starts_with("redirect") || key.starts_with("aft") => {
            json!([0.0, 0.0, 0.0])
        }
        _ => json!(0.0),
    }
}

#[test]
fn an_elastic_case_must_have_both_of_its_outputs() {
    for key in ["outputs_large_displacement", "outputs_rigid_leg_limit"] {
        let mut file = only("P014");
        file["cases"][0].as_object_mut().unwrap().remove(key);
        assert!(the_trouble(&file).contains(key));
    }
    let file = only("P014");
    assert!(run_value(&file).passes(), "{}", run_value(&file));
}

#[test]
fn what_is_not_known_is_an_error_that_names_key_and_value() {
    let set = |pointer: &str, value: Value| {
        let mut file = only("P010");
        *file.pointer_mut(&format!("/cases/0/{pointer}")).unwrap() = value;
        file
    };
    for (pointer, value, says) in [
        ("outputs/status", json!("wobbles"), "`outputs.status` is \"wobbles\"; wanted one of ok,"),
        ("outputs/status", json!(null), "`outputs.status` is null"),
        ("outputs/leg_left_compression_N", json!("much"), "`outputs.leg_left_compression_N` is \"much\""),
        ("outputs/head_m", json!(3.0), "`outputs.head_m` is 3.0; wanted a list"),
        ("outputs/flags", json!([7]), "`outputs.flags` is 7; wanted words"),
        ("inputs/analysis", json!("guess"), "`inputs.analysis` is \"guess\""),
        ("inputs/haul/mode", json!("zip line"), "`inputs.haul.mode` is \"zip line\""),
        ("inputs/haul/operation", json!("drop"), "`inputs.haul.operation` is \"drop\""),
        ("inputs/haul/redirect_at", json!("tree"), "`inputs.haul.redirect_at` is \"tree\""),
        ("inputs/haul/redirect_efficiency", json!(null), "`inputs.haul.redirect_efficiency` is null"),
        ("inputs/haul/haul_point_m", json!([1.0, 2.0]), "`inputs.haul.haul_point_m` is [1.0,2.0]"),
        ("inputs/aft_guys", json!({}), "`inputs.aft_guys` is {}; wanted a list"),
        ("inputs/aft_guys/0/anchor_m", json!(null), "`inputs.aft_guys[0].anchor_m` is null"),
        ("inputs/fore_guy", json!({}), "`inputs.fore_guy.anchor_m` is missing"),
        ("inputs/leg_length_m", json!(null), "`inputs.leg_length_m` is null; wanted a number"),
        ("inputs/spread_m", json!(90.0), "`inputs` is Spread is 90"),
        ("inputs", json!(3), "`inputs.analysis` is missing"),
        ("outputs", json!([]), "`outputs` is nothing"),
    ] {
        let trouble = the_trouble(&set(pointer, value));
        assert!(trouble.contains(says), "{pointer}: {trouble}");
    }
    let seven = json!(vec![json!({ "anchor_m": [-5.0, 0.0, 0.0] }); 7]);
    assert!(the_trouble(&set("inputs/aft_guys", seven)).contains("`inputs.aft_guys` is 7; wanted at most 6"));
}

#[test]
fn a_missing_input_is_an_error_and_a_missing_output_is_not() {
    let file = only("P010");
    let inputs = file["cases"][0]["inputs"].as_object().unwrap();
    for key in inputs.keys() {
        let mut copy = file.clone();
        copy["cases"][0]["inputs"].as_object_mut().unwrap().remove(key);
        let report = run_value(&copy);
        match key.as_str() {
            "leg_EA_N" | "fore_guy" => assert!(report.passes(), "{key}: {report}"),
            // Without its guy the frame falls: no longer the same case.
            "aft_guys" => assert!(!report.failures.is_empty(), "{report}"),
            _ => assert!(the_trouble(&copy).contains(key.as_str()), "{key}"),
        }
    }
    let mut copy = file.clone();
    copy["cases"][0]["outputs"].as_object_mut().unwrap().retain(|key, _| key == "status");
    assert!(run_value(&copy).passes());
}

#[test]
fn what_is_read_past_is_said() {
    let mut file = only("P010");
    file["cases"][0]["inputs"]["colour"] = json!("red");
    file["cases"][0]["inputs"]["aft_guys"][0]["pretension_N"] = json!(80.0);
    file["cases"][0]["outputs"]["mood"] = json!(1.0);
    file["cases"][0]["outputs"]["flags"] = json!(["odd"]);
    let report = run_value(&file);
    assert!(report.passes(), "{report}");
    assert_eq!(report.notes.len(), 4, "{report}");
    let text = report.to_string();
    for word in ["inputs.colour", "pretension_N left out", "outputs.mood", "flag odd", "(P010)"] {
        assert!(text.contains(word), "{word} in:\n{text}");
    }
}

/// A case seen in a mirror: left and right change places.
fn mirrored(case: &Value) -> Value {
    fn swap(text: &str) -> String {
        match (text.contains("left"), text.contains("right")) {
            (true, _) => text.replace("left", "right"),
            (_, true) => text.replace("right", "left"),
            _ => text.to_owned(),
        }
    }
    fn turn(value: &Value, key: &str) -> Value {
        match value {
            Value::Array(list) if list.len() == 3 && list.iter().all(Value::is_number) => {
                json!([list[0], -list[1].as_f64().unwrap(), list[2]])
            }
            Value::Array(list) => list.iter().map(|item| turn(item, key)).collect(),
            Value::Object(map) => map.iter().map(|(key, item)| (swap(key), turn(item, key))).collect(),
            Value::Number(number)
                if matches!(key, "load_side_angle_deg" | "net_sideways_ground_reaction_N") =>
            {
                json!(-number.as_f64().unwrap())
            }
            Value::String(text) => json!(swap(text)),
            other => other.clone(),
        }
    }
    turn(case, "")
}

#[test]
fn mirrored_cases_agree_so_that_the_right_foot_is_covered() {
    let mut file = public();
    let cases: Vec<Value> = file["cases"].as_array().unwrap().iter().map(mirrored).collect();
    assert!(cases.iter().any(|case| case["inputs"]["haul"]["redirect_at"] == "right_foot"));
    file["cases"] = Value::Array(cases);
    let report = run_value(&file);
    assert!(report.passes() && (report.determinate, report.elastic) == (13, 2), "{report}");
}

#[test]
fn the_other_statuses_are_told_apart() {
    let case = |lean: f64, haul: Value, aft: Value, fore: Value, status: &str| {
        json!({ "cases": [{ "id": "X", "inputs": {
            "analysis": "determinate", "leg_length_m": 4.0, "spread_m": 1.2, "lean_deg": lean,
            "leg_weight_N_per_m": 0.0, "load_line_tension_N": 1000.0, "load_side_angle_deg": 0.0,
            "haul": haul, "aft_guys": aft, "fore_guy": fore,
        }, "outputs": { "status": status } }] })
    };
    let hung = || json!({ "mode": "static_hang", "operation": "hold" });
    let back = || json!({ "mode": "direct", "operation": "hold", "haul_point_m": [-8.0, 0.0, 0.0] });
    let behind = || json!([{ "anchor_m": [-6.0, 0.0, 0.0] }]);
    let ahead = || json!({ "anchor_m": [6.0, 0.0, 0.0] });
    // Up a bank, and ahead of the plane of a frame that leans back: an aft guy that holds it out.
    let up = || json!([{ "anchor_m": [-1.0, 0.0, 2.5] }]);
    for file in [
        case(0.0, hung(), behind(), json!(null), "neutral"),
        case(20.0, hung(), json!([]), json!(null), "topples_forward"),
        case(20.0, hung(), json!([]), ahead(), "topples_forward"),
        case(-20.0, hung(), behind(), json!(null), "topples_back"),
        case(-20.0, hung(), json!([]), ahead(), "ok_fore_guy_carries"),
        case(10.0, back(), behind(), ahead(), "ok_fore_guy_carries"),
        case(40.0, back(), behind(), ahead(), "ok"),
        case(-20.0, hung(), behind(), ahead(), "ok_fore_guy_carries"),
        case(-30.0, hung(), up(), json!(null), "ok"),
        case(-30.0, hung(), up(), ahead(), "ok_both_guys_could_carry"),
    ] {
        let report = run_value(&file);
        assert!(report.passes(), "{}: {report}", file["cases"][0]["outputs"]["status"]);
    }
}

#[test]
fn a_short_arm_is_held_less_tightly_and_that_is_said() {
    let file = |tension: f64| {
        json!({ "cases": [{ "id": "X", "inputs": {
            "analysis": "determinate", "leg_length_m": 4.0, "spread_m": 1.2, "lean_deg": 20.0,
            "leg_weight_N_per_m": 0.0, "load_line_tension_N": 1000.0, "load_side_angle_deg": 0.0,
            "haul": { "mode": "static_hang", "operation": "hold" }, "aft_guys": [{ "anchor_m": [-0.05, 0.0, 0.0] }],
        }, "outputs": { "status": "ok", "aft_guy_tension_N": [tension] } }] })
    };
    let right: f64 = run_value(&file(0.0)).failures[0].found.parse().unwrap();
    let near = run_value(&file(right * (1.0 + 1.5e-8)));
    assert!(near.passes() && near.to_string().contains("arm of the working guy is 1.18 %"), "{near}");
    assert!(!run_value(&file(right * (1.0 + 1e-7))).passes());
}

#[test]
fn nothing_in_a_file_makes_it_panic() {
    let junk =
        [json!(null), json!(true), json!(-1e308), json!("left"), json!([]), json!([null, 1, "x"]), json!({})];
    fn paths(value: &Value, at: &str, all: &mut Vec<String>) {
        all.push(at.to_owned());
        match value {
            Value::Object(map) => map.iter().for_each(|(key, item)| paths(item, &format!("{at}/{key}"), all)),
            Value::Array(list) => {
                list.iter().enumerate().for_each(|(i, item)| paths(item, &format!("{at}/{i}"), all));
            }
            _ => {}
        }
    }
    for id in ["P008", "P010"] {
        let file = only(id);
        let mut all = Vec::new();
        paths(&file, "", &mut all);
        for path in all {
            for junk in &junk {
                let mut copy = file.clone();
                *copy.pointer_mut(&path).unwrap() = junk.clone();
                if let Ok(report) = run(&copy.to_string()) {
                    assert!(!report.to_string().is_empty());
                }
            }
        }
    }
    for text in ["", "{", "[]", "{\"cases\": []}", "{\"cases\": 3}"] {
        assert!(run(text).is_err(), "{text}");
    }
    assert!(!run("{\"cases\": [3, {}]}").unwrap().passes());
}
