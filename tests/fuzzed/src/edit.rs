//! A key, a value and a rig file, a line each and the rest: what is written stands there and nothing else has changed; taken out
//! again it is gone; a guy added and taken out leaves what was written.

use outlean_rigfile::{edit, guys_in, with_guy, without_guy, written};

pub fn held(text: &str) {
    let Some((key, rest)) = text.split_once('\n') else { return };
    let Some((value, text)) = rest.split_once('\n') else { return };
    if let Ok(edited) = edit(text, key, Some(value)) {
        let mut before = written(text).expect("what was edited is TOML");
        let mut after = written(&edited).expect("what came of it is TOML");
        let stands = after.remove(key).expect("what was written stands there");
        let flag = ["true", "false"].contains(&stands.as_str());
        assert!(stands == value || flag, "{value:?} became {stands:?}");
        before.remove(key);
        assert_eq!(before, after);
        let out = edit(&edited, key, None);
        assert!(out.is_err() || out.is_ok_and(|out| written(&out).is_ok_and(|all| all == before)));
    }
    if let Ok((more, number)) = with_guy(text) {
        assert_eq!(guys_in(&more), number + 1);
        let less = without_guy(&more, number).expect("the guy that was added goes out");
        assert_eq!(written(&less), written(text));
    }
}
