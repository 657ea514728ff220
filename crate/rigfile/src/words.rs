//! Words that people read, by key, from a string file.

use std::collections::BTreeMap;

/// The words of one language: templates by key, with places such as `{value}` to fill.
///
/// Read with serde from a flat map; see `www/strings/en/native.json`.
#[derive(Clone, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(transparent)]
pub struct Words(BTreeMap<String, String>);

impl Words {
    /// The template of that key.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&str> {
        self.0.get(key).map(String::as_str)
    }

    /// Every key.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        self.0.keys().map(String::as_str)
    }

    /// The template of that key with its places filled. A key that has no words is shown itself, so that
    /// it is noticed; a place that nothing fills stays.
    ///
    /// ```
    /// let words: outlean_rigfile::Words =
    ///     [("lean".to_owned(), "It leans {angle}.".to_owned())].into_iter().collect();
    /// assert_eq!(words.say("lean", &[("angle", "18°")]), "It leans 18°.");
    /// assert_eq!(words.say("height", &[]), "height");
    /// ```
    #[must_use]
    pub fn say(&self, key: &str, places: &[(&str, &str)]) -> String {
        let mut rest = self.get(key).unwrap_or(key);
        let mut said = String::with_capacity(rest.len());
        while let Some((before, after)) = rest.split_once('{') {
            said.push_str(before);
            let filled = after.split_once('}').and_then(|(name, after)| {
                places.iter().find(|(place, _)| *place == name).map(|(_, value)| (*value, after))
            });
            match filled {
                Some((value, after)) => {
                    said.push_str(value);
                    rest = after;
                }
                None => {
                    said.push('{');
                    rest = after;
                }
            }
        }
        said.push_str(rest);
        said
    }
}

impl FromIterator<(String, String)> for Words {
    fn from_iter<I: IntoIterator<Item = (String, String)>>(pairs: I) -> Self {
        Self(pairs.into_iter().collect())
    }
}
