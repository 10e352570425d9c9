//! Looking at workprints.

use std::collections::HashMap;
use std::path::{Path, PathBuf};

use onestrand_film::FrameRange;
use rusqlite::{Connection, OptionalExtension, Row};

use crate::workprint_pictures::OpenPictures;
use crate::{FileFrameRow, StoreError, workprint_index};

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
    /// What it is made of, where it is not that file frame alone, as it was given.
    pub made_of: Option<String>,
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
///
/// Others may read and write workprints at the same time, through handles of
/// their own: what is seen is always the newest finished one.
#[derive(Debug)]
pub struct Workprints {
    pub(crate) db: Connection,
    pub(crate) dir: PathBuf,
    pub(crate) open: HashMap<String, OpenPictures>,
}

/// Which workprint of a roll (`?1`) is seen: the newest finished one.
pub(crate) const NEWEST: &str = "(SELECT max(id) FROM workprint WHERE roll = ?1 AND complete = 1)";

impl Workprints {
    /// Opens the workprints to look at them.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    pub fn open(dir: &Path) -> Result<Self, StoreError> {
        Ok(Self {
            db: workprint_index::open(dir)?,
            dir: dir.to_owned(),
            open: HashMap::new(),
        })
    }

    /// Opens the workprints of a production that another program may own: nothing is made
    /// and nothing thrown away. None when there are none that this program can read.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn if_there(dir: &Path) -> Result<Option<Self>, StoreError> {
        let db = workprint_index::open_if_there(dir)?;
        Ok(db.map(|db| Self {
            db,
            dir: dir.to_owned(),
            open: HashMap::new(),
        }))
    }

    /// What is known of a roll's workprint, if it has one.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn info(&self, roll: &str) -> Result<Option<WorkprintInfo>, StoreError> {
        let found = self
            .db
            .prepare_cached(&format!(
                "SELECT frames, scan, report, file FROM workprint WHERE id = {NEWEST}"
            ))?
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

    /// A word for the roll's workprint that changes whenever its pictures may:
    /// the beginnings of its scans' hashes, and its number. For whoever keeps
    /// pictures it was handed and asks whether they are still good.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn identity(&self, roll: &str) -> Result<Option<String>, StoreError> {
        let found: Option<(i64, String)> = self
            .db
            .prepare_cached(&format!(
                "SELECT id, scan FROM workprint WHERE id = {NEWEST}"
            ))?
            .query_row([roll], |r| Ok((r.get(0)?, r.get(1)?)))
            .optional()?;
        Ok(found.map(|(id, scan)| {
            let mut word = String::new();
            for hash in scan.split_whitespace() {
                word.extend(hash.chars().take(16));
                word.push('-');
            }
            format!("{word}{id}")
        }))
    }

    /// What signs on a roll are judged by, as it was given; nothing without a workprint.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn signs(&self, roll: &str) -> Result<Option<Vec<u8>>, StoreError> {
        let found: Option<Option<Vec<u8>>> = self
            .db
            .prepare_cached(&format!("SELECT signs FROM workprint WHERE id = {NEWEST}"))?
            .query_row([roll], |r| r.get(0))
            .optional()?;
        Ok(found.flatten())
    }

    /// Where the frames of a run come from, in order.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn rows(&mut self, roll: &str, range: FrameRange) -> Result<Vec<FrameRow>, StoreError> {
        let mut query = self.db.prepare_cached(&format!(
            "SELECT frame, part, file_frame, made_of, level, sharpness, change
             FROM frame WHERE frame >= ?2 AND frame < ?3 AND workprint = {NEWEST} ORDER BY frame"
        ))?;
        let ends = (roll, range.begin().index(), range.end().index());
        let rows = query.query_map(ends, read)?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// Level and change of every frame of a roll that has a picture, in order: the
    /// number of the frame, its [`FrameRow::level`] and its [`FrameRow::change`].
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn light_and_change(&self, roll: &str) -> Result<Vec<(u32, f64, f64)>, StoreError> {
        let mut query = self.db.prepare_cached(&format!(
            "SELECT frame, level, change FROM frame
             WHERE workprint = {NEWEST} AND place IS NOT NULL ORDER BY frame"
        ))?;
        let rows = query.query_map([roll], |r| Ok((r.get(0)?, r.get(1)?, r.get(2)?)))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// How every file frame of one of a roll's scans is found again.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] without a workprint, [`StoreError::Sql`].
    pub fn part_index(&mut self, roll: &str, part: u32) -> Result<PartIndex, StoreError> {
        // Both questions are asked of the same moment.
        let look = self.db.transaction()?;
        let base: Option<(Option<i64>, Option<i64>)> = look
            .prepare_cached(&format!(
                "SELECT time_base_num, time_base_den FROM part
                 WHERE part = ?2 AND workprint = {NEWEST}"
            ))?
            .query_row((roll, part), |r| Ok((r.get(0)?, r.get(1)?)))
            .optional()?;
        let base = base.ok_or_else(|| StoreError::NotFound {
            what: "workprint",
            name: roll.to_owned(),
        })?;
        let mut query = look.prepare_cached(&format!(
            "SELECT pts, key_frame, number, byte_pos, plane FROM file_frame
             WHERE part = ?2 AND workprint = {NEWEST} ORDER BY file_frame"
        ))?;
        let rows = query.query_map((roll, part), read_file_frame)?;
        Ok(PartIndex {
            time_base: unsigned(base.0).zip(unsigned(base.1)),
            rows: rows.collect::<Result<_, _>>()?,
        })
    }
}

pub(crate) fn unsigned(n: Option<i64>) -> Option<u64> {
    n.and_then(|n| u64::try_from(n).ok())
}

fn read(row: &Row<'_>) -> rusqlite::Result<FrameRow> {
    let part: Option<u32> = row.get(1)?;
    Ok(FrameRow {
        frame: row.get(0)?,
        shown_by: part.zip(unsigned(row.get(2)?)),
        made_of: row.get(3)?,
        level: row.get(4)?,
        sharpness: row.get(5)?,
        change: row.get(6)?,
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
