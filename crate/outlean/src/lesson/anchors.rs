//! Anchors: the names by which headings, figures and questions of a lesson can be called in an address.

use pulldown_cmark::{Event, Tag, TagEnd};

/// The anchor of the lesson's title, which its shell writes.
pub const TITLE: &str = "title";
/// The anchor of all of the lesson, which its shell writes.
const LESSON: &str = "lesson";

/// The anchor of an objective, which its shell writes; counted from 1.
pub fn objective(number: usize) -> String {
    format!("objective-{number}")
}

/// The anchors taken so far.
pub struct Anchors(Vec<String>);

impl Anchors {
    /// Those of the shell.
    pub fn new() -> Self {
        Self(vec![LESSON.to_owned(), TITLE.to_owned()])
    }

    /// Takes a name; false where it is taken.
    pub fn take(&mut self, name: &str) -> bool {
        let free = !self.0.iter().any(|taken| taken == name);
        if free {
            self.0.push(name.to_owned());
        }
        free
    }

    /// Takes those of so many objectives.
    pub fn objectives(&mut self, count: usize) {
        self.0.splice(0..0, (1..=count).map(objective));
    }

    /// The one taken last.
    pub fn last(&self) -> &str {
        self.0.last().map_or(TITLE, String::as_str)
    }

    /// Names every heading in `events` by its words; a number tells those of the same words apart.
    pub fn name(&mut self, events: &mut [Event<'_>]) {
        let mut words = String::new();
        let mut begun = None;
        for at in 0..events.len() {
            match events.get(at) {
                Some(Event::Start(Tag::Heading { .. })) => (begun, words) = (Some(at), String::new()),
                Some(Event::Text(text) | Event::Code(text)) => words.push_str(text),
                Some(Event::End(TagEnd::Heading(_))) => {
                    let name = self.unique(&slug(&words));
                    if let Some(Event::Start(Tag::Heading { id, .. })) =
                        begun.take().and_then(|at| events.get_mut(at))
                    {
                        *id = Some(name.into());
                    }
                }
                _ => {}
            }
        }
    }

    fn unique(&mut self, name: &str) -> String {
        let mut tried = name.to_owned();
        let mut number = 1;
        while !self.take(&tried) {
            number += 1;
            tried = format!("{name}-{number}");
        }
        tried
    }
}

/// Words as part of an address: small letters and digits, hyphens between.
fn slug(words: &str) -> String {
    let letters: String =
        words.to_lowercase().chars().map(|c| if c.is_alphanumeric() { c } else { ' ' }).collect();
    let slug = letters.split_whitespace().collect::<Vec<_>>().join("-");
    if slug.is_empty() { "part".to_owned() } else { slug }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slug_is_made_of_words() {
        assert_eq!(slug("What leans, and what it asks for"), "what-leans-and-what-it-asks-for");
        assert_eq!(slug("  2. Über `x`  "), "2-über-x");
        assert_eq!(slug("?"), "part");
    }
}
