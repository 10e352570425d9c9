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
    /// Versions of the cut.
    pub cuts: u32,
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
        let last = "SELECT at FROM journal ORDER BY seq DESC LIMIT 1";
        Ok(Peek {
            meta: read_meta(&db)?,
            rolls: count("roll")?,
            frames: u64::try_from(frames).unwrap_or(0),
            cuts: count("cut")?,
            changed: db.query_row(last, [], |r| r.get(0)).optional()?,
        })
    }
}
