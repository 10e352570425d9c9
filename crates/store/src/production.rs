//! Opening, making and owning a production.

use std::fs::{File, TryLockError};
use std::path::{Path, PathBuf};

use onestrand_film::{Fps, Gauge};
use rusqlite::Connection;

use crate::place::JournalMode;
use crate::{StoreError, migrate, schema};

/// What a production is called and how it runs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Meta {
    /// Its title.
    pub title: String,
    /// The gauge it is cut in.
    pub gauge: Gauge,
    /// The speed it is to run at.
    pub speed: Fps,
}

/// How many changes the production has seen; grows with every act, undo and
/// redo.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Revision(pub(crate) u64);

impl Revision {
    /// A revision as it was told to a caller.
    #[must_use]
    pub const fn new(number: u64) -> Self {
        Self(number)
    }

    /// The plain number.
    #[must_use]
    pub const fn number(self) -> u64 {
        self.0
    }
}

/// One film in the making, owned by this process.
#[derive(Debug)]
pub struct Production {
    dir: PathBuf,
    pub(crate) db: Connection,
    meta: Meta,
    notices: Vec<String>,
    // Held open: the advisory lock goes with the file handle.
    _lock: File,
}

impl Production {
    /// Where the production file of a folder lies.
    #[must_use]
    pub fn database_path(dir: &Path) -> PathBuf {
        dir.join("production.db")
    }

    /// Whether a folder holds a production.
    #[must_use]
    pub fn is_here(dir: &Path) -> bool {
        Self::database_path(dir).is_file()
    }

    /// Makes a new production in a folder, and owns it.
    ///
    /// # Errors
    /// [`StoreError::AlreadyThere`], [`StoreError::Owned`],
    /// [`StoreError::File`], [`StoreError::Sql`]; nothing half-made is left.
    pub fn create(dir: &Path, meta: &Meta) -> Result<Self, StoreError> {
        if Self::is_here(dir) {
            return Err(StoreError::AlreadyThere {
                dir: dir.to_owned(),
            });
        }
        let fresh = !dir.exists();
        let made = Self::create_in(dir, meta);
        if made.is_err() && fresh {
            // Only a folder that this call made is taken away again.
            let _gone = std::fs::remove_dir_all(dir);
        }
        made
    }

    fn create_in(dir: &Path, meta: &Meta) -> Result<Self, StoreError> {
        std::fs::create_dir_all(dir.join("workprints")).map_err(file("the folder", dir))?;
        let lock = own(dir)?;
        // Built under another name and moved into place whole: a kill while
        // making leaves no half production behind.
        let part = dir.join("production.db.part");
        remove_if_there(&part)?;
        let mut db = Connection::open(&part)?;
        migrate::to_newest(&mut db, dir, schema::STEPS)?;
        db.execute(
            "INSERT INTO production (id, title, gauge, speed, created) VALUES (1, ?1, ?2, ?3, ?4)",
            (
                &meta.title,
                meta.gauge.to_string(),
                meta.speed.to_string(),
                now(),
            ),
        )?;
        db.close().map_err(|(_, problem)| problem)?;
        let path = Self::database_path(dir);
        std::fs::rename(&part, &path).map_err(file("the production file", &path))?;
        Self::open_owned(dir, lock)
    }

    /// Opens the production of a folder, and owns it.
    ///
    /// # Errors
    /// [`StoreError::NoProduction`], [`StoreError::Owned`],
    /// [`StoreError::TooNew`], [`StoreError::Damaged`], [`StoreError::Sql`].
    pub fn open(dir: &Path) -> Result<Self, StoreError> {
        if !Self::is_here(dir) {
            return Err(StoreError::NoProduction {
                dir: dir.to_owned(),
            });
        }
        let lock = own(dir)?;
        Self::open_owned(dir, lock)
    }

    fn open_owned(dir: &Path, lock: File) -> Result<Self, StoreError> {
        let mut db = Connection::open(Self::database_path(dir))?;
        let mode = JournalMode::for_folder(dir);
        settings(&db, mode)?;
        quick_check(&db)?;
        migrate::to_newest(&mut db, dir, schema::STEPS)?;
        let meta = read_meta(&db)?;
        let mut notices = Vec::new();
        if mode == JournalMode::Rollback {
            notices.push(
                "this folder is shared or synchronised: the production is kept with a rollback journal, which is slower and safe there".to_owned(),
            );
        }
        let production = Self {
            dir: dir.to_owned(),
            db,
            meta,
            notices,
            _lock: lock,
        };
        production.mark_interrupted_jobs()?;
        Ok(production)
    }

    /// The folder.
    #[must_use]
    pub fn dir(&self) -> &Path {
        &self.dir
    }

    /// What it is called and how it runs.
    #[must_use]
    pub const fn meta(&self) -> &Meta {
        &self.meta
    }

    /// When it was made, to the second, in UTC: `2026-05-09T08:00:00Z`. It is kept for
    /// ever, in copies of the folder too, and so tells two films of one title apart.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn created(&self) -> Result<String, StoreError> {
        let sql = "SELECT created FROM production";
        Ok(self.db.query_row(sql, [], |row| row.get(0))?)
    }

    /// What the user should know about how it was opened.
    #[must_use]
    pub fn notices(&self) -> &[String] {
        &self.notices
    }

    /// The revision now.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn revision(&self) -> Result<Revision, StoreError> {
        read_revision(&self.db)
    }
}

pub(crate) fn read_revision(db: &Connection) -> Result<Revision, StoreError> {
    let number: i64 = db.query_row("SELECT revision FROM production", [], |row| row.get(0))?;
    Ok(Revision(u64::try_from(number).unwrap_or(0)))
}

pub(crate) fn read_meta(db: &Connection) -> Result<Meta, StoreError> {
    let (title, gauge, speed): (String, String, String) =
        db.query_row("SELECT title, gauge, speed FROM production", [], |row| {
            Ok((row.get(0)?, row.get(1)?, row.get(2)?))
        })?;
    Ok(Meta {
        title,
        gauge: gauge
            .parse()
            .map_err(|_| StoreError::unreadable("the gauge", gauge))?,
        speed: speed
            .parse()
            .map_err(|_| StoreError::unreadable("the speed", speed))?,
    })
}

fn settings(db: &Connection, mode: JournalMode) -> Result<(), StoreError> {
    db.busy_timeout(std::time::Duration::from_secs(10))?;
    db.pragma_update(None, "journal_mode", mode.sql())?;
    db.pragma_update(None, "synchronous", "FULL")?;
    db.pragma_update(None, "foreign_keys", "ON")?;
    Ok(())
}

fn quick_check(db: &Connection) -> Result<(), StoreError> {
    let report: String = db.query_row("PRAGMA quick_check(1)", [], |row| row.get(0))?;
    if report == "ok" {
        return Ok(());
    }
    Err(StoreError::Damaged { report })
}

/// Takes the advisory lock of a folder, or says who has it.
fn own(dir: &Path) -> Result<File, StoreError> {
    let path = dir.join("production.lock");
    let lock = File::options()
        .create(true)
        .truncate(false)
        .write(true)
        .open(&path)
        .map_err(file("the lock", &path))?;
    match lock.try_lock() {
        Ok(()) => Ok(lock),
        Err(TryLockError::WouldBlock) => Err(StoreError::Owned {
            dir: dir.to_owned(),
        }),
        Err(TryLockError::Error(source)) => Err(file("the lock", &path)(source)),
    }
}

pub(crate) fn file<'a>(
    what: &'static str,
    path: &'a Path,
) -> impl FnOnce(std::io::Error) -> StoreError + 'a {
    move |source| StoreError::File {
        what,
        source,
        path: path.to_owned(),
    }
}

pub(crate) fn remove_if_there(path: &Path) -> Result<(), StoreError> {
    match std::fs::remove_file(path) {
        Ok(()) => Ok(()),
        Err(problem) if problem.kind() == std::io::ErrorKind::NotFound => Ok(()),
        Err(problem) => Err(file("an old file", path)(problem)),
    }
}

/// The moment, as it is written in the file.
pub(crate) fn now() -> String {
    jiff::Timestamp::now()
        .strftime("%Y-%m-%dT%H:%M:%SZ")
        .to_string()
}
