//! Sources as people read them.

use crate::words::words;
use outlean_rig::strength::{Citation, Seen};
use outlean_rigfile::{cited, key_of_variant};
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
        let title = words().say(&format!("source.{}", key_of_variant(&source))).to_owned();
        Self { title, year: source.year(), place: source.place(), seen }
    }

    /// "Title, 2018, Table 4A; second hand".
    pub fn said(citation: Citation) -> String {
        cited(citation, words())
    }
}
