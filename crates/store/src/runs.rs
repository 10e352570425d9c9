//! What was done to an original, when and by whom: a ledger that is kept with its roll.

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan, tz::Offset};
use serde::{Deserialize, Serialize};

/// One entry of the ledger of an original: it was run, cleaned, cut, mended, looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HandlingRecord {
    /// Its number on the roll, counted from 1.
    pub number: u32,
    /// What was done: `run`, `cleaning`, `cut`, `opened`, `repair` or `inspection`.
    /// An older program wrote runs only, and did not say so.
    #[serde(default = "run")]
    pub kind: String,
    /// The day, as `2026-03-03`.
    pub on: String,
    /// Through what it was run: `projector`, `viewer` or `scanner`; empty where it
    /// was not.
    #[serde(default)]
    pub through: String,
    /// How many times on that day.
    #[serde(default = "once")]
    pub times: u32,
    /// Who did it.
    pub by: String,
    /// What is to be said of it.
    pub note: String,
}

fn run() -> String {
    "run".to_owned()
}

const fn once() -> u32 {
    1
}

/// What a text says as the day of an entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LedgerDay {
    /// A day that has come.
    Past,
    /// A day that has not come yet, anywhere.
    ToCome,
    /// No day of the calendar.
    None,
}

impl HandlingRecord {
    /// Reads a day as it is written in the ledger.
    #[must_use]
    pub fn day(text: &str) -> LedgerDay {
        // The ledger is sorted by its text, so that no other way to write a day will do.
        let Some(day) = text.parse::<Date>().ok().filter(|d| d.to_string() == text) else {
            return LedgerDay::None;
        };
        // East of here it may be tomorrow already.
        let today = Offset::UTC.to_datetime(Timestamp::now()).date();
        let latest = today.saturating_add(1.day());
        if day > latest {
            LedgerDay::ToCome
        } else {
            LedgerDay::Past
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_is_one_of_the_calendar_and_has_come() {
        assert_eq!(HandlingRecord::day("2026-03-03"), LedgerDay::Past);
        assert_eq!(HandlingRecord::day("2024-02-29"), LedgerDay::Past);
        assert_eq!(HandlingRecord::day("9000-01-01"), LedgerDay::ToCome);
        for wrong in [
            "",
            "2026-02-29",
            "2026-3-3",
            "3 March",
            "20260303",
            "2026-03-03T10:00",
        ] {
            assert_eq!(HandlingRecord::day(wrong), LedgerDay::None, "{wrong}");
        }
    }

    #[test]
    fn an_entry_of_an_older_program_is_one_run() {
        let old = r#"{"number":1,"on":"2026-03-03","through":"viewer","by":"","note":""}"#;
        let entry: HandlingRecord = serde_json::from_str(old).expect("read");
        assert_eq!((entry.kind.as_str(), entry.times), ("run", 1));
    }
}
