//! The index of the workprints: a file of its own, that can be thrown away.

use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use std::time::Duration;

use rusqlite::{Connection, ErrorCode};

use crate::StoreError;

/// The form of the index; an index of any other form is thrown away.
const FORM: i64 = 3;

/// How long one handle waits for another.
const PATIENCE: Duration = Duration::from_secs(10);

const TABLES: &str = "
CREATE TABLE workprint (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    roll TEXT NOT NULL,
    file TEXT NOT NULL,
    scan TEXT NOT NULL,
    frames INTEGER NOT NULL DEFAULT 0,
    report TEXT NOT NULL DEFAULT '',
    signs BLOB,
    complete INTEGER NOT NULL DEFAULT 0
) STRICT;
CREATE INDEX workprint_roll ON workprint (roll, complete);

CREATE TABLE part (
    workprint INTEGER NOT NULL,
    part INTEGER NOT NULL,
    time_base_num INTEGER,
    time_base_den INTEGER,
    PRIMARY KEY (workprint, part)
) STRICT, WITHOUT ROWID;

CREATE TABLE file_frame (
    workprint INTEGER NOT NULL,
    part INTEGER NOT NULL,
    file_frame INTEGER NOT NULL,
    pts INTEGER,
    key_frame INTEGER NOT NULL,
    number INTEGER,
    byte_pos INTEGER,
    plane INTEGER NOT NULL,
    PRIMARY KEY (workprint, part, file_frame)
) STRICT, WITHOUT ROWID;

CREATE TABLE frame (
    workprint INTEGER NOT NULL,
    frame INTEGER NOT NULL,
    place INTEGER,
    length INTEGER,
    part INTEGER,
    file_frame INTEGER,
    made_of TEXT,
    level REAL NOT NULL,
    sharpness REAL NOT NULL,
    change REAL NOT NULL,
    PRIMARY KEY (workprint, frame)
) STRICT, WITHOUT ROWID;
";

pub(crate) fn folder(dir: &Path) -> PathBuf {
    dir.join("workprints")
}

/// Held while it is found out whether the index has to be made: two threads that
/// both find none must not both make one.
static OPENING: Mutex<()> = Mutex::new(());

/// Opens the index, and makes it anew when it is missing, of another form or
/// damaged: nothing in it is the only copy. An index that is only busy, or on a
/// disk that refuses, is an error: others may be using it.
pub(crate) fn open(dir: &Path) -> Result<Connection, StoreError> {
    let path = folder(dir).join("index.db");
    std::fs::create_dir_all(folder(dir)).map_err(crate::production::file("the workprints", dir))?;
    // What the lock guards is on the disk, so one poisoned by a panic serves.
    let _one = OPENING.lock().unwrap_or_else(PoisonError::into_inner);
    match open_existing(&path) {
        Ok(Some(db)) => Ok(db),
        Ok(None) => make(&path),
        Err(StoreError::Sql(problem)) if is_damage(&problem) => make(&path),
        Err(other) => Err(other),
    }
}

/// Opens the index where it is there and of this form; it is not touched otherwise.
pub(crate) fn open_if_there(dir: &Path) -> Result<Option<Connection>, StoreError> {
    open_existing(&folder(dir).join("index.db"))
}

fn is_damage(problem: &rusqlite::Error) -> bool {
    matches!(
        problem.sqlite_error_code(),
        Some(ErrorCode::NotADatabase | ErrorCode::DatabaseCorrupt)
    )
}

fn open_existing(path: &Path) -> Result<Option<Connection>, StoreError> {
    if !path.is_file() {
        return Ok(None);
    }
    let db = Connection::open(path)?;
    db.busy_timeout(PATIENCE)?;
    let form: i64 = db.query_row("PRAGMA user_version", [], |r| r.get(0))?;
    if form != FORM {
        return Ok(None);
    }
    settings(&db)?;
    Ok(Some(db))
}

fn make(path: &Path) -> Result<Connection, StoreError> {
    for end in ["", "-wal", "-shm"] {
        let mut name = path.as_os_str().to_owned();
        name.push(end);
        crate::production::remove_if_there(Path::new(&name))?;
    }
    let db = Connection::open(path)?;
    settings(&db)?;
    db.execute_batch(&format!(
        "BEGIN; {TABLES} PRAGMA user_version = {FORM}; COMMIT;"
    ))?;
    Ok(db)
}

fn settings(db: &Connection) -> Result<(), StoreError> {
    db.busy_timeout(PATIENCE)?;
    let mode = path_mode(db);
    db.pragma_update(None, "journal_mode", mode)?;
    // A lost tail of the index is read again from the scan.
    db.pragma_update(None, "synchronous", "NORMAL")?;
    db.pragma_update(None, "mmap_size", 1_i64 << 28)?;
    Ok(())
}

fn path_mode(db: &Connection) -> &'static str {
    use crate::place::JournalMode;
    let dir = db.path().map(Path::new).and_then(Path::parent);
    dir.map_or(JournalMode::Rollback, JournalMode::for_folder)
        .sql()
}
