//! Trial cuts and their pieces.

use rusqlite::{Connection, OptionalExtension, Row};

use crate::{ChangeRecord, CutRecord, PieceRecord, Production, StoreError};

const COLUMNS: &str =
    "kind, roll, first, thrown, frames, title, setup, take, join_after, effect, note";

impl Production {
    /// The names of all versions, in the order they were made.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn cut_names(&self) -> Result<Vec<String>, StoreError> {
        let mut query = self
            .db
            .prepare_cached("SELECT name FROM cut ORDER BY made, rowid")?;
        let rows = query.query_map([], |r| r.get(0))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// One version as kept.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] or [`StoreError::Sql`].
    pub fn cut(&self, name: &str) -> Result<CutRecord, StoreError> {
        get(&self.db, name)?.ok_or_else(|| not_found(name))
    }
}

fn not_found(name: &str) -> StoreError {
    StoreError::NotFound {
        what: "cut",
        name: name.to_owned(),
    }
}

fn get(db: &Connection, name: &str) -> Result<Option<CutRecord>, StoreError> {
    let head = db
        .prepare_cached("SELECT usual_join, note, made FROM cut WHERE name = ?1")?
        .query_row([name], |r| {
            Ok(CutRecord {
                usual_join: r.get(0)?,
                note: r.get(1)?,
                made: r.get(2)?,
                pieces: Vec::new(),
            })
        })
        .optional()?;
    let Some(mut cut) = head else {
        return Ok(None);
    };
    let query = format!("SELECT {COLUMNS} FROM piece WHERE cut = ?1 ORDER BY position");
    let mut query = db.prepare_cached(&query)?;
    cut.pieces = query.query_map([name], read)?.collect::<Result<_, _>>()?;
    Ok(Some(cut))
}

fn read(row: &Row<'_>) -> rusqlite::Result<PieceRecord> {
    Ok(PieceRecord {
        kind: row.get(0)?,
        roll: row.get(1)?,
        first: row.get(2)?,
        thrown: row.get(3)?,
        frames: row.get(4)?,
        title: row.get(5)?,
        setup: row.get(6)?,
        take: row.get(7)?,
        join: row.get(8)?,
        effect: row.get(9)?,
        note: row.get(10)?,
    })
}

/// Puts a whole cut, and gives what stood there.
pub(crate) fn put(
    db: &Connection,
    name: &str,
    cut: Option<&CutRecord>,
) -> Result<Option<CutRecord>, StoreError> {
    let before = get(db, name)?;
    db.execute("DELETE FROM piece WHERE cut = ?1", [name])?;
    let Some(cut) = cut else {
        db.execute("DELETE FROM cut WHERE name = ?1", [name])?;
        return Ok(before);
    };
    db.prepare_cached(
        "INSERT INTO cut (name, usual_join, note, made) VALUES (?1,?2,?3,?4)
         ON CONFLICT (name) DO UPDATE SET usual_join=?2, note=?3, made=?4",
    )?
    .execute((name, &cut.usual_join, &cut.note, &cut.made))?;
    let insert = format!(
        "INSERT INTO piece (cut, position, {COLUMNS}) VALUES (?1,?2,?3,?4,?5,?6,?7,?8,?9,?10,?11,?12,?13)"
    );
    let mut insert = db.prepare_cached(&insert)?;
    for (position, piece) in cut.pieces.iter().enumerate() {
        insert.execute((
            name,
            i64::try_from(position).unwrap_or(i64::MAX),
            &piece.kind,
            &piece.roll,
            piece.first,
            piece.thrown,
            piece.frames,
            &piece.title,
            &piece.setup,
            piece.take,
            &piece.join,
            &piece.effect,
            &piece.note,
        ))?;
    }
    Ok(before)
}

/// Changes a cut by the model's own rules, and gives the inverse change.
pub(crate) fn change(
    db: &Connection,
    name: &str,
    change: &ChangeRecord,
) -> Result<ChangeRecord, StoreError> {
    let record = get(db, name)?.ok_or_else(|| not_found(name))?;
    let (next, inverse) = record.to_model()?.apply(&change.to_model()?)?;
    let next = CutRecord {
        usual_join: next.usual_join().to_string(),
        note: record.note,
        made: record.made,
        pieces: next.pieces().iter().map(Into::into).collect(),
    };
    put(db, name, Some(&next))?;
    Ok((&inverse).into())
}
