//! What is said to the learner, as data: the key of a sentence and what fills its gaps.

use outlean_rig::{Dimension, Quantity, Rig, Side};
use outlean_rigfile::{are_fine, first_guy};

/// One sentence: its key in the strings, and what stands in its gaps.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Sentence {
    /// Its key.
    pub key: String,
    /// What may stand in its gaps: `{name}` in the string.
    pub fills: Vec<Fill>,
}

/// What stands in one gap.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Fill {
    /// The name of the gap.
    pub name: &'static str,
    /// What stands there.
    pub with: With,
}

/// What may stand in a gap.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum With {
    /// A number in SI, to be shown in the reader's units.
    Number(f64, Dimension),
    /// A word: its key in the strings.
    Word(&'static str),
    /// Text as it was typed. It is text, never markup.
    Text(String),
}

impl Sentence {
    /// Whether its lengths are shown finely: they are read beside one another, so all of them or none.
    #[must_use]
    pub fn is_fine(&self) -> bool {
        are_fine(self.fills.iter().filter_map(|fill| match fill.with {
            With::Number(value, Dimension::Length) => Some(value),
            _ => None,
        }))
    }

    pub(crate) fn new(key: impl Into<String>) -> Self {
        Self { key: key.into(), fills: Vec::new() }
    }

    pub(crate) fn number(mut self, name: &'static str, value: f64, dimension: Dimension) -> Self {
        self.fills.push(Fill { name, with: With::Number(value, dimension) });
        self
    }

    pub(crate) fn word(mut self, name: &'static str, key: &'static str) -> Self {
        self.fills.push(Fill { name, with: With::Word(key) });
        self
    }

    pub(crate) fn text(mut self, name: &'static str, text: impl Into<String>) -> Self {
        self.fills.push(Fill { name, with: With::Text(text.into()) });
        self
    }
}

/// The key of the word for the part asked for.
#[must_use]
pub fn part(rig: &Rig, ask: Quantity) -> &'static str {
    match ask {
        Quantity::LegCompression(Side::Left) => "part.left_leg",
        Quantity::LegCompression(Side::Right) => "part.right_leg",
        Quantity::GuyTension(number) => {
            if first_guy(rig, outlean_rig::Station::Aft) == Some(number) {
                "part.aft_guy"
            } else if first_guy(rig, outlean_rig::Station::Fore) == Some(number) {
                "part.fore_guy"
            } else {
                "part.guy"
            }
        }
        Quantity::HaulTension => "part.haul_line",
        Quantity::OnHead => "part.sling",
        Quantity::Reach => "part.reach",
        Quantity::HeadHeight => "part.head_height",
        _ => "part.frame",
    }
}
