//! The words of this program.

use outlean_rigfile::Words;
use std::sync::OnceLock;

/// The words, from the string file that the program was built with.
pub fn words() -> &'static Words {
    static WORDS: OnceLock<Words> = OnceLock::new();
    // Without words their keys are shown; a test holds that the file can be read.
    WORDS.get_or_init(|| serde_json::from_str(STRINGS).unwrap_or_default())
}

const STRINGS: &str = include_str!("../../../www/strings/en/native.json");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_string_file_can_be_read() {
        let read: Result<Words, _> = serde_json::from_str(STRINGS);
        assert!(read.is_ok_and(|words| words.keys().count() > 100));
    }
}
