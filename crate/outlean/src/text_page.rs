//! Pages that are all text, in Markdown; what they say in numbers stands there as gaps, `{so}`, and is worked out as the page is made.

use crate::lesson::Anchors;
use pulldown_cmark::{Event, Options, Parser, html};

/// The text as HTML, its headings named, its gaps filled with HTML. A gap that is not known stays as it is written.
pub fn body(text: &str, gap: impl Fn(&str) -> Option<String>) -> String {
    let mut events: Vec<Event<'_>> = Parser::new_ext(text, Options::ENABLE_TABLES).collect();
    Anchors::new().name(&mut events);
    let mut body = String::new();
    html::push_html(&mut body, events.into_iter());
    filled(&body, gap)
}

/// The text with its gaps filled.
fn filled(text: &str, gap: impl Fn(&str) -> Option<String>) -> String {
    let mut parts = text.split('{');
    let mut out = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        match part.split_once('}').and_then(|(name, after)| Some((gap(name)?, after))) {
            Some((value, after)) => out.extend([value.as_str(), after]),
            None => out.extend(["{", part]),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gap_that_is_not_known_stays() {
        let gap = |name: &str| (name == "gravity").then(|| "9.80665".to_owned());
        assert_eq!(filled("{gravity} and {no such}, {", gap), "9.80665 and {no such}, {");
        assert_eq!(
            body("## A *b*\n\n{gravity}\n", gap),
            "<h2 id=\"a-b\">A <em>b</em></h2>\n<p>9.80665</p>\n"
        );
    }
}
