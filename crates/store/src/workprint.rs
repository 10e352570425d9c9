//! Looking at workprints.

use std::collections::HashMap;
use std::fs::File;
use std::os::unix::fs::FileExt;
use std::path::{Path, PathBuf};

use onestrand_film::FrameRange;
use rusqlite::{Connection, OptionalExtension, Row};

use crate::production::file;
use crate::{FileFrameRow, StoreError, workprint_index, workprint_write};

/// What is known of a finished workprint.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkprintInfo {
    /// The roll.
    pub roll: String,
    /// Film frames in it.
    pub frames: u32,
    /// The hash of the scans it was made from.
    pub scan: String,
    /// What the reading found, as it was given.
    pub report: String,
    /// The picture file.
    pub file: PathBuf,
}

/// Where one film frame comes from, and what was measured on it.
#[derive(Debug, Clone, PartialEq)]
pub struct FrameRow {
    /// The film frame.
    pub frame: u32,
    /// Which of the roll's scans shows it, and which of its file frames; none
    /// when it is missing from the transfer.
    pub shown_by: Option<(u32, u64)>,
    /// Mean level. Unit: grey levels, 0 to 255.
    pub level: f64,
    /// Sharpness; unit as `inspect` says.
    pub sharpness: f64,
    /// Change against the frame before; unit as `inspect` says.
    pub change: f64,
}

/// The file frames of one scan, in order, and the time base of their times.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartIndex {
    /// Unit: seconds a tick, as a fraction.
    pub time_base: Option<(u64, u64)>,
    /// Row n is file frame n.
    pub rows: Vec<FileFrameRow>,
}

/// All finished workprints of a production.
#[derive(Debug)]
pub struct Workprints {
    db: Connection,
    dir: PathBuf,
    open: HashMap<String, Print>,
}

#[derive(Debug)]
struct Print {
    id: i64,
    pictures: File,
    path: PathBuf,
}

impl Workprints {
    /// Opens the workprints, and sweeps away what was never completed.
    ///
    /// Only the owner of the production may do so.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    pub fn open(dir: &Path) -> Result<Self, StoreError> {
        let db = workprint_index::open(dir)?;
        workprint_write::sweep(&db, dir)?;
        Ok(Self {
            db,
            dir: dir.to_owned(),
            open: HashMap::new(),
        })
    }

    /// What is known of a roll's workprint, if it has one.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn info(&self, roll: &str) -> Result<Option<WorkprintInfo>, StoreError> {
        let found = self
            .db
            .prepare_cached(
                "SELECT frames, scan, report, file FROM workprint WHERE roll = ?1 AND complete = 1",
            )?
            .query_row([roll], |r| {
                Ok(WorkprintInfo {
                    roll: roll.to_owned(),
                    frames: r.get(0)?,
                    scan: r.get(1)?,
                    report: r.get(2)?,
                    file: workprint_index::folder(&self.dir).join(r.get::<_, String>(3)?),
                })
            })
            .optional()?;
        Ok(found.filter(|info| info.file.is_file()))
    }

    /// The picture of one frame, as a JPEG; nothing when there is none.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    pub fn picture(&mut self, roll: &str, frame: u32) -> Result<Option<Vec<u8>>, StoreError> {
        self.ready(roll)?;
        let Some(print) = self.open.get(roll) else {
            return Ok(None);
        };
        let place: Option<(Option<i64>, Option<u32>)> = self
            .db
            .prepare_cached("SELECT place, length FROM frame WHERE workprint = ?1 AND frame = ?2")?
            .query_row((print.id, frame), |r| Ok((r.get(0)?, r.get(1)?)))
            .optional()?;
        let Some((Some(place), Some(length))) = place else {
            return Ok(None);
        };
        let mut jpeg = vec![0; length as usize];
        let place = u64::try_from(place).unwrap_or(0);
        print
            .pictures
            .read_exact_at(&mut jpeg, place)
            .map_err(file("the workprint", &print.path))?;
        Ok(Some(jpeg))
    }

    /// Where the frames of a run come from, in order.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    pub fn rows(&mut self, roll: &str, range: FrameRange) -> Result<Vec<FrameRow>, StoreError> {
        self.ready(roll)?;
        let Some(print) = self.open.get(roll) else {
            return Ok(Vec::new());
        };
        let mut query = self.db.prepare_cached(
            "SELECT frame, part, file_frame, level, sharpness, change
             FROM frame WHERE workprint = ?1 AND frame >= ?2 AND frame < ?3 ORDER BY frame",
        )?;
        let ends = (print.id, range.begin().index(), range.end().index());
        let rows = query.query_map(ends, read)?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// How every file frame of one of a roll's scans is found again.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] without a workprint, [`StoreError::Sql`] or
    /// [`StoreError::File`].
    pub fn part_index(&mut self, roll: &str, part: u32) -> Result<PartIndex, StoreError> {
        self.ready(roll)?;
        let print = self.open.get(roll).ok_or_else(|| StoreError::NotFound {
            what: "workprint",
            name: roll.to_owned(),
        })?;
        let base: (Option<i64>, Option<i64>) = self.db.query_row(
            "SELECT time_base_num, time_base_den FROM part WHERE workprint = ?1 AND part = ?2",
            (print.id, part),
            |r| Ok((r.get(0)?, r.get(1)?)),
        )?;
        let mut query = self.db.prepare_cached(
            "SELECT pts, key_frame, number, byte_pos, plane FROM file_frame
             WHERE workprint = ?1 AND part = ?2 ORDER BY file_frame",
        )?;
        let rows = query.query_map((print.id, part), read_file_frame)?;
        Ok(PartIndex {
            time_base: unsigned(base.0).zip(unsigned(base.1)),
            rows: rows.collect::<Result<_, _>>()?,
        })
    }

    /// Makes sure the roll's picture file is open, if it has one.
    fn ready(&mut self, roll: &str) -> Result<(), StoreError> {
        if self.open.contains_key(roll) {
            return Ok(());
        }
        let Some(info) = self.info(roll)? else {
            return Ok(());
        };
        let id = self.db.query_row(
            "SELECT id FROM workprint WHERE roll = ?1 AND complete = 1",
            [roll],
            |r| r.get(0),
        )?;
        let pictures = File::open(&info.file).map_err(file("the workprint", &info.file))?;
        let print = Print {
            id,
            pictures,
            path: info.file,
        };
        self.open.insert(roll.to_owned(), print);
        Ok(())
    }
}

fn unsigned(n: Option<i64>) -> Option<u64> {
    n.and_then(|n| u64::try_from(n).ok())
}

fn read(row: &Row<'_>) -> rusqlite::Result<FrameRow> {
    let part: Option<u32> = row.get(1)?;
    Ok(FrameRow {
        frame: row.get(0)?,
        shown_by: part.zip(unsigned(row.get(2)?)),
        level: row.get(3)?,
        sharpness: row.get(4)?,
        change: row.get(5)?,
    })
}

fn read_file_frame(row: &Row<'_>) -> rusqlite::Result<FileFrameRow> {
    let plane: i64 = row.get(4)?;
    Ok(FileFrameRow {
        pts: row.get(0)?,
        key: row.get(1)?,
        number: unsigned(row.get(2)?),
        byte_pos: unsigned(row.get(3)?),
        plane: u64::from_ne_bytes(plane.to_ne_bytes()),
    })
}
