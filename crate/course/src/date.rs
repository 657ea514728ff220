//! Days and seconds as people write them.

use crate::attempt::DAY;

/// A day since 1970 began as year-month-day, in the calendar that was brought in in 1582 and carried on for ever.
///
/// By eras of 400 years that begin in March (H. Hinnant, "chrono-Compatible Low-Level Date Algorithms", 2013).
#[must_use]
pub fn date(day: u64) -> String {
    // No file holds a later day; what is shown of one is of no use, but it is no panic.
    let shifted = day.min(1 << 40) + 719_468;
    let (era, of_era) = (shifted / 146_097, shifted % 146_097);
    let year = (of_era - of_era / 1460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year + year / 4 - year / 100);
    let from_march = (5 * of_year + 2) / 153;
    let day = of_year - (153 * from_march + 2) / 5 + 1;
    let month = if from_march < 10 { from_march + 3 } else { from_march - 9 };
    let year = year + era * 400 + u64::from(month <= 2);
    format!("{year:04}-{month:02}-{day:02}")
}

/// A second since 1970 began as date and time, UTC.
#[must_use]
pub fn moment(second: u64) -> String {
    let of_day = second % DAY;
    let (hour, minute, second_of) = (of_day / 3600, of_day / 60 % 60, of_day % 60);
    format!("{}T{hour:02}:{minute:02}:{second_of:02}Z", date(second / DAY))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn known_days() {
        // The first from the calendar; the others by Python's datetime.
        for (second, written) in [
            (0, "1970-01-01T00:00:00Z"),
            (951_782_400, "2000-02-29T00:00:00Z"),
            (1_709_251_199, "2024-02-29T23:59:59Z"),
            (4_107_542_400, "2100-03-01T00:00:00Z"),
            (253_402_300_799, "9999-12-31T23:59:59Z"),
        ] {
            assert_eq!(moment(second), written);
        }
        assert!(!moment(u64::MAX).is_empty());
    }
}
