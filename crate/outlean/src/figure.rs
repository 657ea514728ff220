//! A figure in a page: its element with the rig, and what stands in its place before its program runs and where it cannot: a
//! still picture, and the numbers in tables.

use crate::markup::{data, escaped, flat};
use outlean_picture::Words;
use outlean_rig::Rig;
use outlean_widget::action::Action;
use outlean_widget::state::State;
use outlean_widget::view::{View, view};

/// What a figure's element is made of.
pub struct Figure<'a> {
    /// Its name in the page.
    pub id: &'a str,
    /// The rig that it shows.
    pub rig: &'a Rig,
    /// Whether its forces are held back until a prediction is locked in.
    pub veiled: bool,
    /// Whether the page itself shows the caution.
    pub cautioned: bool,
    /// The address of its still picture.
    pub still: &'a str,
    /// What is said below, as HTML.
    pub note: &'a str,
    /// Words of the page.
    pub words: &'a Words,
}

impl Figure<'_> {
    /// The element as HTML. Of a rig that cannot be computed the tables are left out.
    pub fn element(&self) -> String {
        let set = |on: bool, name: &'static str| if on { name } else { "" };
        let said = self.said();
        let alt = said.as_ref().map_or("", |said| said.sentence_text.as_str());
        format!(
            "<outlean-rig id=\"{}\"{}{}>{}<img src=\"{}\" alt=\"{}\" width=\"830\" height=\"560\">{}<p>{}</p></outlean-rig>",
            escaped(self.id),
            set(self.cautioned, " cautioned"),
            set(self.veiled, " veiled"),
            data(&flat(self.rig)),
            escaped(self.still),
            escaped(&self.words.fill("figure.still", &[("sentence", alt)])),
            said.as_ref().map(|said| self.tables(said)).unwrap_or_default(),
            self.note
        )
    }

    /// What the page says of it as it begins.
    fn said(&self) -> Option<View> {
        let mut state = State::new(self.rig.clone()).ok()?;
        if self.veiled {
            state.act(Action::Veil);
        }
        Some(view(&state, self.words))
    }

    /// What is set up; and, unless it is held back, what each part carries.
    fn tables(&self, said: &View) -> String {
        let say = |key: &str| escaped(self.words.say(key));
        let row = |name: &str, cells: &[&str]| {
            let cells: String = cells.iter().map(|cell| format!("<td>{}</td>", escaped(cell))).collect();
            format!("<tr><th scope=\"row\">{}</th>{cells}</tr>", escaped(name))
        };
        let measures = said.sliders.iter().map(|slider| row(&slider.name, &[&slider.text]));
        let chosen = |choice: &outlean_widget::view::ChoiceView| {
            let option = choice.options.iter().find(|(word, _)| *word == choice.now);
            row(&choice.name, &[option.map_or("", |(_, text)| text.as_str())])
        };
        let choices = said.choices.iter().map(chosen);
        let mut all = format!(
            "<table><caption>{}</caption><tbody>{}</tbody></table>",
            say("figure.set"),
            measures.chain(choices).collect::<String>()
        );
        if !self.veiled {
            let columns = ["part", "carries", "allowable", "used"];
            let head: String = columns
                .iter()
                .map(|column| format!("<th scope=\"col\">{}</th>", say(&format!("column.{column}"))))
                .collect();
            let rows: String = said
                .rows
                .iter()
                .map(|part| row(&part.name, &[&part.carries, &part.allowable, &part.used]))
                .collect();
            let [is, why, covers] =
                [&said.verdict.is, &said.verdict.why, &said.covers].map(|text| escaped(text));
            all.push_str(&format!(
                "<p>{is} {why}</p><p>{covers}</p><table><caption>{}</caption><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>",
                say("readings.caption")
            ));
        }
        all
    }
}
