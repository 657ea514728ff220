//! A question of any kind but an estimate, for its element: drawn, put, marked.

pub mod read;

use crate::action::units;
use crate::message::{self, Plain, items, list};
use crate::name::capital;
use outlean_course::{Drawn, Filled, Mark, Response, Sentence, Span, Template, Tick, Unmarked, With, shown};
use outlean_picture::Words;
use outlean_rigfile::{Units, field, measured, measured_so};
use wasm_bindgen::prelude::*;

/// A question, for `<outlean-choose>`, `<outlean-order>`, `<outlean-faults>` and `<outlean-set>`.
#[wasm_bindgen]
pub struct Asked {
    template: Template,
    drawn: Drawn,
    words: Words,
    marked: Option<Mark>,
}

#[wasm_bindgen]
impl Asked {
    /// A question that `seed` draws from a template as the native program writes it.
    ///
    /// # Errors
    ///
    /// What is wrong with the template.
    #[wasm_bindgen(constructor)]
    pub fn new(template: &JsValue, words: &JsValue, seed: u32) -> Result<Asked, JsValue> {
        let template = read::template(template)?;
        let drawn = drawn(&template, seed)?;
        Ok(Self { template, drawn, words: message::words(words), marked: None })
    }

    /// Another question of the same template.
    ///
    /// # Errors
    ///
    /// What is wrong with the template; the question is then as it was.
    pub fn redraw(&mut self, seed: u32) -> Result<(), JsValue> {
        self.drawn = drawn(&self.template, seed)?;
        self.marked = None;
        Ok(())
    }

    /// The rig of the question, SI, by the keys of the field table; `undefined` for an order.
    pub fn rig(&self) -> JsValue {
        self.drawn.rig().map_or(JsValue::UNDEFINED, message::plain_rig)
    }

    /// What is shown of the question: `{ options, from, one, may, example }`: the texts of its list in the order shown,
    /// the number of each in the template, whether one is to be chosen, and of a setting what may be moved, as texts, and
    /// in `example` a setting that holds.
    pub fn view(&self, in_units: &str) -> JsValue {
        let units = units(in_units);
        let text = |text: &str| JsValue::from(text);
        let (options, from) = match &self.drawn {
            Drawn::Choose(choose) => (
                list(&choose.options, |each| self.filled(&each.says, units).into()),
                list(&choose.options, |each| (each.from as u32).into()),
            ),
            Drawn::Order(order) => {
                (list(&order.says, |each| text(each)), list(&order.shown, |from| (*from as u32).into()))
            }
            Drawn::Faults(faults) => (
                list(&faults.items, |each| self.filled(&each.says, units).into()),
                list(0..faults.items.len() as u32, JsValue::from),
            ),
            Drawn::Set(set) => {
                (list(&set.until, |each| text(&each.says)), list(0..set.until.len() as u32, JsValue::from))
            }
            Drawn::Estimate(_) => (JsValue::UNDEFINED, JsValue::UNDEFINED),
        };
        let plain = Plain::new().put("options", options).put("from", from);
        match &self.drawn {
            Drawn::Choose(choose) => plain.put("one", choose.one),
            Drawn::Set(set) => {
                let shown = |key: &str, value: f64| {
                    field(key)
                        .map(|of| measured(value, of.dimension(), units).to_string())
                        .unwrap_or_default()
                };
                let name = |key: &str| self.words.say(&format!("told.{key}")).to_owned();
                let may = list(&set.may, |Span { field, least, most, .. }| {
                    let (name, from, to) = (name(field), shown(field, *least), shown(field, *most));
                    self.words.fill("set.from_to", &[("name", &name), ("from", &from), ("to", &to)]).into()
                });
                let example = list(set.may.iter().zip(&set.example), |(Span { field, .. }, value)| {
                    let (name, value) = (name(field), shown(field, *value));
                    self.words.fill("set.at", &[("name", &name), ("value", &value)]).into()
                });
                plain.put("may", may).put("example", example)
            }
            _ => plain,
        }
        .into()
    }

    /// Marks an answer and locks it in: a list of places as shown, from 0, or the rig as it was left. `{ problem }` where
    /// it cannot be marked.
    pub fn mark(&mut self, answer: &JsValue, in_units: &str) -> JsValue {
        let units = units(in_units);
        let problem = |key: &str| Plain::new().put("problem", self.words.say(key)).into();
        let places = || -> Vec<usize> {
            let all = items(answer, "places").unwrap_or_default();
            all.iter().filter_map(JsValue::as_f64).map(|place| place as usize).collect()
        };
        let response = match &self.drawn {
            Drawn::Choose(_) => Response::Choose(places()),
            Drawn::Order(_) => Response::Order(places()),
            Drawn::Faults(_) => Response::Faults(places()),
            Drawn::Set(_) => match message::rig(answer) {
                Ok(rig) => Response::Set(Box::new(rig)),
                Err(why) => return Plain::new().put("problem", why).into(),
            },
            Drawn::Estimate(_) => return problem("unmarked.other"),
        };
        match self.drawn.mark(&response) {
            Ok(mark) => {
                self.marked = Some(mark);
                self.marked_in(units)
            }
            Err(Unmarked::Nothing) => problem("unmarked.nothing"),
            Err(Unmarked::MoreThanOne(_)) => problem("unmarked.more_than_one"),
            Err(_) => problem("unmarked.other"),
        }
    }

    /// The answer that was locked in, in these units; `null` where none was.
    pub fn marked(&self, in_units: &str) -> JsValue {
        self.marked_in(units(in_units))
    }

    /// One number for all that the seeds from and to draw and how that is marked; 0 where a seed draws nothing.
    pub fn digest(&self, from: u32, to: u32) -> u64 {
        self.template.digest(u64::from(from)..u64::from(to)).unwrap_or(0)
    }

    /// What is right, in the form of an answer: places as shown, from 0, or a rig.
    pub fn solved(&self) -> JsValue {
        match self.drawn.answer() {
            Response::Choose(places) | Response::Order(places) | Response::Faults(places) => {
                list(places, |place| (place as u32).into())
            }
            Response::Set(rig) => message::plain_rig(&rig),
            Response::Estimate(..) => JsValue::UNDEFINED,
        }
    }
}

/// What a seed draws.
fn drawn(template: &Template, seed: u32) -> Result<Drawn, JsValue> {
    template.draw(u64::from(seed)).map_err(|_| undrawn())
}

/// That nothing can be drawn; the build of the course says why.
pub fn undrawn() -> JsValue {
    JsValue::from_str("no rig that was drawn makes a question")
}

impl Asked {
    /// `{ verdict, share, sentences, each }`: of a list what became of each entry, of a setting whether each condition holds.
    fn marked_in(&self, units: Units) -> JsValue {
        let Some(mark) = &self.marked else { return JsValue::NULL };
        let tick = |tick: &Tick| JsValue::from(tick.name());
        let each = match mark {
            Mark::Choose(mark) => list(&mark.each, tick),
            Mark::Faults(mark) => list(&mark.each, tick),
            Mark::Order(mark) => list(mark.too_early.iter().map(|early| early.step as u32), JsValue::from),
            Mark::Set(mark) => list(&mark.each, |each| each.holds.into()),
            Mark::Estimate(_) => return JsValue::NULL,
        };
        Plain::new()
            .put("verdict", mark.verdict())
            .put("share", mark.share())
            .put("sentences", list(mark.said(), |sentence| said(&self.words, sentence, units).into()))
            .put("each", each)
            .into()
    }

    fn filled(&self, text: &[Filled], units: Units) -> String {
        // What has no words of its own is said as rig files write it.
        shown(text, units, &|key, word| {
            let known = [format!("told.{key}.{word}"), format!("choice.{word}")];
            known.iter().find(|key| self.words.has(key)).map_or(word, |key| self.words.say(key)).to_owned()
        })
    }
}

/// A sentence of the course in words.
pub fn said(words: &Words, sentence: &Sentence, units: Units) -> String {
    let fine = sentence.is_fine();
    let fills: Vec<(&str, String)> = sentence
        .fills
        .iter()
        .map(|fill| {
            let value = match &fill.with {
                With::Number(value, dimension) => measured_so(*value, *dimension, units, fine).to_string(),
                With::Word(key) => words.say(key).to_owned(),
                // A field is named, not spelled by its key.
                With::Text(text) if fill.name == "field" => words.say(&format!("told.{text}")).to_owned(),
                With::Text(text) => text.clone(),
            };
            (fill.name, value)
        })
        .collect();
    let borrowed: Vec<(&str, &str)> = fills.iter().map(|(name, value)| (*name, value.as_str())).collect();
    capital(&words.fill(&sentence.key, &borrowed))
}
