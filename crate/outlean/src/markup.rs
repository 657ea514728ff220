//! Text, data and rigs as they stand in the HTML of a page.

use outlean_rig::Rig;
use outlean_rigfile::{Value as Entry, entries_of};
use serde_json::Value;

/// A rig as pages read it: SI numbers and words by the keys of the field and choice tables.
pub fn flat(rig: &Rig) -> Value {
    let entry = |(key, value)| {
        let value = match value {
            Entry::Number(number) => Value::from(number),
            Entry::Word(word) => Value::from(word),
        };
        (key, value)
    };
    entries_of(rig).into_iter().map(entry).collect()
}

/// Data for an element, as a script that is never run. `<` is escaped, so that nothing in it can end it.
pub fn data(value: &Value) -> String {
    format!("<script type=\"application/json\">{}</script>", value.to_string().replace('<', "\\u003c"))
}

/// The id that an element has, of HTML that begins with its tag.
pub fn id_of(html: &str) -> Option<&str> {
    html.split_once("id=\"")?.1.split('"').next()
}

/// Text as HTML.
pub fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
