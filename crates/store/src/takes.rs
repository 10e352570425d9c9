//! Takes: the log.

use rusqlite::{Connection, Row};

use crate::{Production, StoreError, TakeRecord, pins};

const COLUMNS: &str = "roll, first, thrown, setup, take, rating, size, camera_move, direction, action, note, begins, flash_frames, flash_stops, looked, pin";

impl Production {
    /// All takes by roll and place, as kept.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn takes(&self) -> Result<Vec<TakeRecord>, StoreError> {
        let query = format!("SELECT {COLUMNS} FROM take ORDER BY roll, first");
        let mut query = self.db.prepare_cached(&query)?;
        let rows = query.query_map([], read)?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// The takes of one roll in order, as kept.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn takes_of(&self, roll: &str) -> Result<Vec<TakeRecord>, StoreError> {
        of(&self.db, roll)
    }
}

fn of(db: &Connection, roll: &str) -> Result<Vec<TakeRecord>, StoreError> {
    let query = format!("SELECT {COLUMNS} FROM take WHERE roll = ?1 ORDER BY first");
    let mut query = db.prepare_cached(&query)?;
    let rows = query.query_map([roll], read)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

fn read(row: &Row<'_>) -> rusqlite::Result<TakeRecord> {
    Ok(TakeRecord {
        roll: row.get(0)?,
        first: row.get(1)?,
        thrown: row.get(2)?,
        setup: row.get(3)?,
        take: row.get(4)?,
        rating: row.get(5)?,
        size: row.get(6)?,
        camera_move: row.get(7)?,
        direction: row.get(8)?,
        action: row.get(9)?,
        note: row.get(10)?,
        begins: row.get(11)?,
        flash_frames: row.get(12)?,
        flash_stops: row.get(13)?,
        looked: row.get(14)?,
        pin: row.get(15)?,
    })
}

/// Puts all takes of a roll, and gives those it had.
pub(crate) fn put(
    db: &Connection,
    roll: &str,
    takes: &[TakeRecord],
) -> Result<Vec<TakeRecord>, StoreError> {
    let before = of(db, roll)?;
    db.execute("DELETE FROM take WHERE roll = ?1", [roll])?;
    let pins = pins::for_takes(db, takes, &before)?;
    let insert = format!(
        "INSERT INTO take ({COLUMNS}) VALUES (?1,?2,?3,?4,?5,?6,?7,?8,?9,?10,?11,?12,?13,?14,?15,?16)"
    );
    let mut insert = db.prepare_cached(&insert)?;
    for (take, pin) in takes.iter().zip(pins) {
        insert.execute((
            roll,
            take.first,
            take.thrown,
            &take.setup,
            take.take,
            &take.rating,
            &take.size,
            &take.camera_move,
            &take.direction,
            &take.action,
            &take.note,
            &take.begins,
            take.flash_frames,
            take.flash_stops,
            take.looked,
            pin,
        ))?;
    }
    Ok(before)
}
