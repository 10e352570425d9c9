//! Rolls and their scans.

use rusqlite::{Connection, OptionalExtension, Row};

use crate::{InspectionRecord, Production, RollRecord, ScanRecord, StoreError};

const COLUMNS: &str = "name, gauge, film_speed, base, fit, wind, frames, missing, expected, measured, shrinkage, proved_by, inspection";

impl Production {
    /// All rolls by name, as kept.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::Unreadable`].
    pub fn rolls(&self) -> Result<Vec<RollRecord>, StoreError> {
        let mut query = self
            .db
            .prepare_cached("SELECT name FROM roll ORDER BY name")?;
        let names: Vec<String> = query
            .query_map([], |r| r.get(0))?
            .collect::<Result<_, _>>()?;
        names.iter().map(|name| self.roll(name)).collect()
    }

    /// One roll as kept.
    ///
    /// # Errors
    /// [`StoreError::NotFound`], [`StoreError::Sql`] or
    /// [`StoreError::Unreadable`].
    pub fn roll(&self, name: &str) -> Result<RollRecord, StoreError> {
        get(&self.db, name)?.ok_or_else(|| StoreError::NotFound {
            what: "roll",
            name: name.to_owned(),
        })
    }
}

fn get(db: &Connection, name: &str) -> Result<Option<RollRecord>, StoreError> {
    let query = format!("SELECT {COLUMNS} FROM roll WHERE name = ?1");
    let found = db
        .prepare_cached(&query)?
        .query_row([name], |row| Ok((read(row)?, row.get::<_, String>(12)?)))
        .optional()?;
    let Some((mut roll, inspection)) = found else {
        return Ok(None);
    };
    roll.inspection = serde_json::from_str(&inspection)?;
    roll.scans = scans(db, name)?;
    Ok(Some(roll))
}

fn read(row: &Row<'_>) -> rusqlite::Result<RollRecord> {
    Ok(RollRecord {
        name: row.get(0)?,
        gauge: row.get(1)?,
        film_speed: row.get(2)?,
        base: row.get(3)?,
        fit: row.get(4)?,
        wind: row.get(5)?,
        frames: row.get(6)?,
        missing: row.get(7)?,
        expected: row.get(8)?,
        measured: row.get(9)?,
        shrinkage: row.get(10)?,
        proved_by: row.get(11)?,
        inspection: InspectionRecord::default(),
        scans: Vec::new(),
    })
}

fn scans(db: &Connection, roll: &str) -> Result<Vec<ScanRecord>, StoreError> {
    let mut query = db.prepare_cached(
        "SELECT paths, bytes, blake3, facts FROM scan WHERE roll = ?1 ORDER BY part",
    )?;
    let rows = query.query_map([roll], |r| {
        Ok((
            r.get::<_, String>(0)?,
            r.get::<_, i64>(1)?,
            r.get::<_, String>(2)?,
            r.get::<_, String>(3)?,
        ))
    })?;
    let mut out = Vec::new();
    for row in rows {
        let (paths, bytes, blake3, facts) = row?;
        out.push(ScanRecord {
            paths: serde_json::from_str(&paths)?,
            bytes: u64::try_from(bytes).unwrap_or(0),
            blake3,
            facts: serde_json::from_str(&facts)?,
        });
    }
    Ok(out)
}

/// Puts a roll, and gives what stood there.
///
/// The takes of a roll that is only replaced stay: they are put by their own
/// act.
pub(crate) fn put(
    db: &Connection,
    name: &str,
    roll: Option<&RollRecord>,
) -> Result<Option<RollRecord>, StoreError> {
    let before = get(db, name)?;
    db.execute("DELETE FROM scan WHERE roll = ?1", [name])?;
    let Some(roll) = roll else {
        db.execute("DELETE FROM roll WHERE name = ?1", [name])?;
        return Ok(before);
    };
    let insert = format!(
        "INSERT INTO roll ({COLUMNS}) VALUES (?1,?2,?3,?4,?5,?6,?7,?8,?9,?10,?11,?12,?13)
         ON CONFLICT (name) DO UPDATE SET gauge=?2, film_speed=?3, base=?4, fit=?5, wind=?6,
         frames=?7, missing=?8, expected=?9, measured=?10, shrinkage=?11, proved_by=?12,
         inspection=?13"
    );
    db.execute(
        &insert,
        (
            name,
            &roll.gauge,
            &roll.film_speed,
            &roll.base,
            &roll.fit,
            &roll.wind,
            roll.frames,
            roll.missing,
            roll.expected,
            &roll.measured,
            &roll.shrinkage,
            &roll.proved_by,
            serde_json::to_string(&roll.inspection)?,
        ),
    )?;
    for (part, scan) in roll.scans.iter().enumerate() {
        db.execute(
            "INSERT INTO scan (roll, part, paths, bytes, blake3, facts) VALUES (?1,?2,?3,?4,?5,?6)",
            (
                name,
                i64::try_from(part).unwrap_or(i64::MAX),
                serde_json::to_string(&scan.paths)?,
                i64::try_from(scan.bytes).unwrap_or(i64::MAX),
                &scan.blake3,
                serde_json::to_string(&scan.facts)?,
            ),
        )?;
    }
    Ok(before)
}
