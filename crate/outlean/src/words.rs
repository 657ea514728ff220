//! The words of this program.

use outlean_rigfile::Words;
use std::collections::BTreeMap;
use std::sync::OnceLock;

/// The words, from the string files that it was built with.
pub fn words() -> &'static Words {
    static WORDS: OnceLock<Words> = OnceLock::new();
    WORDS.get_or_init(|| read(&STRINGS))
}

/// The words of questions, which speak of parts in their own way.
pub fn of_questions() -> &'static Words {
    static WORDS: OnceLock<Words> = OnceLock::new();
    WORDS.get_or_init(|| read(&QUESTIONS))
}

/// Without words their keys are shown; a test holds that the files can be read.
fn read(texts: &[&str]) -> Words {
    let read = |text: &&str| serde_json::from_str::<BTreeMap<String, String>>(text).unwrap_or_default();
    Words::new(texts.iter().flat_map(read))
}

const STRINGS: [&str; 3] = [
    include_str!("../../../www/strings/en/native.json"),
    include_str!("../../../www/strings/en/plan.json"),
    include_str!("../../../www/strings/en/working.json"),
];

const QUESTIONS: [&str; 2] = [
    include_str!("../../../www/strings/en/question.json"),
    include_str!("../../../www/strings/en/questions.json"),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_string_files_can_be_read() {
        for text in STRINGS.into_iter().chain(QUESTIONS) {
            let read: Result<Words, _> = serde_json::from_str(text);
            assert!(read.is_ok_and(|words| words.keys().count() > 50));
        }
    }
}
