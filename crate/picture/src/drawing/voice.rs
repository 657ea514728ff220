//! What is said in a picture: words of keys, numbers in the reader's units.

use crate::{Kind, Lettering, Row, Tone, Words};
use outlean_rig::Dimension;
use outlean_rigfile::{Units, show};

/// The words and the units of a picture.
#[derive(Clone, Copy)]
pub(crate) struct Voice<'a> {
    pub words: &'a Words,
    pub units: Units,
}

impl Voice<'_> {
    /// The words of a key.
    #[inline(never)]
    pub(crate) fn say(&self, key: &str) -> String {
        self.words.say(key).to_owned()
    }

    /// A number with its unit.
    #[inline(never)]
    pub(crate) fn shown(&self, value: f64, dimension: Dimension) -> String {
        show(value, dimension, self.units).to_string()
    }

    /// The words of a key with a number in their one place.
    #[inline(never)]
    pub(crate) fn fill(&self, key: &str, place: &str, value: f64, dimension: Dimension) -> String {
        self.words.fill(key, &[(place, &self.shown(value, dimension))])
    }

    /// The rows of a force: its name and its size.
    #[inline(never)]
    pub(crate) fn force(&self, name: String, newtons: f64, kind: Kind) -> Vec<Row> {
        let tone = if kind == Kind::Load { Tone::Ink } else { Tone::Of(kind) };
        let value = self.shown(newtons, Dimension::Force);
        vec![Row::new(name, Lettering::Name, tone), Row::new(value, Lettering::Value, tone)]
    }
}
