//! Questions in a page: an element each, with its template as data and, until its program runs and where it cannot, the
//! question that seed 1 draws.

use crate::lesson::{QuestionBlock, inline};
use crate::page::{data, escaped, flat};
use crate::words::{of_questions, words};
use outlean_course::{Drawn, Faults, Filled, Order, Set, Template, shown};
use outlean_rigfile::{Units, field, show};
use serde_json::{Map, Value, json};

/// The seed of the question that stands there as a still.
const STILL: u64 = 1;

/// The element of a question.
pub fn element(block: &QuestionBlock) -> String {
    let kind = block.template.kind();
    let figure =
        block.figure.as_ref().map(|name| format!(" figure=\"{}\"", escaped(name))).unwrap_or_default();
    let id = escaped(block.template.id());
    // Tried on this seed when the lesson was read.
    let still = block.template.draw(STILL).map(|drawn| still(&drawn)).unwrap_or_default();
    let said = |class: &str, key: &str, text: &str| {
        let (heading, text) = (escaped(of_questions().say(key)), inline::html(text));
        format!("<details class=\"{class}\"><summary>{heading}</summary><p>{text}</p></details>\n")
    };
    let about = &block.about;
    let source = of_questions().fill("question.source", &[("source", &about.source)]);
    format!(
        "<outlean-{kind} id=\"{id}\"{figure}>{}<p class=\"asks\">{}</p>\n{still}{}{}<p class=\"source\">{}</p></outlean-{kind}>\n",
        data(&template(block)),
        asks(block),
        said("hint", "question.hint", &about.hint),
        said("explanation", "question.explanation", &about.explanation),
        inline::html(&source),
    )
}

/// What is asked, as HTML.
pub fn asks(block: &QuestionBlock) -> String {
    match (&block.asks, &block.template) {
        (Some(asks), _) => inline::html(asks),
        (None, Template::Choose(choose)) if choose.one => escaped(of_questions().say("choose.prompt.one")),
        (None, template) => escaped(of_questions().say(&format!("{}.prompt", template.kind()))),
    }
}

/// A filled text as HTML, in metric units.
pub fn filled(text: &[Filled]) -> String {
    escaped(&shown(text, Units::Metric, &|_, word| word.to_owned()))
}

/// The name of a field or choice in words.
pub fn named(key: &str) -> String {
    if let Some(short) = of_questions().get(&format!("told.{key}")) {
        return short.to_owned();
    }
    let row = |name: &str| words().say(&format!("field.guy.N.{name}")).to_owned();
    match key.split_once('.') {
        Some(("aft", name)) => format!("aft guy: {}", row(name)),
        Some(("fore", name)) => format!("fore guy: {}", row(name)),
        _ => words().say(&format!("field.{key}")).to_owned(),
    }
}

/// A value of a field as people read it.
pub fn value_of(key: &str, value: f64) -> String {
    field(key).map(|field| show(value, field.dimension(), Units::Metric).to_string()).unwrap_or_default()
}

/// What a question shows of itself before it is answered.
pub fn still(drawn: &Drawn) -> String {
    let list = |tag: &str, class: &str, items: Vec<String>| {
        let items: String = items.iter().map(|item| format!("<li>{item}</li>\n")).collect();
        format!("<{tag} class=\"{class}\">\n{items}</{tag}>\n")
    };
    match drawn {
        Drawn::Estimate(_) => String::new(),
        Drawn::Choose(choose) => {
            list("ul", "options", choose.options.iter().map(|option| filled(&option.says)).collect())
        }
        Drawn::Order(Order { says, .. }) => {
            list("ul", "steps", says.iter().map(|says| escaped(says)).collect())
        }
        Drawn::Faults(Faults { items, .. }) => {
            list("ul", "readings", items.iter().map(|item| filled(&item.says)).collect())
        }
        Drawn::Set(Set { until, may, .. }) => {
            let conditions = until.iter().map(|condition| escaped(&condition.says)).collect();
            let moves = may
                .iter()
                .map(|span| {
                    let (from, to) = (value_of(&span.field, span.least), value_of(&span.field, span.most));
                    let name = named(&span.field);
                    escaped(
                        &of_questions().fill("set.from_to", &[("name", &name), ("from", &from), ("to", &to)]),
                    )
                })
                .collect();
            let may = escaped(of_questions().say("set.may"));
            format!("{}<p>{may}</p>\n{}", list("ul", "until", conditions), list("ul", "may", moves))
        }
    }
}

/// A question's template as pages read it: what the core's template says, its rig by the keys of the field table.
pub fn template(block: &QuestionBlock) -> Value {
    let (inner, rig) = match &block.template {
        Template::Estimate(template) => (serde_json::to_value(template), Some(&template.rig)),
        Template::Choose(template) => (serde_json::to_value(template), Some(&template.rig)),
        Template::Order(template) => (serde_json::to_value(template), None),
        Template::Faults(template) => (serde_json::to_value(template), Some(&template.rig)),
        Template::Set(template) => (serde_json::to_value(template), Some(&template.rig)),
    };
    // Nothing in a template cannot be written as JSON.
    let mut all = match inner {
        Ok(Value::Object(all)) => all,
        _ => Map::new(),
    };
    if let Some(rig) = rig {
        all.insert("rig".into(), flat(rig));
    }
    let about = &block.about;
    all.insert(
        "about".into(),
        json!({
            "asks": block.asks,
            "objective": about.objective,
            "level": about.level,
            "hint": about.hint,
            "explanation": about.explanation,
            "source": about.source,
        }),
    );
    all.insert("kind".into(), block.template.kind().into());
    all.insert("still".into(), STILL.into());
    Value::Object(all)
}
