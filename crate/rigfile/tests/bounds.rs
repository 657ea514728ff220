//! How long and how deep a rig file may be, each bound from both sides.

use outlean_rigfile::{EditError, MOST_BYTES, What, edit, read, with_guy};

const RIGHT: &str = include_str!("right/quarry-lip.toml");

/// A right file with a comment that makes it so long.
fn long(bytes: usize) -> String {
    format!("{RIGHT}\n#{}", "x".repeat(bytes - RIGHT.len() - 2))
}

#[test]
fn a_file_is_as_long_as_may_be_and_not_a_byte_longer() {
    let most = long(MOST_BYTES);
    assert_eq!(most.len(), MOST_BYTES);
    assert!(read(&most).0.is_some());
    assert!(edit(&most, "guy.0.rise", None).is_ok());
    let over = long(MOST_BYTES + 1);
    let (file, problems) = read(&over);
    assert!(file.is_none());
    let told: Vec<&What> = problems.iter().map(|problem| &problem.what).collect();
    assert_eq!(told, [&What::TooLong { bytes: MOST_BYTES + 1, most: MOST_BYTES }]);
    assert_eq!(edit(&over, "guy.0.rise", None), Err(EditError::NotToml));
    assert_eq!(with_guy(&over), Err(EditError::NotToml));
    // What would grow past it is not written.
    assert_eq!(edit(&most, "title", Some(&"x".repeat(200))), Err(EditError::NoPlace));
}

#[test]
fn tables_and_lists_stand_in_one_another_so_deep_and_no_deeper() {
    let too_deep = |text: &str| {
        let (file, problems) = read(text);
        assert!(file.is_none());
        assert!(problems.iter().all(|problem| !matches!(problem.what, What::Syntax { .. })), "{problems:?}");
        problems.iter().any(|problem| problem.what == What::TooDeep { most: 80 })
    };
    // Of a key the last part is in as many tables as there are before it; a value is one more.
    let nested = |deep: usize| {
        [
            format!("title = {}{}", "[".repeat(deep), "]".repeat(deep)),
            format!("title = {}x = 1{}", "{ a = ".repeat(deep - 1) + "{ ", " }".repeat(deep)),
            format!("{}x = 1", "a.".repeat(deep - 1)),
            format!("[{}x]", "a.".repeat(deep - 1)),
        ]
    };
    for text in nested(80) {
        assert!(!too_deep(&text), "{text}");
    }
    for text in nested(81).into_iter().chain(nested(20_000)) {
        assert!(too_deep(&text), "{text:.60}");
    }
}
