//! A question as it stands on a sheet, with room for the answer.

use super::{Asked, list};
use crate::markup::escaped;
use crate::question::{filled, named, still, value_of};
use crate::words::of_questions;
use outlean_course::{Drawn, Question, Template, Text, answered_in, part_asked, shown};
use outlean_picture::Words;
use outlean_rig::{Dimension, Rig};
use outlean_rigfile::{Units, choice, field};
use std::sync::OnceLock;

/// Where an answer goes.
const LINE: &str = "<span class=\"line\"></span>";
/// What is ticked.
const BOX: &str = "<span class=\"box\"></span>";

/// What a rig is told by, in words beside its picture, where the rig has it.
const TOLD: [&str; 13] = [
    "legs.length",
    "legs.lashing_below_tip",
    "legs.weight",
    "feet.spread",
    "lean",
    "load.mass",
    "line.path",
    "line.operation",
    "line.sling",
    "aft.setback",
    "aft.rise",
    "aft.rope_allowable",
    "aft.holdfast_allowable",
];

/// What is asked of an estimate, as HTML, its gaps filled from the drawn rig.
fn gaps(asks: &str, rig: &Rig) -> String {
    let filled = Text::read(asks).ok().and_then(|text| text.filled(rig).ok());
    filled.map_or_else(|| asks.to_owned(), |text| shown(&text, Units::Metric, &|_, word| word.to_owned()))
}

/// The question.
pub fn question(asked: &Asked<'_>, drawn: &Drawn, number: u32) -> String {
    let asks = match (&asked.asks, drawn) {
        (Some(asks), Drawn::Estimate(Question { rig, .. })) => gaps(asks, rig),
        (Some(asks), _) => asks.clone(),
        (None, Drawn::Estimate(Question { rig, ask, .. })) => {
            let part = of_questions().say(part_asked(rig, *ask));
            let force = answered_in(*ask) == Some(Dimension::Force);
            let key = if force { "sheet.ask.force" } else { "sheet.ask.length" };
            escaped(&of_questions().fill(key, &[("part", part)]))
        }
        (None, _) => String::new(),
    };
    let mut put = format!("<p class=\"asks\">{asks}</p>\n");
    if let Some(rig) = drawn.rig() {
        // A list of readings is all there is to find faults by.
        if !matches!(drawn, Drawn::Faults(_)) {
            put += &picture(rig, number);
            put += &told(rig, &asked.template);
        }
    }
    put += &match drawn {
        Drawn::Estimate(_) => {
            format!("<p>{}: {LINE}</p>\n", escaped(of_questions().say("sheet.answer")))
        }
        Drawn::Choose(choose) => {
            list("ul", "tick", choose.options.iter().map(|option| format!("{BOX}{}", filled(&option.says))))
        }
        Drawn::Faults(faults) => {
            list("ul", "tick", faults.items.iter().map(|item| format!("{BOX}{}", filled(&item.says))))
        }
        Drawn::Order(order) => {
            list("ul", "tick", order.says.iter().map(|says| format!("{BOX}{}", escaped(says))))
        }
        Drawn::Set(set) => {
            let moves = set
                .may
                .iter()
                .map(|span| format!("{}: {LINE}", escaped(&named(&span.field, of_questions()))));
            still(drawn, of_questions()) + &list("ul", "plain", moves)
        }
    };
    put
}

/// The rig's picture; its patterns are named apart from those of other pictures on the sheet.
fn picture(rig: &Rig, number: u32) -> String {
    static WORDS: OnceLock<Words> = OnceLock::new();
    let words = WORDS.get_or_init(|| {
        serde_json::from_str(include_str!("../../../../www/strings/en/picture.json")).unwrap_or_default()
    });
    let svg = crate::still::side_view(rig, words, false).unwrap_or_default();
    let svg =
        svg.replace("\"hatch", &format!("\"q{number}-hatch")).replace("#hatch", &format!("#q{number}-hatch"));
    format!("<figure>{svg}</figure>\n")
}

/// The rig in words and numbers: what every rig is told by, and what varies in this question.
fn told(rig: &Rig, template: &Template) -> String {
    use outlean_course::{ChooseTemplate, EstimateTemplate, SetTemplate, Vary};
    let varied: Vec<&str> = match template {
        Template::Estimate(EstimateTemplate { vary, .. }) => vary
            .iter()
            .filter_map(|vary| if let Vary::Number(span) = vary { Some(span.field.as_str()) } else { None })
            .collect(),
        Template::Choose(ChooseTemplate { vary, .. }) | Template::Set(SetTemplate { vary, .. }) => {
            vary.iter().map(|span| span.field.as_str()).collect()
        }
        Template::Faults(_) | Template::Order(_) => Vec::new(),
    };
    let also = varied.into_iter().filter(|key| !TOLD.contains(key));
    let row = |key: &str| {
        let value = match (choice(key), field(key)) {
            (Some(choice), _) => {
                let word = choice.get(rig)?;
                of_questions().get(&format!("told.{key}.{word}")).unwrap_or(word).to_owned()
            }
            (None, Some(field)) => value_of(key, field.get(rig)?),
            (None, None) => return None,
        };
        Some(format!(
            "<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n",
            escaped(&named(key, of_questions())),
            escaped(&value)
        ))
    };
    let rows: String = TOLD.into_iter().chain(also).filter_map(row).collect();
    format!("<table>\n<caption>{}</caption>\n{rows}</table>\n", escaped(of_questions().say("sheet.rig")))
}
