//! Sources found in text by the words that name them.

use super::Sources;
use std::collections::BTreeMap;

/// How a text says that it knows a source.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Marks {
    /// Read in a transcription or quotation.
    pub second_hand: bool,
    /// From memory, to be looked up.
    pub memory: bool,
}

impl Marks {
    /// Both together.
    pub fn and(self, other: Self) -> Self {
        Self { second_hand: self.second_hand || other.second_hand, memory: self.memory || other.memory }
    }
}

impl Sources {
    /// The longest name with which a text begins, and the place of its source in the list.
    fn longest_name_of(&self, text: &str) -> Option<(usize, &str)> {
        let names = self
            .0
            .iter()
            .enumerate()
            .flat_map(|(work, each)| each.named.iter().map(move |name| (work, name.as_str())));
        let here = names.filter(|(_, name)| {
            let after = text.strip_prefix(name);
            after.is_some_and(|after| !after.starts_with(|next: char| next.is_alphanumeric()))
        });
        here.max_by_key(|(_, name)| name.len())
    }

    /// The sources that a text names, by their places in the list, each with how the text says that it is known: what stands
    /// between its name and the next.
    pub fn named_in(&self, text: &str) -> BTreeMap<usize, Marks> {
        let text = text.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ");
        let mut found: Vec<(usize, usize)> = Vec::new();
        let (mut at, mut inside) = (0, false);
        while let Some(rest) = text.get(at..) {
            let Some(letter) = rest.chars().next() else { break };
            // A name begins where a word does.
            let named = if inside { None } else { self.longest_name_of(rest) };
            let end = match named {
                Some((work, name)) => {
                    found.push((work, at + name.len()));
                    at + name.len()
                }
                None => at + letter.len_utf8(),
            };
            at = end;
            inside = named.is_none() && letter.is_alphanumeric();
        }
        let mut all = BTreeMap::new();
        for (place, (work, end)) in found.iter().enumerate() {
            let next = found.get(place + 1).map_or(text.len(), |(_, next)| *next);
            let tail = text.get(*end..next).unwrap_or_default();
            let marks =
                Marks { second_hand: tail.contains("second hand"), memory: tail.contains("from memory") };
            let known: &mut Marks = all.entry(*work).or_default();
            *known = known.and(marks);
        }
        all
    }
}

/// The paragraphs, entries and cells of HTML that was made here, as plain text.
pub fn parts(html: &str) -> impl Iterator<Item = String> {
    const ENDS: [&str; 4] = ["</p>", "</li>", "</td>", "</th>"];
    let mut rest = html;
    core::iter::from_fn(move || {
        let end = ENDS.iter().filter_map(|end| rest.find(end)).min().unwrap_or(rest.len());
        let (part, after) = rest.split_at_checked(end).filter(|_| !rest.is_empty())?;
        // What is left begins with the end of this part, which is no text.
        rest = after.split_once('>').map_or("", |(_, after)| after);
        Some(plain(part))
    })
}

/// The plain text of HTML that was made here.
pub fn plain(html: &str) -> String {
    let mut parts = html.split('<');
    let mut out = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        out.push_str(part.split_once('>').map_or("", |(_, text)| text));
    }
    out.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&amp;", "&")
}

#[cfg(test)]
mod tests {
    use super::super::read;
    use super::*;

    fn found(text: &str) -> Vec<(usize, bool, bool)> {
        let source = |names: &str| {
            format!("[[source]]\ntitle = \"{names}\"\nnamed = [\"{names}\"]\nkind = \"published\"\n")
        };
        let sources =
            read(&["FM 5-125", "Rigging", "FM 5-125, Rigging", "common practice"].map(source).concat())
                .unwrap();
        sources
            .named_in(text)
            .into_iter()
            .map(|(work, marks)| (work, marks.second_hand, marks.memory))
            .collect()
    }

    #[test]
    fn whole_names_are_found_and_the_longest_wins() {
        assert_eq!(found("see FM 5-125, p. 3; common\npractice"), [(0, false, false), (3, false, false)]);
        assert_eq!(found("fm 5-125, rigging"), [(2, false, false)]);
        assert_eq!(found("FM 5-1255, Riggings, uncommon practices"), []);
        assert_eq!(found(""), []);
    }

    #[test]
    fn how_it_is_known_stands_behind_its_name() {
        assert_eq!(
            found("second hand: Rigging, from memory, to be looked up; FM 5-125; second hand"),
            [(0, true, false), (1, false, true)]
        );
        assert_eq!(found("Rigging, second hand; Rigging"), [(1, true, false)]);
    }

    #[test]
    fn html_is_read_as_text() {
        let table = "<p>a</p>\n<ul><li>b <em>c</em></li></ul><table><tr><td>d</td><td>e</td></tr></table> f";
        let read: Vec<String> = parts(table).map(|part| part.trim().to_owned()).collect();
        assert_eq!(read, ["a", "b c", "d", "e", "f"]);
        assert_eq!(parts("").count(), 0);
        assert_eq!(plain("a <em>b</em> &amp;lt; <a href=\"x\">c</a>"), "a b &lt; c");
        assert_eq!(plain("<li>a</li>"), "a");
        assert_eq!(plain("no tag"), "no tag");
    }
}
