//! Any text as a lesson: read, or complained of with a place in the text and something to do about it; what is read can be drawn,
//! answered and marked, and no script is in it.

use crate::lesson::{self, Block};
use outlean_rig::Rig;
use std::sync::OnceLock;

/// Two seeds, not 200: the fuzzer's time is for other texts.
const SEEDS: u64 = 2;

pub fn held(text: &str) {
    match lesson::tried(text, &|name| (name == "rig.toml").then(|| rig().clone()), SEEDS) {
        Ok(lesson) => {
            for block in &lesson.body {
                match block {
                    Block::Question(block) => {
                        let drawn = block.template.draw(1).expect("it was tried on this seed");
                        assert!(drawn.mark(&drawn.answer()).expect("an answer can be marked").right());
                    }
                    Block::Html(html) => runs_nothing(html),
                    _ => {}
                }
            }
            lesson.notes.iter().for_each(|(_, html)| runs_nothing(html));
        }
        Err(complaints) => {
            assert!(!complaints.is_empty());
            for complaint in complaints {
                assert!(text.get(complaint.span.clone()).is_some(), "{:?}", complaint.span);
                assert!(!complaint.message.is_empty());
                assert!(complaint.hint.is_some_and(|hint| !hint.is_empty()));
            }
        }
    }
}

/// Every tag is one that Markdown makes, no address runs a script.
fn runs_nothing(html: &str) {
    for tag in html.split('<').skip(1) {
        let name: String =
            tag.trim_start_matches('/').chars().take_while(|c| c.is_ascii_alphanumeric()).collect();
        assert!(
            !["script", "style", "iframe", "object", "svg", "form", "input", ""].contains(&name.as_str()),
            "{html}"
        );
        let inside = tag.split('>').next().unwrap_or_default().to_lowercase();
        assert!(!inside.contains(" on") || !inside.contains('='), "{html}");
        for way in ["javascript:", "data:", "vbscript:"] {
            assert!(!inside.contains(&format!("=\"{way}")), "{html}");
        }
    }
}

fn rig() -> &'static Rig {
    static RIG: OnceLock<Rig> = OnceLock::new();
    RIG.get_or_init(|| {
        let read = outlean_rigfile::read(include_str!("../../../crate/outlean/new-lesson/rig.toml")).0;
        read.expect("the rig of a new lesson is right").rig
    })
}
