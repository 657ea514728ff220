//! The planning page's program: a rig file that is written field by field, and the plan that comes of it. A module of its
//! own, which only the planning page loads. Text goes in and out, and JSON; what is worked out is `outlean_plan`'s to say, as
//! in `outlean plan`.

mod answer;
mod apply;
mod form;
mod meaning;
mod meant;
mod picture;
mod worked;

use outlean_rig::Rig;
use outlean_rigfile::{Units, Words, edit, with_guy, without_guy};
use wasm_bindgen::prelude::*;
use worked::Worked;

/// The allocator, as in crate/widget.
#[cfg(target_arch = "wasm32")]
#[global_allocator]
static ALLOCATOR: rlsf::SmallGlobalTlsf = rlsf::SmallGlobalTlsf::new();

/// The plan that a new page begins with.
const START: &str = include_str!("start.toml");
/// How many steps back there are.
const STEPS_BACK: usize = 200;

/// A plan that is being written: the text of its rig file, what it was before, what it is read as.
#[wasm_bindgen]
pub struct Planner {
    words: Words,
    /// Those of pictures, which name some things otherwise.
    picture: Words,
    units: Units,
    text: String,
    back: Vec<String>,
    forth: Vec<String>,
    /// The key that is being written: what is typed into one field is one step.
    writing: Option<String>,
    /// A text and the plan that it makes, if it makes one.
    worked: Option<(String, Option<Worked>)>,
    /// The last rig that could be read, to show on it what is asked for while the text makes none.
    seen: Option<Rig>,
}

#[wasm_bindgen]
impl Planner {
    /// A plan to begin with, in the words of string files, those of pictures apart: keys and templates in turn.
    #[wasm_bindgen(constructor)]
    pub fn new(words: Vec<String>, picture: Vec<String>) -> Planner {
        Self {
            words: Words::new(pairs(words)),
            picture: Words::new(pairs(picture)),
            units: Units::Metric,
            text: START.to_owned(),
            back: Vec::new(),
            forth: Vec::new(),
            writing: None,
            worked: None,
            seen: None,
        }
    }

    /// Shows numbers in US units, or in metric ones.
    pub fn show_in(&mut self, us: bool) {
        self.units = if us { Units::Us } else { Units::Metric };
    }

    /// The text that a new plan begins with.
    pub fn start(&self) -> String {
        START.to_owned()
    }

    /// The text of the rig file as it stands.
    pub fn text(&self) -> String {
        self.text.clone()
    }

    /// Takes another rig file, whatever is wrong in it; one step, to be undone as others are.
    pub fn open(&mut self, text: &str) {
        self.put(text.to_owned());
    }

    /// Writes `value` at a key, nothing for an empty one; every other byte stays. Whether there is a place for it: not in a
    /// file that is no TOML. Values written at one key until [`Self::rest`] are one step.
    pub fn set(&mut self, key: &str, value: &str) -> bool {
        let value = value.trim();
        match edit(&self.text, key, (!value.is_empty()).then_some(value)) {
            Ok(text) if self.writing.as_deref() == Some(key) => {
                self.text = text;
                true
            }
            Ok(text) => {
                // What changes nothing, such as a space at its end, begins no step.
                let begins = text != self.text;
                self.put(text);
                self.writing = begins.then(|| key.to_owned());
                true
            }
            Err(_) => false,
        }
    }

    /// Adds a guy of which nothing is said yet, as one step. Its number, counted from 0; none where there is no place for it.
    pub fn add_guy(&mut self) -> Option<usize> {
        let (text, number) = with_guy(&self.text).ok()?;
        self.put(text);
        Some(number)
    }

    /// Takes the guy of that number out, counted from 0, as one step; every byte that is not its own stays. Whether there
    /// was one.
    pub fn take_out_guy(&mut self, number: usize) -> bool {
        without_guy(&self.text, number).map(|text| self.put(text)).is_ok()
    }

    /// Ends what is written at one key: what comes next is another step.
    pub fn rest(&mut self) {
        self.writing = None;
    }

    /// Makes the change that the answer's list of proposals has at a place. Whether it could be written into the file and
    /// does there what it was proposed for; else nothing is changed.
    pub fn propose(&mut self, place: usize) -> bool {
        let proposed = self.work().and_then(|Now { text, worked, .. }| apply::proposed(text, worked, place));
        proposed.map(|text| self.put(text)).is_some()
    }

    /// Goes back by one step, or forth again. Whether there was one.
    pub fn step(&mut self, back: bool) -> bool {
        let (from, onto) =
            if back { (&mut self.back, &mut self.forth) } else { (&mut self.forth, &mut self.back) };
        let Some(text) = from.pop() else { return false };
        self.writing = None;
        onto.push(core::mem::replace(&mut self.text, text));
        true
    }

    /// How many steps there are back and forth.
    pub fn steps(&self) -> Vec<u32> {
        [&self.back, &self.forth].map(|steps| steps.len() as u32).to_vec()
    }

    /// What is asked for, as JSON, in the order in which a site is walked: `form.rs`.
    pub fn form(&self) -> String {
        json(&form::form(&self.text, &self.words, self.units))
    }

    /// What the field of a key measures, as JSON: `meant.rs`; for CSS pixels, and type `k` times as large as on a page. Of a
    /// key of nothing that is measured on the frame, the frame alone.
    pub fn meant(&mut self, key: &str, width: f64, height: f64, k: f64) -> String {
        let plate = meaning::Plate { width, height, k };
        json(&meant::meant(&self.text, key, &mut self.seen, &self.words, plate))
    }

    /// Draws so many more rigs a little off, up to as many as `outlean plan` does; how many are still to be drawn. None of a
    /// text that makes no plan.
    pub fn draw(&mut self, more: u32) -> u32 {
        self.work();
        let worked = self.worked.as_mut().and_then(|(_, worked)| worked.as_mut());
        worked.map_or(0, |worked| worked.draw(more))
    }

    /// What comes of it, as JSON: `answer.rs`; how surely only once all is drawn.
    pub fn answer(&mut self) -> String {
        self.work();
        let worked = self.worked.as_ref().and_then(|(_, worked)| worked.as_ref());
        json(&answer::answer(&self.text, worked, &self.words, self.units))
    }

    /// How surely it holds, as SVG; empty before all is drawn.
    pub fn spread(&mut self, width: f64, dark: bool) -> String {
        let drawn = |now: Now<'_>| picture::spread(now.worked, now.words, now.units, width, dark);
        self.work().and_then(drawn).unwrap_or_default()
    }

    /// This plan beside others, titles and texts of rig files in turn, as JSON: `answer.rs`.
    pub fn beside(&mut self, others: Vec<String>) -> String {
        let others: Vec<_> = pairs(others).collect();
        let laid = |now: Now<'_>| answer::beside(now.worked, &others, now.words, now.units);
        json(&self.work().map(laid).unwrap_or_default())
    }

    /// What was measured, the text of a rig file, beside this plan, as JSON: `answer.rs`.
    pub fn measured(&mut self, text: &str) -> String {
        let laid = |now: Now<'_>| answer::measured(now.worked, text, now.words, now.units);
        json(&self.work().map(laid).unwrap_or_default())
    }

    /// The text of a lesson about this plan, whose file goes beside it as `rig.toml`; empty where it does not stand.
    pub fn lesson(&mut self) -> String {
        let lesson = |Now { worked, words, .. }: Now<'_>| {
            let title = worked.file.title.as_deref().unwrap_or_else(|| words.say("planner.untitled"));
            outlean_plan::lesson_of(&worked.file.rig, title, "from-a-plan")
        };
        self.work().and_then(lesson).unwrap_or_default()
    }

    /// The ground plan to a round scale, for paper of so many millimetres, as SVG;
    /// empty where there is nothing to draw.
    pub fn ground(&mut self, width: f64, height: f64, dark: bool) -> String {
        let drawn = |now: Now<'_>| picture::ground(now.worked, now.words, now.units, (width, height), dark);
        self.work().and_then(drawn).unwrap_or_default()
    }

    /// The side view, for paper `width` by `height` CSS pixels, as SVG; empty where there is nothing to draw.
    pub fn side(&mut self, width: f64, height: f64, dark: bool) -> String {
        let drawn = |now: Now<'_>| picture::side(now.worked, now.picture, now.units, (width, height), dark);
        self.work().and_then(drawn).unwrap_or_default()
    }
}

/// What a plan is spoken of and drawn with.
struct Now<'a> {
    text: &'a str,
    worked: &'a Worked,
    words: &'a Words,
    picture: &'a Words,
    units: Units,
}

impl Planner {
    fn put(&mut self, text: String) {
        self.writing = None;
        if text == self.text {
            return;
        }
        self.forth.clear();
        if self.back.len() == STEPS_BACK {
            self.back.remove(0);
        }
        self.back.push(core::mem::replace(&mut self.text, text));
    }

    /// The plan that the text makes as it stands, worked out where it has changed; `None` where it makes none.
    fn work(&mut self) -> Option<Now<'_>> {
        if self.worked.as_ref().is_none_or(|(text, _)| *text != self.text) {
            self.worked = Some((self.text.clone(), Worked::of(&self.text, &self.words)));
        }
        let worked = self.worked.as_ref()?.1.as_ref()?;
        Some(Now { text: &self.text, worked, words: &self.words, picture: &self.picture, units: self.units })
    }
}

/// What stands in turn, two by two. Nothing is read as JSON here: what reads it prints floats in its errors, which the
/// standard library does at length.
fn pairs(all: Vec<String>) -> impl Iterator<Item = (String, String)> {
    let mut all = all.into_iter();
    core::iter::from_fn(move || Some((all.next()?, all.next()?)))
}

fn json(value: &impl serde::Serialize) -> String {
    serde_json::to_string(value).unwrap_or_default()
}

#[cfg(test)]
mod tests;
