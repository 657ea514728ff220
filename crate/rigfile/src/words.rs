//! Words that people read, by key, from a string file.

use std::collections::BTreeMap;

/// The words of one language: templates by key, with places such as `{value}` to fill.
///
/// Read from a flat JSON object of strings; see `www/strings/en/native.json`. A key that is missing says itself,
/// so that the hole is seen.
#[derive(Clone, Debug, Default, PartialEq, Eq, serde::Deserialize)]
#[serde(from = "BTreeMap<String, String>")]
pub struct Words(
    /// By key, in order. A tree would be longer in the page.
    Vec<(String, String)>,
);

impl From<BTreeMap<String, String>> for Words {
    fn from(map: BTreeMap<String, String>) -> Self {
        Self(map.into_iter().collect())
    }
}

impl Words {
    /// Words from pairs of key and template; of a key that comes twice the last counts.
    pub fn new(pairs: impl IntoIterator<Item = (String, String)>) -> Self {
        let mut words = Self::default();
        for (key, template) in pairs {
            words.put(key, template);
        }
        words
    }

    fn put(&mut self, key: String, template: String) {
        match self.place(&key) {
            Ok(at) => {
                if let Some(pair) = self.0.get_mut(at) {
                    pair.1 = template;
                }
            }
            Err(at) => self.0.insert(at, (key, template)),
        }
    }

    fn place(&self, key: &str) -> Result<usize, usize> {
        self.0.binary_search_by(|(each, _)| each.as_str().cmp(key))
    }

    /// The template of `key`.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&str> {
        self.0.get(self.place(key).ok()?).map(|(_, template)| template.as_str())
    }

    /// Every key.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        self.0.iter().map(|(key, _)| key.as_str())
    }

    /// The template of `key`, or `key` itself where there is none.
    #[must_use]
    pub fn say<'a>(&'a self, key: &'a str) -> &'a str {
        self.get(key).unwrap_or(key)
    }

    /// Whether there is a template of `key`.
    #[must_use]
    pub fn has(&self, key: &str) -> bool {
        self.place(key).is_ok()
    }

    /// The template of `key` with its places filled. A place that no value is given for stays as it stands.
    ///
    /// ```
    /// let words = outlean_rigfile::Words::new([("lean".into(), "It leans {angle}.".into())]);
    /// assert_eq!(words.fill("lean", &[("angle", "18°")]), "It leans 18°.");
    /// assert_eq!(words.fill("height", &[]), "height");
    /// ```
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
        serde_json::from_str(r#"{"setback": "setback {length}", "guy.aft": "aft guy", "odd": "{a}{ b}{c"}"#)
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
        assert!(words().has("odd") && !words().has("nothing"));
        assert_eq!(words().say("nothing"), "nothing");
        assert_eq!(words().fill("odd", &[("c", "x")]), "{a}{ b}{c");
        assert_eq!(words().fill("setback", &[]), "setback {length}");
    }

    #[test]
    fn pairs_in_any_order_are_found_and_the_last_counts() {
        let pairs = ["b", "d", "a", "c", "b"].into_iter().enumerate();
        let words = Words::new(pairs.map(|(i, key)| (key.to_owned(), i.to_string())));
        assert_eq!(words.keys().collect::<Vec<_>>(), ["a", "b", "c", "d"]);
        assert_eq!(["a", "b", "c", "d"].map(|key| words.say(key)), ["2", "4", "3", "1"]);
    }
}
