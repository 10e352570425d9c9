//! A safe copy while the production is in use.

use std::path::Path;
use std::time::Duration;

use rusqlite::{Connection, OpenFlags, backup::Backup};

use crate::{Production, StoreError};

/// Pages copied at a time: small enough that a writer is never kept waiting.
const PAGES: i32 = 512;

/// Copies a database by SQLite's own backup interface.
///
/// Written beside its place and moved there whole, so that a copy is never
/// half there.
pub(crate) fn copy(from: &Connection, to: &Path) -> Result<(), StoreError> {
    let part = to.with_extension("part");
    let copied = copy_to(from, &part);
    if let Err(problem) = copied {
        // The first problem is the one to tell; a leftover is not half a backup.
        let _gone = std::fs::remove_file(&part);
        return Err(problem);
    }
    std::fs::rename(&part, to).map_err(|source| StoreError::File {
        what: "the backup",
        source,
        path: to.to_owned(),
    })
}

fn copy_to(from: &Connection, part: &Path) -> Result<(), StoreError> {
    let mut target = Connection::open(part)?;
    Backup::new(from, &mut target)?.run_to_completion(PAGES, Duration::from_millis(1), None)?;
    target.pragma_update(None, "journal_mode", "DELETE")?;
    target.close().map_err(|(_, problem)| problem.into())
}

impl Production {
    /// Writes a safe copy of the production file of a folder, also while
    /// another process owns it.
    ///
    /// # Errors
    /// [`StoreError::NoProduction`], [`StoreError::Sql`] or
    /// [`StoreError::File`]; nothing half-made is left.
    pub fn backup(dir: &Path, file: &Path) -> Result<(), StoreError> {
        let path = Self::database_path(dir);
        if !path.is_file() {
            return Err(StoreError::NoProduction {
                dir: dir.to_owned(),
            });
        }
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let db = Connection::open_with_flags(&path, flags)?;
        db.busy_timeout(Duration::from_secs(10))?;
        copy(&db, file)
    }
}
