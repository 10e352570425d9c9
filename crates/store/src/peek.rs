//! A look at a production from outside, without taking it into one's hand.

use std::path::Path;

use rusqlite::{Connection, OpenFlags, OptionalExtension};

use crate::production::read_meta;
use crate::{Meta, Production, StoreError, schema};

/// What a shelf says of a production.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Peek {
    /// What it is called and how it runs.
    pub meta: Meta,
    /// Rolls.
    pub rolls: u32,
    /// Film frames on them.
    pub frames: u64,
    /// Rolls whose scans are proved complete.
    pub proved: u32,
    /// Takes in the log.
    pub takes: u32,
    /// Scenes of the shooting script.
    pub scenes: u32,
    /// Setups of the shooting script.
    pub setups: u32,
    /// Versions of the cut.
    pub cuts: u32,
    /// The version that was made last.
    pub newest_cut: Option<String>,
    /// A frame that stands for the film, by its roll: the middle of its first circled
    /// take, or of its first take.
    pub face: Option<(String, u32)>,
    /// When it was changed last, in UTC.
    pub changed: Option<String>,
}

impl Production {
    /// Looks at a production, also while another process owns it. Nothing is
    /// changed, not even its form.
    ///
    /// # Errors
    /// [`StoreError::NoProduction`], [`StoreError::TooNew`], [`StoreError::Sql`]
    /// or [`StoreError::Unreadable`].
    pub fn peek(dir: &Path) -> Result<Peek, StoreError> {
        if !Self::is_here(dir) {
            return Err(StoreError::NoProduction {
                dir: dir.to_owned(),
            });
        }
        // Not read-only: the journal beside the file may have to be read in
        // first, which SQLite does only for somebody who could write.
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let db = Connection::open_with_flags(Self::database_path(dir), flags)?;
        db.busy_timeout(std::time::Duration::from_secs(2))?;
        let form: u32 = db.query_row("PRAGMA user_version", [], |r| r.get(0))?;
        if form > schema::newest() {
            return Err(StoreError::TooNew {
                found: form,
                known: schema::newest(),
            });
        }
        let count =
            |table: &str| db.query_row(&format!("SELECT count(*) FROM {table}"), [], |r| r.get(0));
        let frames: i64 = db.query_row("SELECT coalesce(sum(frames), 0) FROM roll", [], |r| {
            r.get(0)
        })?;
        // As a roll of the model is proved.
        let proved = "SELECT count(*) FROM roll
                      WHERE (missing = 0 AND expected = frames) OR proved_by IS NOT NULL";
        let newest = "SELECT name FROM cut ORDER BY made DESC, rowid DESC LIMIT 1";
        let face = "SELECT roll, (first + thrown) / 2 FROM take
                    ORDER BY rating <> 'circled', roll, first LIMIT 1";
        let last = "SELECT at FROM journal ORDER BY seq DESC LIMIT 1";
        Ok(Peek {
            meta: read_meta(&db)?,
            rolls: count("roll")?,
            frames: u64::try_from(frames).unwrap_or(0),
            proved: db.query_row(proved, [], |r| r.get(0))?,
            takes: count("take")?,
            scenes: script_parts(&db, "scene")?,
            setups: script_parts(&db, "setup")?,
            cuts: count("cut")?,
            newest_cut: db.query_row(newest, [], |r| r.get(0)).optional()?,
            face: db
                .query_row(face, [], |r| Ok((r.get(0)?, r.get(1)?)))
                .optional()?,
            changed: db.query_row(last, [], |r| r.get(0)).optional()?,
        })
    }
}

/// Parts of the script of a kind; none in a production of a form that had no script.
fn script_parts(db: &Connection, kind: &str) -> Result<u32, StoreError> {
    let there = "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = 'script'";
    if db.query_row(there, [], |r| r.get::<_, u32>(0))? == 0 {
        return Ok(0);
    }
    let count = "SELECT count(*) FROM script WHERE kind = ?1";
    Ok(db.query_row(count, [kind], |r| r.get(0))?)
}
