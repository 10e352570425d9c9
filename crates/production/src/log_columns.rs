//! The columns of a log, by their headings.

use std::collections::BTreeMap;

use crate::LogReading;
use crate::log_headings::{Heading, heading};
use crate::sheet_csv;
use crate::table::Table;

/// The columns of a log, understood.
pub(crate) struct Columns {
    pub(crate) by_name: BTreeMap<String, Heading>,
    /// Those that go into the note.
    pub(crate) unknown: Vec<String>,
    /// Where takes end, in the columns `from` and `to`.
    pub(crate) last_is_kept: bool,
}

impl Columns {
    /// Understands the headings, and tells what is missing and what stands twice.
    pub(crate) fn of(table: &mut Table, reading: &LogReading) -> Self {
        let written: Vec<String> = table.columns().map(|(w, _)| w.to_owned()).collect();
        // Our own sheet carries what was measured and reckoned: none of it is news.
        let own = written.iter().map(String::as_str).eq(sheet_csv::LOG);
        let mut by_name = BTreeMap::new();
        let mut unknown = Vec::new();
        let mut names = Vec::new();
        let mut twice = Vec::new();
        for text in &written {
            let said = heading(text);
            let name = match said.column {
                // A length is often given in feet and in frames.
                Some("length") if by_name.contains_key("length") => String::new(),
                Some(column) if by_name.contains_key(column) => {
                    twice.push((text.clone(), column));
                    String::new()
                }
                Some(column) => column.to_owned(),
                None if own || text.is_empty() => String::new(),
                None => {
                    unknown.push(text.to_lowercase());
                    text.to_lowercase()
                }
            };
            if said.column.is_some() && !name.is_empty() {
                by_name.insert(name.clone(), said);
            }
            names.push(name);
        }
        table.rename(names);
        for (text, column) in twice {
            table.problem(
                1,
                &text,
                &format!("a second column that says {column}; leave one"),
            );
        }
        Self::missing(table, &by_name, reading);
        let counts = ["in", "out"].iter().all(|c| by_name.contains_key(*c));
        if counts {
            // They say the same as `in` and `out`, in another unit.
            for column in ["from", "to", "length"] {
                by_name.remove(column);
            }
        }
        Self {
            by_name,
            unknown,
            last_is_kept: false,
        }
    }

    fn missing(table: &mut Table, found: &BTreeMap<String, Heading>, reading: &LogReading) {
        let has = |column: &str| found.contains_key(column);
        if !has("roll") && reading.roll.is_none() {
            table.lacks("roll", "roll");
        }
        if !has("in") && !has("from") {
            table.lacks("in", "in, from, start or counter start");
        }
        if !["out", "to", "length"].iter().any(|c| has(c)) {
            table.lacks("out", "out, to, end or length");
        }
    }

    fn has(&self, column: &str) -> bool {
        self.by_name.contains_key(column)
    }

    /// Where a take begins.
    pub(crate) fn first(&self) -> &'static str {
        if self.has("in") { "in" } else { "from" }
    }

    /// Where it ends, or how long it is.
    pub(crate) fn end(&self) -> &'static str {
        let known = ["out", "to"].into_iter().find(|c| self.has(c));
        known.unwrap_or("length")
    }
}
