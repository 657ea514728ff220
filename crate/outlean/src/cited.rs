//! Sources as people read them.

use crate::words::words;
use outlean_rig::strength::{Citation, Seen};
use serde::Serialize;

/// A source, its title, its edition, the place in it, and how it was seen.
#[derive(Serialize)]
pub struct Cited {
    title: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    year: Option<u16>,
    place: &'static str,
    seen: Seen,
}

impl Cited {
    /// The source of a citation.
    pub fn of(citation: Citation) -> Self {
        let Citation { source, seen } = citation;
        let title = words().say(&format!("source.{}", key(&source))).to_owned();
        Self { title, year: source.year(), place: source.place(), seen }
    }

    /// "Title, 2018, Table 4A (second hand)".
    pub fn said(&self) -> String {
        let mut said = self.title.clone();
        if let Some(year) = self.year {
            said = words().fill("source.edition", &[("title", &said), ("year", &year.to_string())]);
        }
        if !self.place.is_empty() {
            said = words().fill("source.place", &[("title", &said), ("place", self.place)]);
        }
        match self.seen {
            Seen::Read | Seen::NotPublished => said,
            Seen::SecondHand => words().fill("source.second_hand", &[("title", &said)]),
            Seen::Memory => words().fill("source.memory", &[("title", &said)]),
        }
    }
}

/// The name of a variant as it stands in keys and in JSON.
pub fn key(variant: &impl Serialize) -> String {
    match serde_json::to_value(variant) {
        Ok(serde_json::Value::String(name)) => name,
        Ok(serde_json::Value::Object(map)) => map.keys().next().cloned().unwrap_or_default(),
        _ => String::new(),
    }
}
