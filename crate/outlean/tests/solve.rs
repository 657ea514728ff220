//! `outlean solve` from end to end: the program itself, on files of its own.

#![expect(clippy::expect_used, clippy::panic, reason = "a test that cannot run the program has failed")]

mod program;

use libm::{cos, sin, sqrt};
use program::{outlean, text};
use serde_json::Value;

/// What the program prints of a file that it can solve.
fn solved(arguments: &[&str]) -> String {
    let output = outlean(arguments);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert_eq!(text(&output.stderr), "", "a right file is not complained of");
    text(&output.stdout)
}

fn json(file: &str) -> Value {
    serde_json::from_str(&solved(&["solve", file, "--json"])).expect("it is JSON")
}

fn number(value: &Value, path: &str) -> f64 {
    value.pointer(path).and_then(Value::as_f64).unwrap_or_else(|| panic!("no number at {path}"))
}

fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() <= 1e-9 * wanted.abs().max(1.0), "{found}, not {wanted}");
}

fn has(text: &str, parts: &[&str]) {
    for part in parts {
        assert!(text.contains(part), "no {part:?} in\n{text}");
    }
}

/// Legs of 5 m, feet 6 m apart: slant height 4 m. Leaning 30°: reach 2 m, height 2√3 m. Moments about the foot
/// line give the guy, the sum of vertical forces gives the legs.
#[test]
fn a_frame_worked_out_by_hand() {
    let (weight, reach, height) = (100.0 * 9.80665, 2.0, sqrt(12.0));
    let length = sqrt((6.0 + reach) * (6.0 + reach) + height * height);
    let guy = weight * reach / (6.0 * height / length);
    let leg = (weight + guy * height / length) * 5.0 / (2.0 * height);

    let json = json("plumb.toml");
    near(number(&json, "/solution/balance/stands/guys/0/tension"), guy);
    near(number(&json, "/solution/balance/stands/compression/left"), leg);
    near(number(&json, "/solution/balance/stands/compression/right"), leg);
    near(number(&json, "/checks/0/ratio"), guy / 1000.0);
    near(number(&json, "/solution/resultant/ahead_of_feet"), reach);

    // The far end of the working range is where the guy reaches its 1 kN: W·4 sin λ·L = 24 cos λ·1 kN.
    let end = number(&json, "/range/intervals/0/to");
    let at_end = weight * 4.0 * sin(end) * sqrt(52.0 + 48.0 * sin(end)) / (24.0 * cos(end));
    assert!(at_end <= 1000.0 && at_end > 999.0, "{at_end} N at the far end");
    assert_eq!(json.pointer("/range/intervals/0/to_limit/part/guy_rope"), Some(&Value::from(0)));
    near(number(&json, "/range/intervals/0/from"), 10_f64.to_radians());

    let text = solved(&["solve", "plumb.toml"]);
    has(
        &text,
        &[
            "30° from the vertical, 60° from the ground",
            "reach 2.00 m, 1 in 1.73; head 3.46 m up",
            "at 10°: the upright stop",
            "at 34.5°: rope of the aft guy",
            "30° is inside it",
            "governs here: rope of the aft guy, at 82 % of what is allowed",
            "aft guy: works, 0.82 kN",
            "left leg: 0.94 kN compression; not assessed",
            "holdfast of the aft guy: 0.82 kN; not assessed",
            "a fore guy wherever one can stand: 0, not met",
            "within limits of rope of the aft guy, the upright stop;",
            "assumed: rope of the aft guy;",
            "confirm on site: lashing.",
            "asked for: 6 to 8 turns, 4 to 6 frapping turns (US Army, FM 3-97.61",
            "asked for: 6 turns, 2 frapping turns, legs 0.05 m apart (War Office",
            "asked for: 8 to 9 turns, legs apart by 33 % of their thickness (US Navy, NAVEDTRA 14043",
            "not leave to hang a life on it",
        ],
    );
}

#[test]
fn a_line_that_moves_is_told_in_each_operation() {
    let text = solved(&["solve", "quarry.toml"]);
    has(
        &text,
        &[
            "Two spruce poles over a quarry lip",
            "over the head and straight back; read while raising",
            "Working range, in every case alike",
            "the left foot slides, while raising",
            "edge guy: works",
            "aft guy: slack",
            "the hobble pulls",
            "friction there 0.7",
            "the left foot needs ",
            "level force of a foot ÷ its vertical force, against the friction stated (common practice)",
            "behind the feet",
            "common practice",
        ],
    );
    let slides = json("quarry.toml")["slides"].clone();
    assert_eq!(
        [&slides[0]["side"], &slides[1]["rule"], &slides[1]["worked"][0]["symbol"]],
        ["left", "friction", "kick"]
    );
    // The governing part comes first.
    let parts: Vec<_> = text.lines().filter(|line| line.contains("assumed, as stated")).collect();
    assert!(parts.first().is_some_and(|line| line.contains("rope of the edge guy")), "{parts:?}");
}

#[test]
fn feet_and_pounds_on_demand() {
    let text = solved(&["solve", "quarry.toml", "--units", "us"]);
    has(&text, &["573 lb", "lbf", "4 ft 4 in"]);
    assert!(!text.contains("kN") && !text.contains(" kg"), "{text}");
}

#[test]
fn the_json_is_what_the_core_says() {
    let source = include_str!("data/quarry.toml");
    let (file, _) = outlean_rigfile::read(source);
    let rig = file.expect("it is a rig").rig;
    let solution = outlean_rig::solve(&rig).expect("it is solved");
    let json = json("quarry.toml");
    assert_eq!(json["version"], 2);
    assert_eq!(json["guy_names"], serde_json::json!([null, "edge guy"]));
    assert_eq!(json["rig"]["case"]["operation"], "raising");
    near(number(&json, "/solution/resultant/tipping_moment"), solution.resultant.tipping_moment);
    near(number(&json, "/solution/line/haul_tension"), solution.line.haul_tension);
    near(number(&json, "/balance_leans/0"), outlean_rig::balance_leans(&rig).expect("it has one")[0]);
    assert_eq!(json["past"], serde_json::json!([]));
}

#[test]
fn a_lean_that_rounds_to_the_end_is_not_said_to_be_where_it_is_not() {
    has(&solved(&["solve", "just-past.toml"]), &["10° to 34.5°", "34.5° is just outside it"]);
}

/// Half the slant height of 4 m ahead, 6 m of setback, EA 25 kN: W·L·a²/(h·arm²) of the guy's EA is the least.
#[test]
fn a_frame_on_a_rope_that_gives() {
    let (weight, reach, height) = (100.0 * 9.80665, 2.0, sqrt(12.0));
    let length = sqrt((6.0 + reach) * (6.0 + reach) + height * height);
    let arm = 6.0 * height / length;
    let least = weight * length * 16.0 / (height * arm * arm);
    let json = json("giving.toml");
    // Under load it stands where it is said to, and carries what the rigid frame does.
    near(number(&json, "/stretch/outcome/stands/lean"), 30_f64.to_radians());
    let tension = number(&json, "/stretch/outcome/stands/tension/0");
    assert!((tension - number(&json, "/solution/balance/stands/guys/0/tension")).abs() < 1e-6 * tension);
    // It was set farther back by about what the rope gives, over its arm.
    let set = number(&json, "/stretch/outcome/stands/set_lean");
    let first_order = tension / 25_000.0 * length / arm;
    assert!(30_f64.to_radians() - set > 0.9 * first_order && 30_f64.to_radians() - set < 1.6 * first_order);
    // A margin of 4 is asked for; its load growing, it runs away sooner than by its stiffness at this lean alone.
    let past = |limit: &str| {
        let past = json["past"].as_array().expect("a list").iter().find(|past| past["limit"] == limit);
        past.and_then(|past| past["ratio"].as_f64()).expect("it is past the limit")
    };
    near(past("stretch"), 4.0 / number(&json, "/stretch/margin/multiple"));
    assert!(past("stretch") > 4.0 * least / 25_000.0);
    near(past("extra_lean"), (30_f64.to_radians() - set) / 3_f64.to_radians());
    let text = solved(&["solve", "giving.toml"]);
    has(&text, &["On guys that stretch", "4 × asked for", "a model result", "would hold"]);
    has(
        &text,
        &[
            "against the margin asked for; a model result (our choice)",
            "at most 3°; a model result (our choice)",
        ],
    );
    // Each check with its steps: the share of its stiffness that the guy must at least have is the closed form's.
    let step = |check: &str, symbol: &str| {
        let steps =
            json.pointer(&format!("{check}/worked")).and_then(|steps| steps.as_array()).expect("steps");
        let step = steps.iter().find(|step| step["symbol"] == symbol);
        step.and_then(|step| step["value"].as_f64()).unwrap_or(f64::NAN)
    };
    assert_eq!(json["stretch"]["checks"][0]["rule"], "run_away");
    assert!((step("/stretch/checks/0", "least_share") - least / 25_000.0).abs() < 0.01 * least / 25_000.0);
    near(step("/stretch/checks/1", "loaded_lean"), 30_f64.to_radians());
    near(step("/stretch/checks/1", "lean_change"), 30_f64.to_radians() - set);
    assert!(!text.contains("not assessed: stretch"), "{text}");
    assert_eq!(json["not_assessed"], serde_json::json!([]));
}

/// Many files at once: answers in their order, each on its line, complaints beside them, the worst code.
#[test]
fn a_folder_is_answered_file_by_file() {
    let output = outlean(&["solve", "plumb.toml", "wrong.toml", "no-aft-guy.toml", "--json"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(text(&output.stderr).contains("wrong.toml"));
    let answers: Vec<Value> = text(&output.stdout)
        .lines()
        .map(|line| serde_json::from_str(line).expect("a line is JSON"))
        .collect();
    let files: Vec<_> = answers.iter().map(|answer| &answer["file"]).collect();
    assert_eq!(files, ["plumb.toml", "no-aft-guy.toml"]);
    assert_eq!(answers[0]["solution"], json("plumb.toml")["solution"], "as alone");
    let folder = outlean(&["range", ".", "--json"]);
    let named = text(&folder.stdout).lines().count();
    let there = std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data")).expect("it is there");
    let there =
        there.filter(|entry| entry.as_ref().is_ok_and(|e| e.path().extension().is_some_and(|e| e == "toml")));
    assert_eq!(named, there.count() - 2, "all but the two that are wrong");
    let nowhere = outlean(&["range", "nowhere.toml", "plumb.toml"]);
    assert_eq!(nowhere.status.code(), Some(2));
    assert!(text(&nowhere.stdout).contains("Working range"), "the other is answered all the same");
}

/// Each command on the frame worked out by hand.
#[test]
fn other_questions_have_answers_that_agree() {
    let solved = json("plumb.toml");
    let range: Value = serde_json::from_str(&self::solved(&["range", "plumb.toml", "--json"])).expect("JSON");
    assert_eq!(range["range"], solved["range"]);
    let limits = range["limits"].as_array().expect("limits");
    let rope = limits.iter().find(|alone| alone["limit"]["part"]["guy_rope"] == 0).expect("the rope's own");
    near(number(rope, "/range/intervals/0/to"), number(&solved, "/range/intervals/0/to"));

    let arguments = [
        "sweep",
        "plumb.toml",
        "--over",
        "lean",
        "--from",
        "20 deg",
        "--to",
        "40 deg",
        "--points",
        "3",
        "--json",
    ];
    let swept: Value = serde_json::from_str(&self::solved(&arguments)).expect("JSON");
    assert_eq!(swept["points"].as_array().map(Vec::len), Some(3));
    near(
        number(&swept, "/points/1/solution/balance/stands/guys/0/tension"),
        number(&solved, "/solution/balance/stands/guys/0/tension"),
    );

    let arguments = [
        "scatter",
        "plumb.toml",
        "--length",
        "0 m",
        "--angle",
        "0 deg",
        "--load",
        "0 %",
        "--soil",
        "0 %",
        "--json",
    ];
    let none: Value = serde_json::from_str(&self::solved(&arguments)).expect("JSON");
    near(
        number(&none, "/uncertainty/guys/0/high"),
        number(&solved, "/solution/balance/stands/guys/0/tension"),
    );
    assert_eq!(none.pointer("/uncertainty/past"), Some(&Value::from(0)));

    let inside = self::solved(&["propose", "plumb.toml"]);
    has(&inside, &["It is inside its limits: rope of the aft guy, at 82 %."]);
    let past: Value = serde_json::from_str(&self::solved(&["propose", "past.toml", "--json"])).expect("JSON");
    assert!(number(&past, "/governing/ratio") > 1.0);
    let first = past.pointer("/proposals/0").expect("there is one");
    assert!(number(first, "/governing/ratio") <= 1.0 && number(first, "/effort") > 0.0, "{first}");
}

/// The frame worked out by hand again: its guy is √((6 + 4 sin λ)² + (4 cos λ)²) long and pulls W·4 sin λ over an arm of
/// 24 cos λ over that, so hardest where it leans farthest.
#[test]
fn a_crew_luffs_the_frame_worked_out_by_hand() {
    let crew = ["crew", "plumb.toml", "--each", "200 N", "--parts", "3", "--luff-to"];
    let answered = |to: &str| -> Value {
        let said = solved(&[crew.as_slice(), &[to, "--json"]].concat());
        serde_json::from_str(&said).expect("JSON")
    };
    let length = |degrees: f64| {
        let lean = degrees.to_radians();
        sqrt((6.0 + 4.0 * sin(lean)) * (6.0 + 4.0 * sin(lean)) + 16.0 * cos(lean) * cos(lean))
    };
    let pull = |degrees: f64| {
        let lean = degrees.to_radians();
        980.665 * 4.0 * sin(lean) * length(degrees) / (24.0 * cos(lean))
    };
    let back = answered("20 deg");
    near(number(&back, "/luffing/0/comes_in"), length(30.0) - length(20.0));
    near(number(&back, "/luffing/0/tension"), pull(30.0));
    near(number(&back, "/advantage"), 2.44);
    near(number(&back, "/luffing/0/hands"), pull(30.0) / 2.44);
    assert_eq!(back.pointer("/luffing/0/people"), Some(&Value::from(2)), "337 N by 200 N");
    assert_eq!(back["haul"], Value::Null, "the load is hung");
    // Paid out, what the pulleys rub away helps the hands.
    let out = answered("40 deg");
    near(number(&out, "/luffing/0/comes_in"), length(30.0) - length(40.0));
    near(number(&out, "/luffing/0/hands"), pull(40.0) / (1.0 + 1.25 + 1.25 * 1.25));
    let said = solved(&[crew.as_slice(), &["20 deg"]].concat());
    has(&said, &["3:1", "2.44", "nothing is hauled", "comes in against", "2 people", "weigh nothing"]);
    has(&solved(&[crew.as_slice(), &["-10 deg"]].concat()), &["cannot be luffed"]);
}

/// W/η on the haul line; w·L²/ℓ at the lashing of two legs that weigh w a metre.
#[test]
fn a_crew_hauls_and_raises() {
    let crew = ["crew", "quarry.toml", "--each", "250 N"];
    let said: Value = serde_json::from_str(&solved(&[crew.as_slice(), &["--json"]].concat())).expect("JSON");
    let haul = 260.0 * 9.80665 / 0.88;
    near(number(&said, "/haul/line"), haul);
    near(number(&said, "/haul/hands"), haul);
    assert_eq!(said.pointer("/haul/people"), Some(&Value::from(12)));
    near(number(&said, "/raising/lift"), 4.1 * 9.80665 * 4.6 * 4.6 / 4.1);
    assert_eq!(said.pointer("/raising/preventer"), Some(&Value::from(0)));
    has(&solved(&crew), &["12 people", "preventer"]);
    for (option, written) in [("--each", "0 N"), ("--efficiency", "120 %"), ("--parts", "0")] {
        let each: &[&str] = if option == "--each" { &[] } else { &["--each", "250 N"] };
        let output = outlean(&[&["crew", "quarry.toml", option, written], each].concat());
        assert_eq!(output.status.code(), Some(2), "{option} {written}");
        has(&text(&output.stderr), &[option, written]);
    }
}

/// A clear reach of 0.1 m past an edge 2.4 m ahead: 4 sin λ = 2.5. There the guy would pull more than its 1 kN, but with
/// an anchor so far back that its arm is W·2.5/1 kN.
#[test]
fn what_a_clear_reach_asks_for() {
    let file = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("edge.toml");
    let plumb = include_str!("data/plumb.toml");
    std::fs::write(&file, format!("edge.ahead = \"2.4 m\"\n{plumb}")).expect("it can be written");
    let file = file.to_string_lossy();
    let reach = ["reach", &*file, "--clear", "10 cm"];
    let said: Value = serde_json::from_str(&solved(&[reach.as_slice(), &["--json"]].concat())).expect("JSON");
    let lean = number(&said, "/reaching/lean");
    assert!((4.0 * sin(lean) - 2.5).abs() < 1e-6, "{lean}");
    assert!(number(&said, "/reaching/governing/ratio") > 1.0);
    assert_eq!(said.pointer("/reaching/setback/0"), Some(&Value::from(0)));
    let setback = number(&said, "/reaching/setback/1");
    let height = 4.0 * cos(lean);
    let arm = setback * height / sqrt((setback + 2.5) * (setback + 2.5) + height * height);
    assert!((980.665 * 2.5 / arm - 1000.0).abs() < 1.0, "an arm of {arm} m");
    has(&solved(&reach), &["from a lean of 38.7°", "outside its limits", "10.5 m from the foot line"]);
    has(&solved(&["reach", &*file, "--clear", "9 m"]), &["No lean has a clear reach"]);
    has(&solved(&["reach", "plumb.toml", "--clear", "9 m"]), &["where the edge is must be given"]);
}

#[test]
fn along_the_stiffness_of_its_ropes_a_frame_runs_away_or_stands() {
    let along = ["sweep", "giving.toml", "--over", "guy-stiffness", "--from", "6 kN", "--to", "200 kN"];
    let said = solved(&[along.as_slice(), &["--points", "2"]].concat());
    has(&said, &["on ropes that stretch: runs away at", "under load; legs", "× its load"]);
    let swept = solved(&[along.as_slice(), &["--points", "2", "--json"]].concat());
    let swept: Value = serde_json::from_str(&swept).expect("JSON");
    assert_eq!(swept["over"], "guy_stiffness");
    assert!(number(&swept, "/points/0/margin/multiple") < 1.0);
    assert!(number(&swept, "/points/1/margin/multiple") > 1.0);
    let lean = |name| number(&swept, &format!("/points/1/stretched/stands/{name}"));
    assert!(lean("lean") > lean("set_lean"));
}

#[test]
fn a_quantity_that_is_none_is_refused_by_name() {
    let output = outlean(&["sweep", "plumb.toml", "--over", "lean", "--from", "4 m", "--to", "40 deg"]);
    assert_eq!(output.status.code(), Some(2));
    has(&text(&output.stderr), &["--from", "4 m", "20 deg"]);
    let output = outlean(&["scatter", "plumb.toml", "--load", "heavy"]);
    assert_eq!(output.status.code(), Some(2));
    has(&text(&output.stderr), &["--load", "heavy", "10 %"]);
}

#[test]
fn a_frame_that_tips_is_a_result() {
    let text = solved(&["solve", "no-aft-guy.toml"]);
    has(
        &text,
        &[
            "This frame does not stand: it tips forward",
            "none at any lean: it tips forward",
            "an aft guy: 0, not met",
            "past its limits: it tips forward;",
            "not assessed: every part",
        ],
    );
    let json = json("no-aft-guy.toml");
    assert_eq!(json["solution"]["balance"]["tips"], "forward");
    assert_eq!(json["checks"], serde_json::json!([]));
    assert_eq!(json["past"][0]["limit"]["tips"], "forward");
    assert_eq!(json["range"]["best_ratio"], Value::Null);
}

#[test]
fn what_is_past_its_limit_is_named() {
    let text = solved(&["solve", "past.toml"]);
    has(
        &text,
        &["past its limits: the left foot slides, rope of the aft guy", "40° is outside it", "while raising"],
    );
    assert!(!text.contains("within limits"), "{text}");
}

#[test]
fn a_wrong_file_is_told_of_once_and_whole() {
    for format in [&["solve", "two-slips.toml"][..], &["solve", "two-slips.toml", "--json"]] {
        let output = outlean(format);
        assert_eq!(output.status.code(), Some(1));
        assert_eq!(text(&output.stdout), "");
        let said = text(&output.stderr);
        has(
            &said,
            &[
                "two-slips.toml:2:48",
                "write \"0.5 m\"",
                "two-slips.toml:3:6",
                "did you mean `spread`?",
                "2 errors, so nothing was solved",
            ],
        );
        assert!(!said.contains('\u{1b}'), "no colour where there is no terminal");
    }
}

#[test]
fn a_file_that_is_not_there_and_a_command_that_is_none() {
    let output = outlean(&["solve", "nowhere.toml"]);
    assert_eq!(output.status.code(), Some(2));
    has(&text(&output.stderr), &["nowhere.toml cannot be read"]);
    assert_eq!(outlean(&["solve"]).status.code(), Some(2));
    assert_eq!(outlean(&["dissolve", "plumb.toml"]).status.code(), Some(2));
    has(&text(&outlean(&["solve", "--help"]).stdout), &["Exit codes", "--json", "--units"]);
}

#[test]
fn no_result_is_called_safe_and_no_word_is_missing() {
    let files = ["plumb.toml", "quarry.toml", "no-aft-guy.toml", "past.toml"];
    let of_all = files.map(|file| {
        [
            solved(&["solve", file]),
            solved(&["crew", file, "--each", "200 N", "--luff-to", "22 deg"]),
            solved(&["reach", file, "--clear", "10 cm"]),
        ]
    });
    for text in of_all.iter().flatten().map(|text| text.to_lowercase()) {
        assert!(!text.contains("safe"), "{text}");
        for sign in ["{", "}", "heading.", "verdict.", "parts.", "foot.", "guys.", "crew.", "reach.", "–"] {
            assert!(!text.contains(sign), "{sign} in\n{text}");
        }
    }
}
