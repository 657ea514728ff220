//! Sentences, words and syllables of English text, by rule of thumb.

use std::ops::Range;

/// Shortened words whose full stop ends no sentence.
const SHORT: [&str; 14] =
    ["ch", "cf", "ed", "e.g", "fig", "figs", "i.e", "no", "nos", "p", "para", "paras", "pp", "vol"];

/// The sentences of a text: up to a stop, a question or an exclamation mark with space and a capital, digit or quote behind it.
pub fn sentences(text: &str) -> Vec<Range<usize>> {
    let mut all = Vec::new();
    let mut begin = 0;
    for (at, mark) in text.char_indices().filter(|(_, letter)| ".!?…".contains(*letter)) {
        let end = at + mark.len_utf8();
        let after = text.get(end..).unwrap_or_default();
        let closed = after.trim_start_matches(['"', '”', '’', '\'', ')']);
        let rest = closed.trim_start();
        let begins = rest
            .chars()
            .next()
            .is_none_or(|next| next.is_uppercase() || next.is_numeric() || "\"“‘'(…√".contains(next));
        let before = text.get(begin..at).unwrap_or_default();
        let last =
            before.rsplit(|letter: char| letter.is_whitespace() || letter == '(').next().unwrap_or_default();
        let short = mark == '.' && SHORT.contains(&last.to_lowercase().as_str());
        if begins && !short && (rest.is_empty() || rest.len() < closed.len()) {
            let end = end + (after.len() - closed.len());
            all.push(trimmed(text, begin..end));
            begin = end;
        }
    }
    all.push(trimmed(text, begin..text.len()));
    all.retain(|sentence| !sentence.is_empty());
    all
}

fn trimmed(text: &str, at: Range<usize>) -> Range<usize> {
    let part = text.get(at.clone()).unwrap_or_default();
    let begin = at.start + (part.len() - part.trim_start().len());
    begin..begin + part.trim().len()
}

/// The words of a text: whatever stands between spaces and has a letter or a digit.
pub fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split_whitespace().filter(|word| word.contains(char::is_alphanumeric))
}

/// The syllables of a word: groups of vowels, without a silent e at its end. What has no letters is one.
pub fn syllables(word: &str) -> usize {
    let letters: String = word.to_lowercase().chars().filter(|letter| letter.is_alphabetic()).collect();
    let vowel = |letter: char| "aeiouyäöüé".contains(letter);
    let (mut groups, mut inside) = (0_usize, false);
    for letter in letters.chars() {
        groups += usize::from(vowel(letter) && !inside);
        inside = vowel(letter);
    }
    let silent =
        |end: &str, but: &[&str]| letters.ends_with(end) && !but.iter().any(|but| letters.ends_with(but));
    let quiet = silent("e", &["le", "ee", "ie", "oe", "ye", "ue"])
        || silent("es", &["ses", "zes", "ces", "ges", "xes", "ches", "shes", "ees", "ies", "les"])
        || silent("ed", &["ted", "ded", "eed", "ied"]);
    (groups - usize::from(quiet && groups > 1)).max(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn split(text: &str) -> Vec<&str> {
        sentences(text).into_iter().map(|at| &text[at]).collect()
    }

    #[test]
    fn sentences_end_where_the_next_begins() {
        assert_eq!(
            split("It holds. Does it? \"Yes!\" she says. See ch. 7, p. 182, of FM 5-125. It is 4.2 m. "),
            [
                "It holds.",
                "Does it?",
                "\"Yes!\" she says.",
                "See ch. 7, p. 182, of FM 5-125.",
                "It is 4.2 m."
            ]
        );
        assert_eq!(
            split("He said \"go.\" They went (at once). Then … stop"),
            ["He said \"go.\"", "They went (at once).", "Then … stop"]
        );
        assert_eq!(split("1.5 kN, e.g. here"), ["1.5 kN, e.g. here"]);
        assert_eq!(split(" "), Vec::<&str>::new());
    }

    #[test]
    fn words_and_syllables() {
        assert_eq!(
            words("It is 4.2 m – no more.").collect::<Vec<_>>(),
            ["It", "is", "4.2", "m", "no", "more."]
        );
        for (word, count) in [
            ("guy", 1),
            ("lashing", 2),
            ("holdfast", 2),
            ("frame", 1),
            ("frames", 1),
            ("pulley", 2),
            ("pulleys", 2),
            ("leaned", 1),
            ("lifted", 2),
            ("table", 2),
            ("edge", 1),
            ("edges", 2),
            ("resultant", 3),
            ("reach", 1),
            ("the", 1),
            ("4.2", 1),
            ("pushes", 2),
        ] {
            assert_eq!(syllables(word), count, "{word}");
        }
    }
}
