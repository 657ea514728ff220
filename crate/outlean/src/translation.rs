//! A lesson in another language, `lang/xx.md` beside its `lesson.md`: the same blocks in the same order, in other words.

use crate::lesson::{Block, Complaint, Lesson, Plate};
use crate::markup::flat;
use crate::question;
use outlean_course::About;
use serde_json::{Map, Value, json};

/// A translation that was read.
pub struct Translation {
    /// Its language, by its code.
    pub language: String,
    /// The folder of the lesson.
    pub name: String,
    /// What it says.
    pub lesson: Lesson,
}

/// Whether this names a language other than that of the originals: two or three small letters.
pub fn is_language(code: &str) -> bool {
    (2..=3).contains(&code.len()) && code.bytes().all(|b| b.is_ascii_lowercase()) && code != "en"
}

/// Where a translation differs from its original in more than words, each with its place in `source`.
pub fn differences(original: &Lesson, other: &Lesson, source: &str) -> Vec<Complaint> {
    let mut all = Vec::new();
    let mut complain = |at: &str, message: String, hint: &str| {
        let start = source.find(at).unwrap_or(0);
        let span = start..start + if start > 0 { at.len() } else { 0 };
        all.push(Complaint { span, message, hint: Some(hint.to_owned()) });
    };
    for (what, own, theirs) in [
        ("objectives", other.objectives.len(), original.objectives.len()),
        ("minutes", other.minutes as usize, original.minutes as usize),
    ] {
        if own != theirs {
            let message = format!("`{what}`: {own} here, {theirs} in lesson.md");
            complain(what, message, "a translation has as many as its original");
        }
    }
    let (wanted, found) = (parts(original), parts(other));
    for (name, _) in &found {
        if wanted.iter().all(|(each, _)| each != name) {
            let message = format!("`{name}` is no figure, build or question of lesson.md");
            complain(
                &quoted(name),
                message,
                "a translation has the blocks of its original, by the same names",
            );
        }
    }
    for (name, fields) in &wanted {
        let Some((_, own)) = found.iter().find(|(each, _)| each == name) else {
            complain(
                "",
                format!("`{name}` of lesson.md is missing"),
                "take the block over and translate its words",
            );
            continue;
        };
        for (field, value) in fields {
            if own.get(field) != Some(value) {
                let message = format!("`{field}` of `{name}` is not as in lesson.md");
                complain(&quoted(name), message, "only words differ: names, numbers, claims and order stay");
            }
        }
    }
    let order = |parts: &[(String, Map<String, Value>)]| -> Vec<String> {
        parts.iter().map(|(name, _)| name.clone()).collect()
    };
    if all.is_empty() && order(&wanted) != order(&found) {
        all.push(Complaint {
            span: 0..0,
            message: "figures and questions do not stand in the order of lesson.md".into(),
            hint: Some(format!("their order there: {}", order(&wanted).join(", "))),
        });
    }
    all
}

fn quoted(name: &str) -> String {
    format!("\"{name}\"")
}

/// Figures and questions by name, with everything in them that is no word.
fn parts(lesson: &Lesson) -> Vec<(String, Map<String, Value>)> {
    let fields = |value: Value, more: Value| {
        let mut all = Map::new();
        for each in [value, more] {
            if let Value::Object(each) = wordless(each) {
                all.extend(each);
            }
        }
        all
    };
    let about = |about: &About, figure: Option<&String>| json!({ "objective": about.objective, "level": about.level, "figure": figure });
    let part = |block: &Block| match block {
        Block::Html(_) => None,
        Block::Figure { name, rig } => Some((name.clone(), fields(json!({ "rig": flat(rig) }), Value::Null))),
        Block::Build(block) => {
            let step = |plate: &Plate| json!({ "draws": plate.draws.name(), "hold": plate.hold.is_some() });
            let steps: Vec<Value> = block.steps.iter().map(step).collect();
            Some((
                block.name.clone(),
                fields(json!({ "rig": flat(&block.rig), "steps": steps }), Value::Null),
            ))
        }
        Block::Estimate(block) => {
            let own = question::estimate_template(block);
            Some((block.template.id.clone(), fields(own, about(&block.about, Some(&block.figure)))))
        }
        Block::Question(block) => {
            let own = question::template(block);
            Some((block.template.id().to_owned(), fields(own, about(&block.about, block.figure.as_ref()))))
        }
    };
    lesson.body.iter().filter_map(part).collect()
}

/// A template without its words.
fn wordless(value: Value) -> Value {
    match value {
        Value::Object(all) => {
            let kept =
                all.into_iter().filter(|(key, _)| !matches!(key.as_str(), "says" | "because" | "asks"));
            Value::Object(kept.map(|(key, value)| (key, wordless(value))).collect())
        }
        Value::Array(all) => all.into_iter().map(wordless).collect(),
        other => other,
    }
}
