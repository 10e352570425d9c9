//! The sound of the film as it is kept: sounds, columns of the dubbing chart and cues. What
//! each is made of is one text that the store does not read.

use rusqlite::{Connection, OptionalExtension, Row};
use serde::{Deserialize, Serialize};

use crate::{Production, StoreError};

/// What a part of the sound is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DubKind {
    /// A sound that is kept with the film.
    Sound,
    /// A column of the dubbing chart.
    Column,
    /// A cue.
    Cue,
    /// A pass of the mix, as it was recorded.
    Pass,
}

impl DubKind {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Sound => "sound",
            Self::Column => "column",
            Self::Cue => "cue",
            Self::Pass => "pass",
        }
    }
}

/// A part of the sound and where it stands among its like.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct DubRecord {
    /// What it is.
    pub kind: DubKind,
    /// Parts of one kind stand in the order of this number; gaps are wanted, so that one
    /// can be put between without a word to the rest.
    pub place: i64,
    /// What it is made of: JSON, written and read by whoever lays sound.
    pub body: String,
}

impl Production {
    /// All parts of one kind with their numbers, as they stand.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn dub(&self, kind: DubKind) -> Result<Vec<(i64, DubRecord)>, StoreError> {
        let query = "SELECT id, place, body FROM dub WHERE kind = ?1 ORDER BY place, id";
        let mut query = self.db.prepare_cached(query)?;
        let one = |row: &Row<'_>| {
            let (place, body) = (row.get(1)?, row.get(2)?);
            Ok((row.get(0)?, DubRecord { kind, place, body }))
        };
        let rows = query.query_map([kind.word()], one)?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// One part, whatever kind it is of.
    ///
    /// # Errors
    /// [`StoreError::NotFound`], [`StoreError::Sql`], [`StoreError::Unreadable`].
    pub fn dub_part(&self, id: i64) -> Result<DubRecord, StoreError> {
        get(&self.db, id)?.ok_or(StoreError::NotFound {
            what: "part of the sound",
            name: id.to_string(),
        })
    }

    /// The number for the next new part: above every number there ever was.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn next_dub_id(&self) -> Result<i64, StoreError> {
        let highest: Option<i64> = self
            .db
            .prepare_cached("SELECT seq FROM sqlite_sequence WHERE name = 'dub'")?
            .query_row([], |r| r.get(0))
            .optional()?;
        Ok(highest.unwrap_or(0) + 1)
    }
}

fn get(db: &Connection, id: i64) -> Result<Option<DubRecord>, StoreError> {
    let row: Option<(String, i64, String)> = db
        .prepare_cached("SELECT kind, place, body FROM dub WHERE id = ?1")?
        .query_row([id], |r| Ok((r.get(0)?, r.get(1)?, r.get(2)?)))
        .optional()?;
    let Some((word, place, body)) = row else {
        return Ok(None);
    };
    let all = [DubKind::Sound, DubKind::Column, DubKind::Cue, DubKind::Pass];
    let kind = all.into_iter().find(|kind| kind.word() == word);
    let kind = kind.ok_or_else(|| StoreError::unreadable("a part of the sound", id))?;
    Ok(Some(DubRecord { kind, place, body }))
}

/// Puts a part, and gives what stood there.
pub(crate) fn put(
    db: &Connection,
    id: i64,
    record: Option<&DubRecord>,
) -> Result<Option<DubRecord>, StoreError> {
    let before = get(db, id)?;
    let Some(record) = record else {
        db.execute("DELETE FROM dub WHERE id = ?1", [id])?;
        return Ok(before);
    };
    db.prepare_cached(
        "INSERT INTO dub (id, kind, place, body) VALUES (?1,?2,?3,?4)
         ON CONFLICT (id) DO UPDATE SET kind=?2, place=?3, body=?4",
    )?
    .execute((id, record.kind.word(), record.place, &record.body))?;
    Ok(before)
}
