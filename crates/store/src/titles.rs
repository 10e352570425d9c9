//! The titles of the film as they are kept: what a title is made of is one text that the
//! store does not read.

use rusqlite::{Connection, OptionalExtension, Row};
use serde::{Deserialize, Serialize};

use crate::{Production, StoreError};

/// A title and where it stands in the list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct TitleRecord {
    /// Titles stand in the order of this number; gaps are wanted, so that one can be put
    /// between without a word to the rest.
    pub place: i64,
    /// What it is: JSON, written and read by whoever makes titles.
    pub body: String,
}

impl Production {
    /// All titles with their numbers, as they stand.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn titles(&self) -> Result<Vec<(i64, TitleRecord)>, StoreError> {
        let query = "SELECT id, place, body FROM title ORDER BY place, id";
        let mut query = self.db.prepare_cached(query)?;
        let rows = query.query_map([], numbered)?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// One title.
    ///
    /// # Errors
    /// [`StoreError::NotFound`], [`StoreError::Sql`].
    pub fn title(&self, id: i64) -> Result<TitleRecord, StoreError> {
        get(&self.db, id)?.ok_or(StoreError::NotFound {
            what: "title",
            name: id.to_string(),
        })
    }

    /// The number for the next new title: above every number there ever was.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn next_title_id(&self) -> Result<i64, StoreError> {
        let highest: Option<i64> = self
            .db
            .prepare_cached("SELECT seq FROM sqlite_sequence WHERE name = 'title'")?
            .query_row([], |r| r.get(0))
            .optional()?;
        Ok(highest.unwrap_or(0) + 1)
    }
}

fn numbered(row: &Row<'_>) -> rusqlite::Result<(i64, TitleRecord)> {
    let (place, body) = (row.get(1)?, row.get(2)?);
    Ok((row.get(0)?, TitleRecord { place, body }))
}

fn get(db: &Connection, id: i64) -> Result<Option<TitleRecord>, StoreError> {
    let row = db
        .prepare_cached("SELECT id, place, body FROM title WHERE id = ?1")?
        .query_row([id], numbered)
        .optional()?;
    Ok(row.map(|(_, record)| record))
}

/// Puts a title, and gives what stood there.
pub(crate) fn put(
    db: &Connection,
    id: i64,
    record: Option<&TitleRecord>,
) -> Result<Option<TitleRecord>, StoreError> {
    let before = get(db, id)?;
    let Some(record) = record else {
        db.execute("DELETE FROM title WHERE id = ?1", [id])?;
        return Ok(before);
    };
    db.prepare_cached(
        "INSERT INTO title (id, place, body) VALUES (?1,?2,?3)
         ON CONFLICT (id) DO UPDATE SET place=?2, body=?3",
    )?
    .execute((id, record.place, &record.body))?;
    Ok(before)
}
