//! One estimate question in the page: drawn, locked in, marked, worked out.

use crate::action::units;
use crate::asked::read::spans;
use crate::asked::{said, undrawn};
use crate::message::{self, Plain, at, items, list, number, text};
use crate::name::capital;
use crate::told::step;
use outlean_course::{
    Cause, EstimateTemplate, MarkError, Marked, Question, SlipKind, Template, Text, Tolerance, Vary,
    answered_in, asked, causes, draw, mark, worked,
};
use outlean_picture::Words;
use outlean_rig::{Allowed, Dimension, Layout, Operation};
use outlean_rigfile::{Units, field, show};
use wasm_bindgen::prelude::*;

/// A question for `<outlean-estimate>`.
#[wasm_bindgen]
pub struct Estimate {
    template: EstimateTemplate,
    /// What is asked, as its author puts it.
    asks: Option<String>,
    question: Question,
    words: Words,
    marked: Option<Marked>,
}

#[wasm_bindgen]
impl Estimate {
    /// The question that `seed` draws from `template`, in `words`.
    ///
    /// # Errors
    ///
    /// What is wrong with the template.
    #[wasm_bindgen(constructor)]
    pub fn new(template: &JsValue, words: &JsValue, seed: u32) -> Result<Estimate, JsValue> {
        let asks = at(template, "asks").as_string();
        let template = read_template(template)?;
        let question = draw(&template, u64::from(seed)).map_err(|_| undrawn())?;
        Ok(Self { template, asks, question, words: message::words(words), marked: None })
    }

    /// Another question of the same template.
    ///
    /// # Errors
    ///
    /// What is wrong with the template; the question is then as it was.
    pub fn redraw(&mut self, seed: u32) -> Result<(), JsValue> {
        self.question = draw(&self.template, u64::from(seed)).map_err(|_| undrawn())?;
        self.marked = None;
        Ok(())
    }

    /// The rig of the question, SI, by the keys of the field table.
    pub fn rig(&self) -> JsValue {
        message::plain_rig(&self.question.rig)
    }

    /// The question in words: `{ prompt, label }`.
    pub fn view(&self, in_units: &str) -> JsValue {
        let units = units(in_units);
        Plain::new().put("prompt", self.prompt(units)).put("label", self.label(units)).into()
    }

    /// Marks what was typed, a bare number taken in the units, and locks it in. `{ problem }` where it cannot be
    /// read.
    pub fn mark(&mut self, typed: &str, in_units: &str) -> JsValue {
        let units = units(in_units);
        match mark(&self.question, typed, units) {
            Ok(marked) => {
                let shown = self.shown(&marked, units);
                self.marked = Some(marked);
                shown
            }
            Err(MarkError::Unreadable(why)) => {
                Plain::new().put("problem", said(&self.words, &why.sentence, units)).into()
            }
            Err(_) => Plain::new().put("problem", self.words.say("question.no_answer")).into(),
        }
    }

    /// The right answer in words.
    pub fn solved(&self, in_units: &str) -> String {
        let dimension = answered_in(self.question.ask).unwrap_or(Dimension::Force);
        show(self.question.answer, dimension, units(in_units)).to_string()
    }

    /// One number for all that the seeds from and to draw and how that is marked; 0 where a seed draws nothing.
    pub fn digest(&self, from: u32, to: u32) -> u64 {
        Template::Estimate(self.template.clone()).digest(u64::from(from)..u64::from(to)).unwrap_or(0)
    }

    /// The answer that was locked in, in these units; `null` where none was.
    pub fn marked(&self, in_units: &str) -> JsValue {
        self.marked.as_ref().map_or(JsValue::NULL, |marked| self.shown(marked, units(in_units)))
    }
}

/// A template as the native program writes it.
fn read_template(sent: &JsValue) -> Result<EstimateTemplate, String> {
    let ask = text(sent, "ask")?;
    let ends = items(sent, "answer")?;
    let [Some(least), Some(most)] = [0, 1].map(|end| ends.get(end).and_then(JsValue::as_f64)) else {
        return Err("`answer` must be two numbers".into());
    };
    let mut vary: Vec<Vary> = spans(sent, "vary")?.into_iter().map(Vary::Number).collect();
    if at(sent, "sides").is_truthy() {
        vary.push(Vary::Sides);
    }
    let mut slips = Vec::new();
    for each in items(sent, "slips")? {
        let name = each.as_string().unwrap_or_default();
        let kind = SlipKind::ALL.into_iter().find(|kind| kind.name() == name);
        slips.push(kind.ok_or_else(|| format!("there is no slip `{name}`"))?);
    }
    Ok(EstimateTemplate {
        id: text(sent, "id")?,
        rig: message::rig(&at(sent, "rig"))?,
        vary,
        ask: asked(&ask).ok_or_else(|| format!("nothing is called `{ask}`"))?,
        tolerance: Tolerance { relative: number(sent, "tolerance")?, absolute: 0.0 },
        slips,
        answer: Allowed { least, most },
    })
}

impl Estimate {
    /// A marked answer: `{ verdict, share, sentences, causes, steps, answer }`.
    fn shown(&self, marked: &Marked, units: Units) -> JsValue {
        let question = &self.question;
        let dimension = answered_in(question.ask).unwrap_or(Dimension::Force);
        let causes = causes(&question.rig, question.ask).unwrap_or_default();
        let steps = worked(&question.rig, question.ask).map(|worked| worked.steps).unwrap_or_default();
        let cause = |cause: Cause, value: f64| {
            let texts =
                [self.words.say(cause_key(cause)).to_owned(), show(value, dimension, units).to_string()];
            list(texts, JsValue::from)
        };
        Plain::new()
            .put("verdict", marked.verdict.name())
            .put("share", marked.verdict.share())
            .put("sentences", list(&marked.sentences, |sentence| said(&self.words, sentence, units).into()))
            .put("causes", list(causes, |share| cause(share.cause, share.value)))
            .put("steps", list(&steps, |each| step(each, &self.words, units)))
            .put("answer", marked.answer)
            .into()
    }

    fn prompt(&self, units: Units) -> String {
        let rig = &self.question.rig;
        let shown = |key: &str| {
            let value = field(key).and_then(|field| Some((field.get(rig)?, field.dimension())));
            value.map(|(value, dimension)| show(value, dimension, units).to_string()).unwrap_or_default()
        };
        let working = Layout::of(rig, rig.lean).map_or(0.0, |layout| layout.working_length.left);
        let path =
            outlean_rigfile::choice("line.path").and_then(|choice| choice.get(rig)).unwrap_or_default();
        let operation = match rig.case.operation {
            Operation::Lowering => "choice.lowering",
            Operation::Holding => "choice.holding",
            Operation::Raising => "choice.raising",
        };
        let prompt = if rig.load.mass > 0.0 { "question.prompt" } else { "question.prompt.unloaded" };
        self.words.fill(
            prompt,
            &[
                ("length", &show(working, Dimension::Length, units).to_string()),
                ("spread", &shown("feet.spread")),
                ("lean", &shown("lean")),
                ("setback", &shown("aft.setback")),
                ("load", &shown("load.mass")),
                ("weight", &show(rig.load.tension(), Dimension::Force, units).to_string()),
                ("operation", self.words.say(operation)),
                ("path", self.words.say(&format!("choice.{path}"))),
                ("asks", &self.asks(units)),
            ],
        )
    }

    /// What is asked of the rig, in the author's words, their gaps filled, or by what it is that is asked for.
    fn asks(&self, units: Units) -> String {
        let own = || self.words.fill(self.by_kind("question.asks"), &[("part", self.words.say(self.part()))]);
        let filled = |asks: &str| Text::read(asks).ok()?.filled(&self.question.rig).ok();
        let filled = self.asks.as_deref().and_then(filled);
        filled.map_or_else(own, |text| outlean_course::shown(&text, units, &|_, word| word.to_owned()))
    }

    /// The key of words on a part that carries, or on a length.
    fn by_kind(&self, key: &'static str) -> &'static str {
        match (answered_in(self.question.ask), key) {
            (Some(Dimension::Length), "question.asks") => "question.asks.length",
            (Some(Dimension::Length), "question.label") => "question.label.length",
            _ => key,
        }
    }

    fn part(&self) -> &'static str {
        outlean_course::part_asked(&self.question.rig, self.question.ask)
    }

    fn label(&self, units: Units) -> String {
        let dimension = answered_in(self.question.ask).unwrap_or(Dimension::Force);
        let unit = show(1.0, dimension, units).unit;
        capital(
            &self.words.fill(
                self.by_kind("question.label"),
                &[("unit", unit), ("part", self.words.say(self.part()))],
            ),
        )
    }
}

const fn cause_key(cause: Cause) -> &'static str {
    match cause {
        Cause::Load => "cause.load",
        Cause::LegWeight => "cause.leg_weight",
        Cause::HaulLine => "cause.haul_line",
        Cause::All => "cause.all",
    }
}
