//! Any text as a learner's record: read or refused, written and read back equal, put together with itself unchanged. No
//! panic, no hang.
#![no_main]

use libfuzzer_sys::fuzz_target;
use outlean_course::{csv, outcome, pick, read_record};

fuzz_target!(|text: &str| {
    let Ok(record) = read_record(text) else { return };
    assert!(read_record(&record.file()).is_ok_and(|again| again == record));
    assert!(record.clone().merged(record.clone()).is_ok_and(|merged| merged == record));
    let rows = csv(&[record.clone()]);
    assert!(rows.ends_with("\r\n"));
    let _ = pick(&record.attempts, &[], 20_000, 12, 1);
    let _ = outcome(&record.attempts, &record.attempts, &[], 20_000, 0.8);
});
