//! The key to a question: what is right, why, and of a number every step that leads to it.

use super::{Asked, list};
use crate::lesson::inline;
use crate::markup::escaped;
use crate::question::{filled, named, value_of};
use crate::words::of_questions;
use outlean_course::{
    BuildStep, Drawn, Order, Question, Set, Sides, Statement, Template, Worked, answered_in, part_asked,
    worked,
};
use outlean_rig::Dimension;
use outlean_rigfile::{Units, are_fine, measured_so, percent, show};

/// The key.
pub fn answer(asked: &Asked<'_>, drawn: &Drawn) -> String {
    let right = match (drawn, &asked.template) {
        (Drawn::Estimate(question), _) => estimate(question),
        (Drawn::Choose(choose), Template::Choose(template)) => list(
            "ul",
            "plain",
            choose.options.iter().map(|option| {
                let statement = template.statements.get(option.from);
                let because = statement.and_then(|statement| statement.because.as_deref());
                let cited = statement.and_then(Statement::source);
                let verdict = if option.holds { "question.holds" } else { "question.does_not_hold" };
                entry(&filled(&option.says), verdict, option.sides, because, cited)
            }),
        ),
        (Drawn::Faults(faults), Template::Faults(template)) => list(
            "ul",
            "plain",
            faults.items.iter().zip(&template.items).map(|(read, item)| {
                let verdict = if read.faulty { "question.faulty" } else { "question.sound" };
                entry(&filled(&read.says), verdict, read.sides, item.because.as_deref(), None)
            }),
        ),
        (Drawn::Order(order), Template::Order(template)) => in_order(order, &template.steps),
        (Drawn::Set(set), _) => setting(set),
        // A question is drawn from the template of its kind.
        _ => String::new(),
    };
    let about = asked.about;
    let source = of_questions().fill("question.source", &[("source", &about.source)]);
    format!(
        "{right}<p>{}</p>\n<p class=\"source\">{}</p>\n",
        inline::html(&about.explanation),
        inline::html(&source)
    )
}

/// The two numbers that something hangs on.
fn numbers(sides: Sides) -> [String; 2] {
    let both = [sides.left, sides.right];
    both.map(|value| measured_so(value, sides.dimension, Units::Metric, are_fine(both)).to_string())
}

/// Something that was to be judged, how it stands, what that hangs on, and why.
fn entry(
    says: &str,
    verdict: &str,
    sides: Option<Sides>,
    because: Option<&str>,
    cited: Option<&str>,
) -> String {
    let mut all = format!("{says} <strong>{}</strong>", escaped(of_questions().say(verdict)));
    if let Some(sides) = sides {
        let key = if sides.change { "sheet.changes" } else { "sheet.compares" };
        let [left, right] = numbers(sides);
        all += &format!("<br>{}", escaped(&of_questions().fill(key, &[("left", &left), ("right", &right)])));
    }
    if let Some(because) = because {
        all += &format!("<br>{}", inline::html(because));
    }
    if let Some(cited) = cited {
        let source = of_questions().fill("question.source", &[("source", cited)]);
        all += &format!("<br>{}", inline::html(&source));
    }
    all
}

fn estimate(question: &Question) -> String {
    let dimension = answered_in(question.ask).unwrap_or(Dimension::Ratio);
    let value = |value: f64| show(value, dimension, Units::Metric).to_string();
    let part = of_questions().say(part_asked(&question.rig, question.ask));
    let right = of_questions().fill(
        "sheet.estimate_answer",
        &[
            ("part", part),
            ("answer", &value(question.answer)),
            ("tolerance", &percent(question.tolerance.relative)),
        ],
    );
    let mut all = format!("<p><strong>{}</strong></p>\n", escaped(&right));
    // A question that was drawn can be worked out.
    if let Ok(worked) = worked(&question.rig, question.ask) {
        all += &steps(&worked);
    }
    if !question.slips.is_empty() {
        let slip = |slip: &outlean_course::Slip| {
            escaped(&format!("{}: {}", slip.kind.name().replace('_', " "), value(slip.value)))
        };
        all += &format!("<p>{}</p>\n", escaped(of_questions().say("sheet.slips")));
        all += &list("ul", "plain", question.slips.iter().map(slip));
    }
    all
}

/// A worked solution, each step as a formula and as plain text.
pub fn steps(worked: &Worked) -> String {
    let twin = |words: &str, formula: &str, plain: &str| {
        format!("{}{formula}<span class=\"twin\">{}</span>", escaped(words), escaped(plain))
    };
    let symbol = |symbol: outlean_course::Symbol| {
        let key = serde_json::to_value(symbol).ok().and_then(|name| name.as_str().map(str::to_owned));
        of_questions().say(&format!("symbol.{}", key.unwrap_or_default())).to_owned()
    };
    let given = worked
        .given
        .iter()
        .map(|given| twin(&symbol(given.symbol), &given.mathml(Units::Metric), &given.plain(Units::Metric)));
    let steps = worked.steps.iter().map(|step| {
        let words = of_questions().say(&format!("step.{}", step.key)).to_owned();
        twin(&words, &step.mathml(Units::Metric), &step.plain(Units::Metric))
    });
    format!(
        "<p>{}</p>\n{}{}",
        escaped(of_questions().say("sheet.given")),
        list("ul", "worked", given),
        list("ol", "worked", steps)
    )
}

fn in_order(order: &Order, steps: &[BuildStep]) -> String {
    let says = |id: &str| steps.iter().find(|step| step.id == id).map_or("", |step| step.says.as_str());
    let right = order.right.iter().filter_map(|place| order.says.get(*place)).map(|says| escaped(says));
    let waits = steps.iter().filter(|step| !step.after.is_empty()).map(|step| {
        let first: Vec<&str> = step.after.iter().map(|id| says(id)).collect();
        let said = of_questions().fill("sheet.after", &[("then", &step.says), ("first", &first.join("” “"))]);
        let why = step.because.as_deref().map(|why| format!("<br>{}", inline::html(why)));
        escaped(&said) + &why.unwrap_or_default()
    });
    let heading = |key: &str| format!("<p>{}</p>\n", escaped(of_questions().say(key)));
    heading("sheet.right_order")
        + &list("ol", "plain", right)
        + &heading("sheet.must_wait")
        + &list("ul", "plain", waits)
}

fn setting(set: &Set) -> String {
    let set_to = set.may.iter().zip(&set.example).map(|(span, value)| {
        escaped(&format!("{}: {}", named(&span.field, of_questions()), value_of(&span.field, *value)))
    });
    let heading = escaped(of_questions().say("sheet.one_setting"));
    let mut all = format!("<p>{heading}</p>\n{}", list("ul", "plain", set_to));
    let solved = set.solved();
    let there = set.mark(&solved);
    let sides = set.until.iter().zip(&there.each).filter_map(|(condition, mark)| {
        let sides = mark.sides?;
        let [left, right] = numbers(sides);
        let fills = [("condition", condition.says.as_str()), ("left", &left), ("right", &right)];
        Some(escaped(&of_questions().fill("sheet.sides", &fills)))
    });
    all += &list("ul", "plain", sides);
    all
}
