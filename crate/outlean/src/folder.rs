//! What the folder of a lesson may be called: its name is the address of its page, and what packages and records call it by.

use crate::page::ORIGINAL;
use crate::program;
use crate::translation::is_language;

/// Most letters of a name.
const MOST: usize = 80;

/// Pages about a learner's work, in every language; each has a script and an element of its name.
pub const LEARNING: [&str; 3] = ["record", "class", "refresher"];
/// The planner, in every language.
pub const PLAN: &str = "plan";
/// Pages of text, in the language of the originals.
pub const GLOSSARY: &str = "glossary";
pub const NUMBERS: &str = "numbers";
pub const ACCESSIBILITY: &str = "accessibility";
pub const SOURCES: &str = "sources";
/// Examples for pages of others.
pub const EXAMPLES: &str = "examples";

/// Whether a build puts something of its own there: of such names no lesson can be, or one of the two would be lost.
fn taken(name: &str) -> bool {
    let alone = [PLAN, GLOSSARY, NUMBERS, ACCESSIBILITY, SOURCES, EXAMPLES, ORIGINAL];
    alone.contains(&name) || LEARNING.contains(&name) || is_language(name) || program::is(name)
}

/// Why no lesson can have a folder of this name, with what is allowed; `None` where one can.
pub fn wrong(name: &str) -> Option<String> {
    let plain = |b: u8| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-';
    if name.is_empty() || name.len() > MOST || !name.bytes().all(plain) {
        return Some(format!(
            "allowed are small letters, digits and hyphens, at most {MOST}, such as 04-feet"
        ));
    }
    taken(name)
        .then(|| format!("the course has pages of its own there; put a number before it, such as 04-{name}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_an_address_and_no_page_of_the_course() {
        let longest = "a".repeat(MOST);
        for right in ["04-feet", "plans", "04-plan", "a-b", "1", longest.as_str()] {
            assert_eq!(wrong(right), None, "{right}");
        }
        let long = "a".repeat(MOST + 1);
        for odd in ["", "05 lean&x", "a b", "Lean", "über", "a/b", "..", "a.b", "a_b", long.as_str()] {
            assert!(wrong(odd).is_some_and(|why| why.contains("at most 80")), "{odd}");
        }
        for own in ["plan", "record", "class", "glossary", "examples", "en", "es", "deu", program::UNNAMED] {
            assert!(wrong(own).is_some_and(|why| why.contains("pages of its own")), "{own}");
        }
    }
}
