//! The shooting script as it is kept: each scene, setup, wild sound, floor plan and recce
//! note a part of its own, so that a change writes down no more than what it changed.

use rusqlite::{Connection, OptionalExtension, Row};
use serde::{Deserialize, Serialize};

use crate::script_parts::ScriptPart;
use crate::{Production, StoreError};

/// A part of the script and where it stands among its like.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ScriptRecord {
    /// Parts of one kind stand in the order of this number; gaps are wanted, so that
    /// something can be put between without a word to the rest.
    pub place: i64,
    /// What it is.
    pub part: ScriptPart,
}

impl Production {
    /// All parts of the script with their numbers: by kind, then as they stand.
    ///
    /// # Errors
    /// [`StoreError::Sql`], [`StoreError::Unreadable`].
    pub fn script(&self) -> Result<Vec<(i64, ScriptRecord)>, StoreError> {
        let query = "SELECT id, place, body FROM script ORDER BY kind, place, id";
        let mut query = self.db.prepare_cached(query)?;
        let rows = query.query_map([], columns)?;
        rows.map(|row| numbered(row?)).collect()
    }

    /// One part of the script.
    ///
    /// # Errors
    /// [`StoreError::NotFound`], [`StoreError::Sql`], [`StoreError::Unreadable`].
    pub fn script_part(&self, id: i64) -> Result<ScriptRecord, StoreError> {
        get(&self.db, id)?.ok_or(StoreError::NotFound {
            what: "part of the script",
            name: id.to_string(),
        })
    }

    /// The number for the next new part: above every number there ever was.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn next_script_id(&self) -> Result<i64, StoreError> {
        let highest: Option<i64> = self
            .db
            .prepare_cached("SELECT seq FROM sqlite_sequence WHERE name = 'script'")?
            .query_row([], |r| r.get(0))
            .optional()?;
        Ok(highest.unwrap_or(0) + 1)
    }
}

fn columns(row: &Row<'_>) -> rusqlite::Result<(i64, i64, String)> {
    Ok((row.get(0)?, row.get(1)?, row.get(2)?))
}

fn numbered((id, place, body): (i64, i64, String)) -> Result<(i64, ScriptRecord), StoreError> {
    let part = serde_json::from_str(&body)
        .map_err(|_| StoreError::unreadable("a part of the script", id))?;
    Ok((id, ScriptRecord { place, part }))
}

fn get(db: &Connection, id: i64) -> Result<Option<ScriptRecord>, StoreError> {
    let row = db
        .prepare_cached("SELECT id, place, body FROM script WHERE id = ?1")?
        .query_row([id], columns)
        .optional()?;
    row.map(|row| numbered(row).map(|(_, record)| record))
        .transpose()
}

/// Puts a part, and gives what stood there.
pub(crate) fn put(
    db: &Connection,
    id: i64,
    record: Option<&ScriptRecord>,
) -> Result<Option<ScriptRecord>, StoreError> {
    let before = get(db, id)?;
    let Some(record) = record else {
        db.execute("DELETE FROM script WHERE id = ?1", [id])?;
        return Ok(before);
    };
    let body = serde_json::to_string(&record.part)
        .map_err(|_| StoreError::unreadable("a part of the script", id))?;
    db.prepare_cached(
        "INSERT INTO script (id, kind, place, body) VALUES (?1,?2,?3,?4)
         ON CONFLICT (id) DO UPDATE SET kind=?2, place=?3, body=?4",
    )?
    .execute((id, record.part.kind(), record.place, body))?;
    Ok(before)
}
