//! The view as the page is told it.

use crate::message::{Plain, list};
use crate::view::{ChoiceView, Named, Piece, Row, SliderView, View};
use crate::working::{Value, Working};
use outlean_course::Step;
use outlean_picture::Words;
use outlean_rigfile::Units;
use wasm_bindgen::JsValue;

/// The view as a plain object; `www/engine.js` says its form.
pub fn view(view: &View) -> JsValue {
    let verdict = Plain::new()
        .put("sign", view.verdict.sign.name())
        .put("is", view.verdict.is.as_str())
        .put("why", view.verdict.why.as_str());
    Plain::new()
        .put("sentence", list(&view.sentence, piece))
        .put("sentence_text", view.sentence_text.as_str())
        .put("verdict", verdict)
        .put("covers", view.covers.as_str())
        .put("sliders", list(&view.sliders, slider))
        .put("choices", list(&view.choices, choice))
        .put("rows", list(&view.rows, row))
        .put("more", list(&view.more, named))
        .put("veiled", view.veiled)
        .put("playing", view.playing)
        .put("reduced", view.reduced)
        .put("slow", view.slow)
        .put("halted", view.halted)
        .put("undo", view.steps.0)
        .put("redo", view.steps.1)
        .into()
}

fn piece(piece: &Piece) -> JsValue {
    let (kind, is) = match piece {
        Piece::Text(text) => ("text", text),
        Piece::Slider(key) => ("slider", key),
        Piece::Choice(key) => ("choice", key),
    };
    Plain::new().put("kind", kind).put("is", is.as_str()).into()
}

fn slider(slider: &SliderView) -> JsValue {
    Plain::new()
        .put("key", slider.key)
        .put("name", slider.name.as_str())
        .put("text", slider.text.as_str())
        .put("spoken", slider.spoken.as_str())
        .put("now", slider.now)
        .put("least", slider.least)
        .put("most", slider.most)
        .put("page", slider.page)
        .into()
}

fn choice(choice: &ChoiceView) -> JsValue {
    let option = |(word, name): &(String, String)| list([word, name], |text| text.as_str().into());
    Plain::new()
        .put("key", choice.key.as_str())
        .put("name", choice.name.as_str())
        .put("now", choice.now.as_str())
        .put("options", list(&choice.options, option))
        .into()
}

fn row(row: &Row) -> JsValue {
    Plain::new()
        .put("key", row.key.as_str())
        .put("name", row.name.as_str())
        .put("carries", row.carries.as_str())
        .put("allowable", row.allowable.as_str())
        .put("used", row.used.as_str())
        .put_some("ratio", row.ratio)
        .put("governs", row.governs)
        .put("demand", row.demand)
        .into()
}

/// A step of a worked solution.
pub fn step(step: &Step, words: &Words, units: Units) -> JsValue {
    Plain::new()
        .put("name", words.say(&format!("step.{}", step.key)))
        .put("mathml", step.mathml(units))
        .put("plain", step.plain(units))
        .into()
}

/// The working behind a number.
pub fn working(working: &Working, words: &Words, units: Units) -> JsValue {
    let texts = |all: &[String]| list(all, |text| text.as_str().into());
    let value = |value: &Value| {
        Plain::new()
            .put("name", value.name.as_str())
            .put("written", value.written)
            .put("value", value.value.as_str())
            .into()
    };
    Plain::new()
        .put("heading", working.heading.as_str())
        .put("steps", list(&working.steps, |each| step(each, words, units)))
        .put("said", texts(&working.said))
        .put("values", list(&working.values, value))
        .put("rule", texts(&working.rule))
        .into()
}

fn named(named: &Named) -> JsValue {
    Plain::new()
        .put("key", named.key)
        .put("name", named.name.as_str())
        .put("value", named.value.as_str())
        .into()
}
