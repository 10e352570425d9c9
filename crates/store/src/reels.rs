//! Reels and cans: what is wound on what.

use rusqlite::{Connection, OptionalExtension, Row};
use serde::{Deserialize, Serialize};

use crate::{Production, StoreError};

/// A reel, core or can as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ReelRecord {
    /// `reel`, `core` or `can`.
    pub kind: String,
    /// What it takes. Unit: feet.
    pub feet: Option<u32>,
    /// How far it is across. Unit: millimetres, as it was written.
    pub across_mm: Option<String>,
    /// How far its hub is across. Unit: millimetres, as it was written.
    #[serde(default)]
    pub hub_mm: Option<String>,
    /// How the film on it lies: `heads`, `tails` or `not-known`.
    pub lies: String,
    /// Where it is kept, in the user's words.
    pub kept_in: String,
    /// The number it has in a collection.
    pub accession: String,
    /// The user's note.
    pub note: String,
    /// What is wound on it, from the head of the first.
    pub wound: Vec<WoundPartRecord>,
}

/// A roll, or a part of one, on a reel.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct WoundPartRecord {
    /// The roll.
    pub roll: String,
    /// Its first frame there, and the first after; all of it where none are said.
    pub span: Option<(u32, u32)>,
}

const COLUMNS: &str = "name, kind, feet, across_mm, hub_mm, lies, kept_in, accession, note, wound";

impl Production {
    /// All reels and cans by their names.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::Json`].
    pub fn reels(&self) -> Result<Vec<(String, ReelRecord)>, StoreError> {
        let query = format!("SELECT {COLUMNS} FROM reel ORDER BY name");
        let mut query = self.db.prepare_cached(&query)?;
        let rows = query.query_map([], read)?;
        let mut all = Vec::new();
        for row in rows {
            all.push(whole(row?)?);
        }
        Ok(all)
    }

    /// One reel or can.
    ///
    /// # Errors
    /// [`StoreError::NotFound`], [`StoreError::Sql`] or [`StoreError::Json`].
    pub fn reel(&self, name: &str) -> Result<ReelRecord, StoreError> {
        get(&self.db, name)?.ok_or_else(|| StoreError::NotFound {
            what: "reel or can",
            name: name.to_owned(),
        })
    }
}

/// A row, with what is wound on it still as text.
fn read(row: &Row<'_>) -> rusqlite::Result<(String, ReelRecord, String)> {
    let reel = ReelRecord {
        kind: row.get(1)?,
        feet: row.get(2)?,
        across_mm: row.get(3)?,
        hub_mm: row.get(4)?,
        lies: row.get(5)?,
        kept_in: row.get(6)?,
        accession: row.get(7)?,
        note: row.get(8)?,
        wound: Vec::new(),
    };
    Ok((row.get(0)?, reel, row.get(9)?))
}

fn whole(
    (name, mut reel, wound): (String, ReelRecord, String),
) -> Result<(String, ReelRecord), StoreError> {
    reel.wound = serde_json::from_str(&wound)?;
    Ok((name, reel))
}

fn get(db: &Connection, name: &str) -> Result<Option<ReelRecord>, StoreError> {
    let query = format!("SELECT {COLUMNS} FROM reel WHERE name = ?1");
    let found = db
        .prepare_cached(&query)?
        .query_row([name], read)
        .optional()?;
    Ok(found.map(whole).transpose()?.map(|(_, reel)| reel))
}

/// Puts a reel, and gives what stood there.
pub(crate) fn put(
    db: &Connection,
    name: &str,
    reel: Option<&ReelRecord>,
) -> Result<Option<ReelRecord>, StoreError> {
    let before = get(db, name)?;
    let Some(reel) = reel else {
        db.execute("DELETE FROM reel WHERE name = ?1", [name])?;
        return Ok(before);
    };
    let insert =
        format!("INSERT OR REPLACE INTO reel ({COLUMNS}) VALUES (?1,?2,?3,?4,?5,?6,?7,?8,?9,?10)");
    db.prepare_cached(&insert)?.execute((
        name,
        &reel.kind,
        reel.feet,
        &reel.across_mm,
        &reel.hub_mm,
        &reel.lies,
        &reel.kept_in,
        &reel.accession,
        &reel.note,
        serde_json::to_string(&reel.wound)?,
    ))?;
    Ok(before)
}
