//! Words: what people read in a picture, from the string file of their language.

use std::collections::BTreeMap;

/// Templates by key. `{name}` in a template is a place to fill.
///
/// Read from a flat JSON object of strings. A key that is missing says itself, so that the hole is seen.
#[derive(Clone, Debug, PartialEq, Eq, Default, serde::Deserialize)]
#[serde(transparent)]
pub struct Words(BTreeMap<String, String>);

impl Words {
    /// Words from pairs of key and template.
    pub fn new(pairs: impl IntoIterator<Item = (String, String)>) -> Self {
        Self(pairs.into_iter().collect())
    }

    /// The template of `key`, or `key` itself where there is none.
    #[must_use]
    pub fn say<'a>(&'a self, key: &'a str) -> &'a str {
        self.0.get(key).map_or(key, String::as_str)
    }

    /// Whether there is a template of `key`.
    #[must_use]
    pub fn has(&self, key: &str) -> bool {
        self.0.contains_key(key)
    }

    /// The template of `key` with its places filled. A place that no value is given for stays as it stands.
    #[must_use]
    pub fn fill(&self, key: &str, values: &[(&str, &str)]) -> String {
        let mut out = String::new();
        let mut rest = self.say(key);
        while let Some((before, after)) = rest.split_once('{') {
            out.push_str(before);
            let filled = after.split_once('}').and_then(|(name, after)| {
                let (_, value) = values.iter().find(|(each, _)| *each == name)?;
                Some((*value, after))
            });
            if let Some((value, after)) = filled {
                out.push_str(value);
                rest = after;
            } else {
                out.push('{');
                rest = after;
            }
        }
        out.push_str(rest);
        out
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words() -> Words {
        serde_json::from_str(r#"{"guy.aft": "aft guy", "setback": "setback {length}", "odd": "{a}{ b}{c"}"#)
            .unwrap()
    }

    #[test]
    fn templates_are_filled() {
        assert_eq!(words().fill("setback", &[("length", "5.9 m")]), "setback 5.9 m");
        assert_eq!(words().say("guy.aft"), "aft guy");
    }

    #[test]
    fn a_value_is_never_read_as_a_template() {
        assert_eq!(words().fill("setback", &[("length", "{length}")]), "setback {length}");
    }

    #[test]
    fn holes_are_seen() {
        assert_eq!(words().say("nothing"), "nothing");
        assert_eq!(words().fill("odd", &[("c", "x")]), "{a}{ b}{c");
        assert_eq!(words().fill("setback", &[]), "setback {length}");
    }
}
