//! A plan in words: sections of lines that a page sets and a terminal prints, the same in both.

mod answer;
mod beside;
mod briefing;
mod ground;
mod lists;
mod sheet;

pub use beside::compared_said;
pub(crate) use ground::mark_said;

use crate::{Plan, Voice};
use outlean_rig::Rig;
use serde::Serialize;

/// A heading and what stands under it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Section {
    /// Its name, for a page to set it by.
    pub key: &'static str,
    /// Its heading.
    pub heading: String,
    /// Its lines.
    pub lines: Vec<Line>,
}

/// One line.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Line {
    /// The one that says it all.
    Lead(String),
    /// A sentence.
    Text(String),
    /// One of a list.
    Point(String),
    /// One of a list, with a box to tick.
    Box(String),
    /// Everything stops here until it is signed.
    Hold(String),
    /// The head of a table.
    Head(Vec<String>),
    /// A row of the table whose head stands above it.
    Row(Vec<String>),
}

/// What is said of a plan.
#[derive(Clone, Copy, Debug)]
pub struct Saying<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// Its rig.
    pub rig: &'a Rig,
    /// Words, units and names of guys.
    pub voice: Voice<'a>,
}

impl Saying<'_> {
    /// The whole plan, in the order in which it is read.
    #[must_use]
    pub fn sections(&self) -> Vec<Section> {
        let mut all = vec![self.occasion(), self.verdict(), self.range(), self.limits()];
        all.extend(self.stretching());
        all.extend(self.proposals());
        all.extend(self.rules());
        if self.plan.advice.may_be_built() {
            all.extend([
                self.pacing(),
                self.cut(),
                self.build(),
                self.inspection(),
                self.crew(),
                self.briefing(),
            ]);
            all.extend(self.uncertainty());
            all.push(self.as_built());
        } else {
            // Nobody is handed a list by which to build what is not to be built.
            all.extend(self.uncertainty());
            all.push(self.section("build", vec![Line::Text(self.voice.say("plan.no_lists"))]));
        }
        all.retain(|section| !section.lines.is_empty());
        all
    }

    fn section(&self, key: &'static str, lines: Vec<Line>) -> Section {
        Section { key, heading: self.voice.say(&format!("plan.heading.{key}")), lines }
    }

    fn text(&self, key: &str, places: &[(&str, &str)]) -> Line {
        Line::Text(self.voice.fill(key, places))
    }
}
