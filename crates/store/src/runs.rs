//! When an original was run, and through what: a ledger that is kept with its roll.

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan, tz::Offset};
use serde::{Deserialize, Serialize};

/// One run of an original.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RunRecord {
    /// Its number on the roll, counted from 1.
    pub number: u32,
    /// The day, as `2026-03-03`.
    pub on: String,
    /// `projector`, `viewer` or `scanner`.
    pub through: String,
    /// Who ran it.
    pub by: String,
    /// What is to be said of it.
    pub note: String,
}

/// What a text says as the day of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RunDay {
    /// A day that has come.
    Past,
    /// A day that has not come yet, anywhere.
    ToCome,
    /// No day of the calendar.
    None,
}

impl RunRecord {
    /// Reads a day as it is written in the ledger.
    #[must_use]
    pub fn day(text: &str) -> RunDay {
        // The ledger is sorted by its text, so that no other way to write a day will do.
        let Some(day) = text.parse::<Date>().ok().filter(|d| d.to_string() == text) else {
            return RunDay::None;
        };
        // East of here it may be tomorrow already.
        let today = Offset::UTC.to_datetime(Timestamp::now()).date();
        let latest = today.saturating_add(1.day());
        if day > latest {
            RunDay::ToCome
        } else {
            RunDay::Past
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_is_one_of_the_calendar_and_has_come() {
        assert_eq!(RunRecord::day("2026-03-03"), RunDay::Past);
        assert_eq!(RunRecord::day("2024-02-29"), RunDay::Past);
        assert_eq!(RunRecord::day("9000-01-01"), RunDay::ToCome);
        for wrong in [
            "",
            "2026-02-29",
            "2026-3-3",
            "3 March",
            "20260303",
            "2026-03-03T10:00",
        ] {
            assert_eq!(RunRecord::day(wrong), RunDay::None, "{wrong}");
        }
    }
}
