//! Form: what is asked for, in the order in which a site is walked, with what stands there now.

use outlean_rig::{Dimension, MAX_GUYS};
use outlean_rigfile::{
    JOB, JOB_TEXTS, LEAN_AGAIN, Problem, Severity, Units, Words, choice, dimension_key, field, guys_in, read,
    show, written,
};
use serde::Serialize;
use std::collections::BTreeMap;

/// The form and what is wrong in it.
#[derive(Serialize)]
pub struct Form {
    /// Its parts.
    sections: Vec<Section>,
    /// What is wrong and belongs to no row, or to none that is shown.
    problems: Vec<Said>,
    /// Whether there is room for another guy.
    room: bool,
}

#[derive(Serialize)]
struct Section {
    key: String,
    heading: String,
    rows: Vec<Row>,
}

/// One thing asked for.
#[derive(Serialize)]
struct Row {
    key: String,
    /// What it means.
    means: String,
    /// `number`, `lean`, `word` or `text`.
    kind: &'static str,
    /// What stands there, as it is written; nothing for nothing.
    value: String,
    /// Of a word, what it may be.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    options: Vec<&'static str>,
    /// Of a number, what is allowed, in the reader's units.
    #[serde(skip_serializing_if = "String::is_empty")]
    allowed: String,
    /// How one writes it.
    #[serde(skip_serializing_if = "String::is_empty")]
    example: String,
    /// Whether a plan can seldom do without it: the others are folded away.
    first: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    problem: Option<Said>,
}

/// A problem in words.
#[derive(Serialize, Clone)]
pub struct Said {
    /// Whether no plan can be made with it.
    error: bool,
    message: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    hint: Option<String>,
}

/// The parts of the form: a name, what is asked for first, what else may be said.
const SECTIONS: [(&str, &[&str], &[&str]); 8] = [
    (
        "site",
        &[
            "title",
            "plan.place",
            "plan.date",
            "plan.in_charge",
            "edge.ahead",
            "edge.level",
            "edge.litter_drop",
            "edge.clear_reach",
            "edge.headroom",
        ],
        &["feet.friction", "feet.bearing_area", "feet.bearing_allowable"],
    ),
    (
        "poles",
        &[
            "legs.length",
            "legs.lashing_below_tip",
            "legs.weight",
            "legs.butt_diameter",
            "legs.tip_diameter",
            "timber.grade",
        ],
        &[
            "legs.breadth",
            "legs.depth",
            "legs.crook",
            "legs.eccentricity",
            "timber.moisture",
            "timber.duration",
            "timber.compression",
            "timber.bending",
            "timber.stiffness",
            "lashing.rope",
            "lashing.turns",
            "lashing.frapping",
            "lashing.spacer",
            "lashing.tail",
            "lashing.girth",
        ],
    ),
    (
        "stance",
        &[
            "feet.spread",
            "feet.connection",
            "feet.connection_height",
            "feet.pinned",
            "feet.held_down",
            "lean",
            "lean_is",
        ],
        &["limits.upright_stop", "limits.stretch_margin", "limits.strength_factor"],
    ),
    (
        "load",
        &["load.mass"],
        &[
            "load.dynamic_factor",
            "load.side_angle",
            "load.outward_angle",
            "load.stage",
            "load.at_edge.side_angle",
            "load.at_edge.outward_angle",
            "load.on_tag_lines.side_angle",
            "load.on_tag_lines.outward_angle",
        ],
    ),
    (
        "line",
        &[
            "line.path",
            "line.to.back",
            "line.operation",
            "line.sling",
            "line.rope",
            "line.knot",
            "line.holdfast",
            "line.soil",
            "sling.rope",
            "sling.knot",
            "sling.parts",
        ],
        &[
            "line.to.ahead",
            "line.to.left",
            "line.to.up",
            "line.parts",
            "line.pulley_efficiency",
            "line.redirect_efficiency",
            "line.breaking",
            "line.knot_efficiency",
            "line.pickets",
            "line.picket_spacing",
            "line.holdfast_strength",
            "line.holdfast_allowable",
            "sling.breaking",
            "sling.knot_efficiency",
            "sling.angle",
            "pulley.class",
            "pulley.breaking",
            "connector.class",
            "connector.breaking",
            "redirect.class",
            "redirect.breaking",
        ],
    ),
    (
        "second",
        &["second.path", "second.to.back", "second.share", "second.peak_factor"],
        &[
            "second.to.ahead",
            "second.to.left",
            "second.to.up",
            "second.parts",
            "second.pulley_efficiency",
            "second.redirect_efficiency",
            "second.sling",
            "second.rope",
            "second.breaking",
            "second.knot",
            "second.knot_efficiency",
            "second.holdfast",
            "second.soil",
            "second.pickets",
            "second.picket_spacing",
            "second.holdfast_strength",
            "second.holdfast_allowable",
            "second.holds",
        ],
    ),
    (
        "people",
        &["plan.people", "plan.pull", "plan.parts", "plan.efficiency", "plan.lowered", "plan.test_load"],
        &[],
    ),
    (
        "scatter",
        &["plan.scatter.length", "plan.scatter.angle", "plan.scatter.load", "plan.scatter.soil"],
        &[LEAN_AGAIN],
    ),
];

/// What is asked of each guy.
const GUY: (&[&str], &[&str]) = (
    &["setback", "ahead", "rope", "knot", "elongation", "elongation_at", "holdfast", "soil"],
    &[
        "name",
        "offset",
        "rise",
        "rigged",
        "pretension",
        "give",
        "breaking",
        "knot_efficiency",
        "pickets",
        "picket_spacing",
        "holdfast_strength",
        "rope_allowable",
        "holdfast_allowable",
    ],
);

/// The form of a rig file's text.
pub fn form(text: &str, words: &Words, units: Units) -> Form {
    let values = written(text).unwrap_or_default();
    let (_, problems) = read(text);
    let mut left: Vec<&Problem> = problems.iter().collect();
    let mut sections = Vec::new();
    let guys = guys_in(text);
    // Guys stand where the frame is steadied: before whoever hauls.
    for (name, first, more) in SECTIONS {
        if name == "people" {
            for guy in 0..guys {
                let of =
                    |names: &[&str]| names.iter().map(|name| format!("guy.{guy}.{name}")).collect::<Vec<_>>();
                let number = (guy + 1).to_string();
                let heading = words.fill("form.guy", &[("number", &number)]);
                sections.push(Section {
                    key: format!("guy.{guy}"),
                    heading,
                    rows: rows(of(GUY.0), of(GUY.1), &values, &mut left, words, units),
                });
            }
        }
        let all = |keys: &[&str]| keys.iter().map(|key| (*key).to_owned()).collect::<Vec<_>>();
        sections.push(Section {
            key: name.to_owned(),
            heading: words.say(&format!("form.{name}")).to_owned(),
            rows: rows(all(first), all(more), &values, &mut left, words, units),
        });
    }
    let problems = left.into_iter().map(|problem| said(problem, words)).collect();
    Form { sections, problems, room: guys < MAX_GUYS }
}

fn rows(
    first: Vec<String>,
    more: Vec<String>,
    values: &BTreeMap<String, String>,
    left: &mut Vec<&Problem>,
    words: &Words,
    units: Units,
) -> Vec<Row> {
    let first = first.into_iter().map(|key| (key, true));
    let more = more.into_iter().map(|key| (key, false));
    first.chain(more).filter_map(|(key, first)| row(key, first, values, left, words, units)).collect()
}

fn row(
    key: String,
    first: bool,
    values: &BTreeMap<String, String>,
    left: &mut Vec<&Problem>,
    words: &Words,
    units: Units,
) -> Option<Row> {
    let range = |least: f64, most: f64, dimension: Dimension| {
        let shown = |value: f64| show(value, dimension, units).to_string();
        words.fill("form.allowed", &[("least", &shown(least)), ("most", &shown(most))])
    };
    let of_row = row_of(&key);
    let (mut kind, mut options, mut allowed, mut example) =
        ("number", Vec::new(), String::new(), String::new());
    if key == "lean" || key == LEAN_AGAIN {
        (kind, example) = ("lean", words.say("form.lean").to_owned());
    } else if let Some(spec) = JOB.iter().find(|spec| spec.key == key) {
        allowed = range(spec.allowed().least, spec.allowed().most, spec.dimension);
        example = words.say(&format!("form.unit.{}", dimension_key(spec.dimension))).to_owned();
    } else if let Some(found) = field(&key) {
        allowed = range(found.allowed().least, found.allowed().most, found.dimension());
        example = words.say(&format!("form.unit.{}", dimension_key(found.dimension()))).to_owned();
    } else if let Some(found) = choice(&key) {
        (kind, options) = ("word", found.spec.options.to_vec());
    } else if JOB_TEXTS.contains(&key.as_str()) || key == "title" || of_row == "guy.N.name" {
        kind = "text";
    } else {
        return None;
    }
    let means = means(&key, words);
    let mine = |problem: &&&Problem| problem.what.key().is_some_and(|of| of == key);
    let problem = left.iter().find(mine).copied();
    if let Some(problem) = problem {
        left.retain(|other| !core::ptr::eq(*other, problem));
    }
    let problem = problem.map(|problem| said(problem, words));
    let value = values.get(&key).cloned().unwrap_or_default();
    let value = match (kind, value.as_str()) {
        ("word", "true") => "yes".to_owned(),
        ("word", "false") => "no".to_owned(),
        _ => value,
    };
    let first = first || !value.is_empty() || problem.is_some();
    Some(Row { key, means, kind, value, options, allowed, example, first, problem })
}

/// What the field of a key means, in words.
pub fn means(key: &str, words: &Words) -> String {
    words.say(&format!("field.{}", row_of(key))).to_owned()
}

/// The key that stands for that of every guy in string files and tables.
fn row_of(key: &str) -> String {
    match key.strip_prefix("guy.").and_then(|rest| rest.split_once('.')) {
        Some((_, name)) => format!("guy.N.{name}"),
        None => key.to_owned(),
    }
}

/// A problem in words.
pub fn said(problem: &Problem, words: &Words) -> Said {
    let said = problem.said(words);
    Said { error: problem.severity == Severity::Error, message: said.message, hint: said.hint }
}
