//! The log of the bench: lines that are added and never changed or taken away.

use rusqlite::Connection;

use crate::production::now;
use crate::{Production, StoreError};

/// One line of the log.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BenchLineRecord {
    /// Its number, counted from 1 without a gap.
    pub number: u32,
    /// When it was written, in UTC.
    pub at: String,
    /// Who wrote it: empty on the main machine, else the name of a tablet.
    pub by: String,
    /// What it says, as whoever wrote it puts it.
    pub line: String,
}

impl Production {
    /// All lines, oldest first.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn bench_lines(&self) -> Result<Vec<BenchLineRecord>, StoreError> {
        let mut query = self
            .db
            .prepare_cached("SELECT number, at, writer, line FROM bench_line ORDER BY number")?;
        let rows = query.query_map([], record)?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// The lines that call themselves one of these under `line`, oldest first.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn bench_lines_of(&self, kinds: &[&str]) -> Result<Vec<BenchLineRecord>, StoreError> {
        let mut query = self.db.prepare_cached(
            "SELECT number, at, writer, line FROM bench_line
             WHERE json_extract(line, '$.line') IN (SELECT value FROM json_each(?1))
             ORDER BY number",
        )?;
        let rows = query.query_map([serde_json::to_string(kinds)?], record)?;
        Ok(rows.collect::<Result<_, _>>()?)
    }
}

fn record(row: &rusqlite::Row<'_>) -> rusqlite::Result<BenchLineRecord> {
    Ok(BenchLineRecord {
        number: row.get(0)?,
        at: row.get(1)?,
        by: row.get(2)?,
        line: row.get(3)?,
    })
}

/// Adds lines behind the last one.
pub(crate) fn add(db: &Connection, by: &str, lines: &[String]) -> Result<(), StoreError> {
    let at = now();
    let mut insert = db.prepare_cached(
        "INSERT INTO bench_line (number, at, writer, line)
         VALUES ((SELECT coalesce(max(number), 0) + 1 FROM bench_line), ?1, ?2, ?3)",
    )?;
    for line in lines {
        insert.execute((&at, by, line))?;
    }
    Ok(())
}
