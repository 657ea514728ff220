//! Markdown inside a question: a line or a few, that can run nothing.

use super::block::Source;
use super::is_plain_link;
use pulldown_cmark::{Event, Parser, Tag, TagEnd, html};
use std::ops::Range;

/// Whether the Markdown `text`, which is written at `span`, can run nothing; complaints where it could.
pub fn check(source: &mut Source<'_, '_>, text: &str, span: &Range<usize>) -> bool {
    let mut fine = true;
    for (event, at) in Parser::new(text).into_offset_iter() {
        let why = match &event {
            Event::Html(_) | Event::InlineHtml(_) => {
                Some(("raw HTML is not taken".to_owned(), "write it in Markdown, or escape < as \\\\<"))
            }
            Event::Start(Tag::Link { dest_url, .. }) if !is_plain_link(dest_url) => Some((
                format!("the link to {dest_url} is not taken"),
                "link to https://…, to a page of the course, or to #a-heading",
            )),
            Event::Start(Tag::Image { .. }) => {
                Some(("pictures are not taken".to_owned(), "pictures come from the rig: use a figure block"))
            }
            _ => None,
        };
        if let Some((message, hint)) = why {
            let place = source.within(span, text, &at);
            source.complain(place, message, Some(hint.to_owned()));
            fine = false;
        }
    }
    fine
}

/// Whether `text`, which is written at `span` and shown as it is, has no marks of Markdown in it; complaints where it has.
pub fn plain(source: &mut Source<'_, '_>, text: &str, span: &Range<usize>) -> bool {
    let mut plain = true;
    for (event, at) in Parser::new(text).into_offset_iter() {
        let marked = matches!(
            event,
            Event::Start(Tag::Emphasis | Tag::Strong | Tag::Link { .. } | Tag::Image { .. }) | Event::Code(_)
        );
        if marked {
            let place = source.within(span, text, &at);
            let hint =
                "it is shown as it is written: leave out the marks, or say it in `because` or `explanation`";
            source.complain(place, "emphasis, code and links are not taken here", Some(hint.to_owned()));
            plain = false;
        }
    }
    plain
}

/// Markdown as HTML without paragraphs around it. What could run is left out, though [`check`] has refused it already.
pub fn html(text: &str) -> String {
    let kept = Parser::new(text).filter(|event| {
        let could_run = match event {
            Event::Html(_) | Event::InlineHtml(_) | Event::Start(Tag::Image { .. }) => true,
            Event::Start(Tag::Link { dest_url, .. }) => !is_plain_link(dest_url),
            Event::End(TagEnd::Image) => true,
            _ => false,
        };
        let around = matches!(event, Event::Start(Tag::Paragraph) | Event::End(TagEnd::Paragraph));
        !could_run && !around
    });
    let mut out = String::new();
    html::push_html(&mut out, kept);
    out
}

#[cfg(test)]
mod tests {
    use super::html;

    /// What was refused as it was read does not come through here either.
    #[test]
    fn what_could_run_is_left_out() {
        for (text, said) in [
            ("a <img src=x onerror=b()> c", "a  c"),
            ("<script>a()</script>", ""),
            ("[a](javascript:b())", "a"),
            ("![a](x)", "a"),
            ("*a* \\<b>", "<em>a</em> &lt;b&gt;"),
        ] {
            let made = html(text).replace("</a>", "");
            assert!(
                !made.contains("<script") && !made.contains("<img") && !made.contains("href"),
                "{text}: {made}"
            );
            assert_eq!(made.trim(), said, "{text}");
        }
        assert_eq!(html("[a](https://b.example/)"), "<a href=\"https://b.example/\">a</a>");
    }
}
