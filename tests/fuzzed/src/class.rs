//! Records of a class, each after a record separator (U+001E): the table is the same in whatever order they come and however often,
//! and what is no record is told and leaves it as it was.

use crate::record::is_table;
use outlean_class::ClassTable;
use serde_json::Value;

/// Most files of a class.
const MOST_FILES: usize = 8;

pub fn held(text: &str) {
    let files: Vec<&str> = text.split('\u{1e}').take(MOST_FILES).collect();
    let mut table = ClassTable::new();
    for file in &files {
        let before = table.table();
        let told: Value = serde_json::from_str(&table.take(file)).expect("what is told is JSON");
        let aside = told.get("aside").and_then(Value::as_array).expect("a list");
        if told.get("learner").is_some_and(Value::is_null) {
            assert_eq!(aside.len(), 1, "a file that is no record is told why");
            assert_eq!(table.table(), before);
        }
        assert!(aside.iter().all(|why| why.get("field").is_some_and(Value::is_string)));
    }
    let (whole, answers) = (table.table(), table.answers());
    let read: Value = serde_json::from_str(&whole).expect("a table is JSON");
    let learners = read.get("learners").and_then(Value::as_array).map_or(0, Vec::len);
    is_table(&table.csv(), learners + 1);
    let mut other = ClassTable::new();
    for file in files.iter().rev().chain(&files) {
        other.take(file);
    }
    assert_eq!((other.table(), other.answers()), (whole, answers));
}
