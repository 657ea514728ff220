//! Questions in a page: an element each, with its template as data and, until its program runs and where it cannot, the
//! question that seed 1 draws.

use crate::lesson::{EstimateBlock, QuestionBlock, inline};
use crate::markup::{data, escaped, flat};
use crate::words::words;
use outlean_course::{
    About, Atom, BuildStep, Claim, Condition, Drawn, Faults, Filled, Ground, Item, Order, Put, Set, Span,
    Statement, Template, Vary, asking, shown,
};
use outlean_rigfile::{Units, Words, field, measured};
use serde_json::{Map, Value, json};

/// The seed of the question that stands there as a still.
const STILL: u64 = 1;

/// The element of a question for an objective.
pub fn element(block: &QuestionBlock, objective: &str, words: &Words) -> String {
    let kind = block.template.kind();
    let figure =
        block.figure.as_ref().map(|name| format!(" figure=\"{}\"", escaped(name))).unwrap_or_default();
    let id = escaped(block.template.id());
    // Tried on this seed when the lesson was read.
    let still = block.template.draw(STILL).map(|drawn| still(&drawn, words)).unwrap_or_default();
    format!(
        "<outlean-{kind} id=\"{id}\"{figure} objective=\"{}\">{}<p class=\"asks\">{}</p>\n{still}{}</outlean-{kind}>\n",
        escaped(objective),
        data(&template(block)),
        asks(block, words),
        besides(&block.about, words),
    )
}

/// The element of an estimate for an objective; `still` stands in it where the program does not run.
pub fn estimate(block: &EstimateBlock, objective: &str, still: &str, words: &Words) -> String {
    format!(
        "<outlean-estimate id=\"{}\" figure=\"{}\" objective=\"{}\">{}<p class=\"asks\">{}</p>\n{}</outlean-estimate>\n",
        escaped(&block.template.id),
        escaped(&block.figure),
        escaped(objective),
        data(&estimate_template(block)),
        escaped(still),
        besides(&block.about, words),
    )
}

/// Hint, explanation and source, as HTML.
fn besides(about: &About, words: &Words) -> String {
    let said = |class: &str, key: &str, text: &str| {
        let (heading, text) = (escaped(words.say(key)), inline::html(text));
        format!("<details class=\"{class}\"><summary>{heading}</summary><p>{text}</p></details>\n")
    };
    let source = words.fill("question.source", &[("source", &about.source)]);
    format!(
        "{}{}<p class=\"source\">{}</p>",
        said("hint", "question.help", &about.hint),
        said("explanation", "question.explanation", &about.explanation),
        inline::html(&source),
    )
}

/// What is asked, as HTML.
pub fn asks(block: &QuestionBlock, words: &Words) -> String {
    match (&block.asks, &block.template) {
        (Some(asks), _) => inline::html(asks),
        (None, Template::Choose(choose)) if choose.one => escaped(words.say("choose.prompt.one")),
        (None, template) => escaped(words.say(&format!("{}.prompt", template.kind()))),
    }
}

/// A filled text as HTML, in metric units.
pub fn filled(text: &[Filled]) -> String {
    escaped(&shown(text, Units::Metric, &|_, word| word.to_owned()))
}

/// The name of a field or choice in words, those of questions where they have one.
pub fn named(key: &str, questions: &Words) -> String {
    if let Some(short) = questions.get(&format!("told.{key}")) {
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
    field(key).map(|field| measured(value, field.dimension(), Units::Metric).to_string()).unwrap_or_default()
}

/// What a question shows of itself before it is answered, in `questions`, words of questions.
pub fn still(drawn: &Drawn, questions: &Words) -> String {
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
                    let name = named(&span.field, questions);
                    escaped(&questions.fill("set.from_to", &[("name", &name), ("from", &from), ("to", &to)]))
                })
                .collect();
            let may = escaped(questions.say("set.may"));
            format!("{}<p>{may}</p>\n{}", list("ul", "until", conditions), list("ul", "may", moves))
        }
    }
}

/// What is said of an entry after the mark, as HTML.
fn html(because: &Option<String>) -> Option<String> {
    because.as_deref().map(inline::html)
}

/// A question's template as pages read it: claims as their atoms, texts as they are written, what is said after the mark as
/// HTML, its rig by the keys of the field table.
pub fn template(block: &QuestionBlock) -> Value {
    let template = &block.template;
    let mut all = match template {
        Template::Estimate(_) => Map::new(),
        Template::Choose(choose) => {
            let statement = |statement: &Statement| {
                let mut all =
                    object(json!({ "says": statement.says.written(), "because": html(&statement.because) }));
                match &statement.ground {
                    Ground::Claim(claim) => all.insert("claim".into(), atoms(claim)),
                    Ground::Fact { holds, .. } => all.insert("fact".into(), (*holds).into()),
                };
                Value::Object(all)
            };
            let statements: Vec<Value> = choose.statements.iter().map(statement).collect();
            object(
                json!({ "rig": flat(&choose.rig), "vary": choose.vary, "one": choose.one, "statements": statements }),
            )
        }
        Template::Order(order) => {
            let step = |step: &BuildStep| json!({ "id": step.id, "says": step.says, "after": step.after, "because": html(&step.because) });
            object(json!({ "steps": order.steps.iter().map(step).collect::<Vec<_>>() }))
        }
        Template::Faults(faults) => {
            let item = |item: &Item| json!({ "says": item.says.written(), "sound": atoms(&item.sound), "because": html(&item.because) });
            let put = |put: &Put| match put {
                Put::Number(key, value) => (key.clone(), Value::from(*value)),
                Put::Word(key, word) => (key.clone(), word.clone().into()),
            };
            let items: Vec<Value> = faults.items.iter().map(item).collect();
            let planted: Vec<Value> =
                faults.faults.iter().map(|each| each.set.iter().map(put).collect()).collect();
            let (least, most) = (faults.least, faults.most);
            object(json!({
                "rig": flat(&faults.rig), "vary": faults.vary, "items": items, "faults": planted, "least": least, "most": most
            }))
        }
        Template::Set(set) => {
            let condition = |each: &Condition| json!({ "claim": atoms(&each.claim), "says": each.says });
            let until: Vec<Value> = set.until.iter().map(condition).collect();
            object(json!({ "rig": flat(&set.rig), "vary": set.vary, "until": until, "may": set.may }))
        }
    };
    all.insert("id".into(), template.id().into());
    all.insert("kind".into(), template.kind().into());
    Value::Object(all)
}

/// An estimate's template as pages read it.
pub fn estimate_template(block: &EstimateBlock) -> Value {
    let template = &block.template;
    let span = |vary: &Vary| match vary {
        Vary::Number(Span { field, least, most, step, units }) => {
            Some(json!({ "field": field, "least": least, "most": most, "step": step, "units": units }))
        }
        Vary::Sides => None,
    };
    json!({
        "id": template.id,
        "kind": "estimate",
        "rig": flat(&template.rig),
        "ask": asking(template.ask),
        "asks": block.asks,
        "tolerance": template.tolerance.relative,
        "answer": [template.answer.least, template.answer.most],
        "slips": template.slips.iter().map(|slip| slip.name()).collect::<Vec<_>>(),
        "vary": template.vary.iter().filter_map(span).collect::<Vec<_>>(),
        "sides": template.vary.contains(&Vary::Sides),
    })
}

fn object(value: Value) -> Map<String, Value> {
    if let Value::Object(object) = value { object } else { Map::new() }
}

fn atoms(claim: &Claim) -> Value {
    let atom = |atom: Atom| match atom {
        Atom::Number(number) => Value::from(number),
        Atom::Word(word) => word.into(),
    };
    claim.atoms().into_iter().map(atom).collect()
}
