//! The clock of the device, for ticks: the only place that reads it for the plan.

use std::time::{SystemTime, UNIX_EPOCH};

/// Date and time now, as text: `2026-06-01 06:40 UTC`.
#[expect(
    clippy::disallowed_methods,
    reason = "a tick says when it was made; nothing that is computed depends on it"
)]
pub(super) fn now() -> String {
    let since = SystemTime::now().duration_since(UNIX_EPOCH);
    as_text(since.map_or(0, |since| since.as_secs()))
}

/// Seconds since the beginning of 1970 as date and time.
fn as_text(seconds: u64) -> String {
    let (mut day, of_day) = (seconds / 86_400, seconds % 86_400);
    let mut year = 1970;
    loop {
        let long = if is_leap(year) { 366 } else { 365 };
        if day < long {
            break;
        }
        day -= long;
        year += 1;
    }
    let february = if is_leap(year) { 29 } else { 28 };
    let mut month = 1;
    for long in [31, february, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] {
        if day < long {
            break;
        }
        day -= long;
        month += 1;
    }
    let (hour, minute) = (of_day / 3600, of_day / 60 % 60);
    format!("{year}-{month:02}-{:02} {hour:02}:{minute:02} UTC", day + 1)
}

fn is_leap(year: u64) -> bool {
    year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn seconds_are_dates() {
        // By `date -u -d @SECONDS`.
        assert_eq!(as_text(0), "1970-01-01 00:00 UTC");
        assert_eq!(as_text(951_782_399), "2000-02-28 23:59 UTC");
        assert_eq!(as_text(951_782_400), "2000-02-29 00:00 UTC");
        assert_eq!(as_text(1_780_295_999), "2026-06-01 06:39 UTC");
        assert_eq!(as_text(4_107_542_400), "2100-03-01 00:00 UTC");
    }
}
