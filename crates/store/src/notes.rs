//! Notes that fall on a film frame.

use rusqlite::{Connection, OptionalExtension, Row};
use serde::{Deserialize, Serialize};

use crate::{Production, StoreError};

/// A note as it is kept. It names the film frame and no place in a cut, so it
/// stays where it fell when the film is cut anew.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct NoteRecord {
    /// The roll.
    pub roll: String,
    /// The film frame on it.
    pub frame: u32,
    /// What is noted.
    pub words: String,
    /// Who noted it; empty when nobody said.
    pub writer: String,
    /// When, in UTC.
    pub made: String,
}

impl NoteRecord {
    /// A note made now.
    #[must_use]
    pub fn new(roll: &str, frame: u32, words: &str, writer: &str) -> Self {
        Self {
            roll: roll.to_owned(),
            frame,
            words: words.to_owned(),
            writer: writer.to_owned(),
            made: crate::production::now(),
        }
    }
}

const COLUMNS: &str = "roll, frame, words, writer, made";

impl Production {
    /// All notes with their numbers, by roll and frame, then as they were made.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn notes(&self) -> Result<Vec<(i64, NoteRecord)>, StoreError> {
        let query = format!("SELECT id, {COLUMNS} FROM note ORDER BY roll, frame, id");
        let mut query = self.db.prepare_cached(&query)?;
        let rows = query.query_map([], numbered)?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// The notes of one roll with their numbers, by frame, then as they were made.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn notes_of(&self, roll: &str) -> Result<Vec<(i64, NoteRecord)>, StoreError> {
        let query = format!("SELECT id, {COLUMNS} FROM note WHERE roll = ?1 ORDER BY frame, id");
        let mut query = self.db.prepare_cached(&query)?;
        let rows = query.query_map([roll], numbered)?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// The number for the next new note: above every number there ever was, so
    /// that a note taken away never hands its number on.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn next_note_id(&self) -> Result<i64, StoreError> {
        let highest: Option<i64> = self
            .db
            .prepare_cached("SELECT seq FROM sqlite_sequence WHERE name = 'note'")?
            .query_row([], |r| r.get(0))
            .optional()?;
        Ok(highest.unwrap_or(0) + 1)
    }
}

fn numbered(row: &Row<'_>) -> rusqlite::Result<(i64, NoteRecord)> {
    let note = NoteRecord {
        roll: row.get(1)?,
        frame: row.get(2)?,
        words: row.get(3)?,
        writer: row.get(4)?,
        made: row.get(5)?,
    };
    Ok((row.get(0)?, note))
}

/// Puts a note, and gives what stood there.
pub(crate) fn put(
    db: &Connection,
    id: i64,
    note: Option<&NoteRecord>,
) -> Result<Option<NoteRecord>, StoreError> {
    let query = format!("SELECT id, {COLUMNS} FROM note WHERE id = ?1");
    let before = db
        .prepare_cached(&query)?
        .query_row([id], numbered)
        .optional()?
        .map(|(_, note)| note);
    let Some(note) = note else {
        db.execute("DELETE FROM note WHERE id = ?1", [id])?;
        return Ok(before);
    };
    let insert = format!(
        "INSERT INTO note (id, {COLUMNS}) VALUES (?1,?2,?3,?4,?5,?6)
         ON CONFLICT (id) DO UPDATE SET roll=?2, frame=?3, words=?4, writer=?5, made=?6"
    );
    db.prepare_cached(&insert)?.execute((
        id,
        &note.roll,
        note.frame,
        &note.words,
        &note.writer,
        &note.made,
    ))?;
    Ok(before)
}
