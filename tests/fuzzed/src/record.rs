//! Any text as a learner's record: read or refused with a reason, written and read back equal, put together with itself unchanged,
//! a table without a cell that runs.

use outlean_course::{csv, outcome, pick, read_record};

pub fn held(text: &str) {
    match read_record(text) {
        Ok(record) => {
            assert!(read_record(&record.file()).is_ok_and(|again| again == record));
            assert!(record.clone().merged(record.clone()).is_ok_and(|merged| merged == record));
            is_table(&csv([&record]), record.attempts.len() + 1);
            let _ = pick(&record.attempts, &[], 20_000, 12, 1);
            let ended = outcome(&record.attempts, &record.attempts, &[], 20_000, 0.8);
            assert!((0.0..=1.0).contains(&ended.share), "{}", ended.share);
        }
        Err(why) => assert!(why.0.field.chars().count() <= 60 && why.0.value.chars().count() <= 60),
    }
}

/// RFC 4180: as many cells in every row as in the first, and none that a spreadsheet takes for a formula.
pub fn is_table(table: &str, rows: usize) {
    let all = read_rows(table);
    assert_eq!(all.len(), rows);
    let wide = all.first().map_or(0, Vec::len);
    for row in &all {
        assert_eq!(row.len(), wide, "{row:?}");
        for cell in row {
            let runs = cell.trim_start().starts_with(['=', '+', '@', '-']);
            assert!(!runs, "{cell:?}");
        }
    }
}

fn read_rows(table: &str) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    let (mut row, mut cell, mut quoted) = (Vec::new(), String::new(), false);
    let mut letters = table.chars().peekable();
    while let Some(letter) = letters.next() {
        match (quoted, letter) {
            (true, '"') if letters.next_if_eq(&'"').is_some() => cell.push('"'),
            (_, '"') => quoted = !quoted,
            (false, ',') => row.push(core::mem::take(&mut cell)),
            (false, '\r') if letters.next_if_eq(&'\n').is_some() => {
                row.push(core::mem::take(&mut cell));
                rows.push(core::mem::take(&mut row));
            }
            (false, '\r' | '\n') => panic!("a line ends within a row"),
            (_, letter) => cell.push(letter),
        }
    }
    assert!(!quoted && cell.is_empty() && row.is_empty(), "the last line is not ended");
    rows
}
