//! The planning page: the element, and the sites that come with it as examples.

use crate::markup::data;
use crate::page::Shell;
use serde_json::{Value, json};

/// Invented sites of different character, as rig files.
const SITES: [&str; 5] = [
    include_str!("../sites/slate-bench.toml"),
    include_str!("../sites/mill-race.toml"),
    include_str!("../sites/peat-bank.toml"),
    include_str!("../sites/sea-stairs.toml"),
    include_str!("../sites/lock-wall.toml"),
];

/// The page.
pub fn page(shell: &Shell) -> String {
    let title = |text: &str| outlean_rigfile::read(text).0.and_then(|file| file.title).unwrap_or_default();
    let sites: Value = SITES.iter().map(|text| json!({ "title": title(text), "text": text })).collect();
    let body = format!(
        "<script type=\"module\" src=\"{}plan.js\"></script>\n<outlean-plan>{}{}</outlean-plan>\n",
        shell.program("../"),
        data(&sites),
        shell.still("plan_still")
    );
    shell.page("../", "plan", &body)
}
