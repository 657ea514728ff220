//! The words of this program.

use outlean_rigfile::Words;
use std::collections::BTreeMap;
use std::sync::OnceLock;

/// The words, from the string files that it was built with.
pub fn words() -> &'static Words {
    static WORDS: OnceLock<Words> = OnceLock::new();
    // Without words their keys are shown; a test holds that the file can be read.
    WORDS.get_or_init(|| {
        let read = |text: &&str| serde_json::from_str::<BTreeMap<String, String>>(text).unwrap_or_default();
        Words::new(STRINGS.iter().flat_map(read))
    })
}

const STRINGS: [&str; 2] = [
    include_str!("../../../www/strings/en/native.json"),
    include_str!("../../../www/strings/en/working.json"),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_string_files_can_be_read() {
        for text in STRINGS {
            let read: Result<Words, _> = serde_json::from_str(text);
            assert!(read.is_ok_and(|words| words.keys().count() > 100));
        }
    }
}
