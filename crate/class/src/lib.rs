//! The class table for the page that shows it: files go in as their text, tables come out as text. Nothing is kept. A module
//! of its own, since reading files takes more room than all that other pages ask of records.

use outlean_course::{Gathered, PASS, Reason, class_csv, csv, passes, read_record};
use serde::Serialize;
use wasm_bindgen::prelude::*;

/// The allocator, as in crate/widget.
#[cfg(target_arch = "wasm32")]
#[global_allocator]
static ALLOCATOR: rlsf::SmallGlobalTlsf = rlsf::SmallGlobalTlsf::new();

/// Records of a class, file by file: what `outlean class` does with the same files.
#[wasm_bindgen]
#[derive(Default)]
pub struct ClassTable {
    known: Gathered,
}

/// What came of a file.
#[derive(Serialize)]
struct Taken {
    /// Whose it is; none where it is no record.
    learner: Option<String>,
    /// How many answers it holds.
    attempts: usize,
    /// Why it, or so many parts of it, are set aside.
    aside: Vec<Reason>,
}

#[wasm_bindgen]
impl ClassTable {
    /// No files yet.
    #[wasm_bindgen(constructor)]
    pub fn new() -> ClassTable {
        Self::default()
    }

    /// The share right with which an objective is passed.
    pub fn pass() -> f64 {
        PASS
    }

    /// Whether this share, 0 to 1, is enough to pass an objective.
    pub fn passes(share: f64) -> bool {
        passes(share, PASS)
    }

    /// Takes in the text of a file. What came of it is JSON: `learner`, null where it is no record and nothing of it is
    /// taken; `attempts`, how many answers it holds; `aside`, a reason for the file or for each part of it that is set aside.
    pub fn take(&mut self, text: &str) -> String {
        match read_record(text) {
            Ok(record) => {
                let (learner, attempts) = (Some(record.learner.0.clone()), record.attempts.len());
                match self.known.add(record) {
                    Ok(aside) => json(&Taken { learner, attempts, aside }),
                    Err(why) => json(&Taken { learner: None, attempts: 0, aside: vec![why] }),
                }
            }
            Err(why) => json(&Taken { learner: None, attempts: 0, aside: vec![why.0] }),
        }
    }

    /// The table as JSON: `objectives`, and `learners`, each with its `cells` in the order of the objectives, null or
    /// `attempts`, `share` 0 to 1, `last` in seconds since 1970.
    pub fn table(&self) -> String {
        json(&self.known.table())
    }

    /// The table as CSV.
    pub fn csv(&self) -> String {
        class_csv(&self.known.table())
    }

    /// Every answer as CSV.
    pub fn answers(&self) -> String {
        csv(self.known.records())
    }
}

/// Nothing of these can fail to be written.
fn json(thing: &impl Serialize) -> String {
    serde_json::to_string(thing).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    const INES: &str = include_str!("../../outlean/tests/data/ines.json");
    const LATER: &str = include_str!("../../outlean/tests/data/ines-later.json");
    const MO: &str = include_str!("../../outlean/tests/data/mo-damaged.json");

    #[test]
    fn files_of_one_learner_are_one_row_and_what_is_damaged_is_told() {
        let mut table = ClassTable::new();
        assert_eq!(table.take(INES), r#"{"learner":"Ines","attempts":2,"aside":[]}"#);
        table.take(LATER);
        let told = table.take(MO);
        assert!(
            told.contains(r#"{"learner":"Mo","attempts":1,"aside":[{"field":"share","value":"3","#),
            "{told}"
        );
        let whole = table.table();
        let told = table.take("no record");
        assert!(told.starts_with(r#"{"learner":null,"attempts":0,"aside":[{"field":"file""#), "{told}");
        table.take(INES);
        assert_eq!(table.table(), whole, "a file twice counts once");
        assert_eq!(whole.matches("\"learner\":").count(), 2);
        assert_eq!(
            table.csv(),
            "learner,Estimate a guy.,Estimate a leg.\r\nInes,,0.6666666666666666\r\nMo,0.5,\r\n"
        );
        assert_eq!(table.answers().lines().count(), 5);
    }

    #[test]
    fn the_mark_itself_passes_however_it_is_summed() {
        assert!(ClassTable::passes(0.799_999_999_999_999_9) && !ClassTable::passes(0.799));
    }
}
