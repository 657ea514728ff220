//! Words for what is told.

use outlean_rigfile::Words;
use std::collections::BTreeMap;
use std::sync::OnceLock;

/// The string files that a problem, a plan and a figure are told by.
const TEXTS: [&str; 8] = [
    include_str!("../../../www/strings/en/native.json"),
    include_str!("../../../www/strings/en/plan.json"),
    include_str!("../../../www/strings/en/planner.json"),
    include_str!("../../../www/strings/en/picture.json"),
    include_str!("../../../www/strings/en/page.json"),
    include_str!("../../../www/strings/en/question.json"),
    include_str!("../../../www/strings/en/questions.json"),
    include_str!("../../../www/strings/en/working.json"),
];

/// Their words, by key.
pub fn pairs() -> &'static BTreeMap<String, String> {
    static PAIRS: OnceLock<BTreeMap<String, String>> = OnceLock::new();
    let read = |text: &&str| serde_json::from_str::<BTreeMap<String, String>>(text).expect("words");
    PAIRS.get_or_init(|| TEXTS.iter().flat_map(read).collect())
}

/// All of them.
pub fn words() -> &'static Words {
    static WORDS: OnceLock<Words> = OnceLock::new();
    WORDS.get_or_init(|| Words::new(pairs().clone()))
}
