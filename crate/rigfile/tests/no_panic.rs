//! No text makes the reader panic, and every problem it tells of stands in the text.

#![expect(clippy::indexing_slicing, reason = "a test that cuts wrongly has failed")]

use outlean_rig::Dimension;
use outlean_rigfile::{Words, parse, parse_answer, parse_lean, read};
use proptest::prelude::*;

const RIGHT: [&str; 3] = [
    include_str!("right/quarry-lip.toml"),
    include_str!("right/unequal-legs.toml"),
    include_str!("right/gear.toml"),
];

fn read_all_of(text: &str) {
    let (file, problems) = read(text);
    for problem in &problems {
        assert!(text.get(problem.span.clone()).is_some(), "{:?} in {text:?}", problem.span);
        assert!(!problem.said(&Words::default()).message.is_empty());
    }
    if let Some(file) = file {
        assert!(outlean_rig::solve(&file.rig).is_ok());
    }
}

/// A right file with a stretch of characters replaced.
fn damaged() -> impl Strategy<Value = String> {
    let insert = prop_oneof![
        "\\PC{0,12}",
        r#"["'\[\]{}=.,#\n 0-9a-z-]{0,12}"#,
        proptest::sample::select(vec![
            "nan",
            "inf",
            "-",
            "\"\"",
            "1e308",
            "99999",
            "0",
            "\"0 m\"",
            "\"9e9 m\"",
            "x",
            "\u{2009}",
            "°",
        ])
        .prop_map(str::to_owned),
    ];
    (0..RIGHT.len(), any::<prop::sample::Index>(), 0..30_usize, insert).prop_map(
        |(which, at, length, insert)| {
            let chars: Vec<char> = RIGHT[which].chars().collect();
            let at = at.index(chars.len());
            let end = (at + length).min(chars.len());
            chars[..at].iter().copied().chain(insert.chars()).chain(chars[end..].iter().copied()).collect()
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, ..ProptestConfig::default() })]

    #[test]
    fn any_text_is_read(text in "(?s).{0,300}") {
        read_all_of(&text);
    }

    #[test]
    fn any_damaged_file_is_read(text in damaged()) {
        read_all_of(&text);
    }

    #[test]
    fn any_quantity_is_read(text in prop_oneof!["\\PC{0,20}", r#"[-+−]?[0-9., /e]{0,9} ?[a-z°'"²/%]{0,6}"#]) {
        for dimension in Dimension::ALL {
            if let Ok(value) = parse(&text, dimension) {
                prop_assert!(value.is_finite());
            }
            if let Ok(answer) = parse_answer(&text, dimension) {
                prop_assert!(answer.number.is_finite());
            }
        }
        let _ = parse_lean(&text);
    }
}
