//! Making a workprint while a roll is read.

use std::fs::File;
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};

use rusqlite::Connection;

use crate::production::{file, remove_if_there};
use crate::{StoreError, workprint_index};

/// Rows written in one transaction: some seconds of film.
const BATCH: usize = 256;

/// One film frame as it comes from the reading.
#[derive(Debug, Clone, PartialEq)]
pub struct NewFrame<'a> {
    /// The picture as a JPEG; none when the transfer does not show the frame.
    pub jpeg: Option<&'a [u8]>,
    /// Which of the roll's scans shows it, and which of its file frames.
    pub shown_by: Option<(u32, u64)>,
    /// What it is made of, where it is not that file frame alone: in the words of
    /// whoever puts pictures together, given back as they are.
    pub made_of: Option<String>,
    /// Mean level. Unit: grey levels, 0 to 255.
    pub level: f64,
    /// Sharpness; unit as `inspect` says.
    pub sharpness: f64,
    /// Change against the frame before; unit as `inspect` says.
    pub change: f64,
}

/// One file frame as it comes from the reading: how to find it again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FileFrameRow {
    /// Its time in the stream's own units.
    pub pts: Option<i64>,
    /// Whether decoding can begin there.
    pub key: bool,
    /// The number in a picture's name, for a sequence.
    pub number: Option<u64>,
    /// Where its packet begins in the file. Unit: bytes.
    pub byte_pos: Option<u64>,
    /// The hash of its measuring plane, to know the frame again.
    pub plane: u64,
}

#[derive(Debug)]
struct Row {
    place: Option<(u64, u32)>,
    shown_by: Option<(u32, u64)>,
    made_of: Option<String>,
    level: f64,
    sharpness: f64,
    change: f64,
}

/// A workprint in the making. Dropped before [`WorkprintWriter::finish`], it
/// takes away what it has written.
#[derive(Debug)]
pub struct WorkprintWriter {
    db: Connection,
    dir: PathBuf,
    id: i64,
    name: String,
    pictures: BufWriter<File>,
    place: u64,
    frames: u32,
    waiting: Vec<Row>,
    file_frames: Vec<(u32, u64, FileFrameRow)>,
    finished: bool,
}

impl WorkprintWriter {
    /// Begins the workprint of a roll; an earlier one stays in use until this
    /// one is finished.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    pub fn begin(dir: &Path, roll: &str) -> Result<Self, StoreError> {
        let db = workprint_index::open(dir)?;
        db.execute(
            "INSERT INTO workprint (roll, file, scan) VALUES (?1, '', '')",
            [roll],
        )?;
        let id = db.last_insert_rowid();
        let name = format!("{roll}-{id}.mjpeg");
        db.execute("UPDATE workprint SET file = ?1 WHERE id = ?2", (&name, id))?;
        let path = workprint_index::folder(dir).join(&name);
        let pictures = File::create(&path).map_err(file("the workprint", &path))?;
        Ok(Self {
            db,
            dir: dir.to_owned(),
            id,
            name,
            pictures: BufWriter::with_capacity(1 << 20, pictures),
            place: 0,
            frames: 0,
            waiting: Vec::with_capacity(BATCH),
            file_frames: Vec::with_capacity(BATCH),
            finished: false,
        })
    }

    /// Adds the next film frame of the roll.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    pub fn push(&mut self, frame: &NewFrame<'_>) -> Result<(), StoreError> {
        let place = match frame.jpeg {
            None => None,
            Some(jpeg) => {
                let length = u32::try_from(jpeg.len()).unwrap_or(u32::MAX);
                let path = workprint_index::folder(&self.dir).join(&self.name);
                self.pictures
                    .write_all(jpeg)
                    .map_err(file("the workprint", &path))?;
                let at = self.place;
                self.place += u64::from(length);
                Some((at, length))
            }
        };
        self.waiting.push(Row {
            place,
            shown_by: frame.shown_by,
            made_of: frame.made_of.clone(),
            level: frame.level,
            sharpness: frame.sharpness,
            change: frame.change,
        });
        if self.waiting.len() >= BATCH {
            self.flush()?;
        }
        Ok(())
    }

    /// Adds a file frame of one of the roll's scans, whether or not a film
    /// frame is taken from it.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    pub fn push_file_frame(
        &mut self,
        part: u32,
        file_frame: u64,
        row: FileFrameRow,
    ) -> Result<(), StoreError> {
        self.file_frames.push((part, file_frame, row));
        if self.file_frames.len() >= BATCH * 4 {
            self.flush()?;
        }
        Ok(())
    }

    /// Adds the time base of one of the roll's scans. Unit: seconds a tick.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn push_part(&self, part: u32, time_base: Option<(u64, u64)>) -> Result<(), StoreError> {
        self.db.execute(
            "INSERT INTO part (workprint, part, time_base_num, time_base_den) VALUES (?1,?2,?3,?4)",
            (
                self.id,
                part,
                time_base.map(|b| signed(b.0)),
                time_base.map(|b| signed(b.1)),
            ),
        )?;
        Ok(())
    }

    /// Pictures first, then the rows that name them.
    fn flush(&mut self) -> Result<(), StoreError> {
        let path = workprint_index::folder(&self.dir).join(&self.name);
        self.pictures
            .flush()
            .map_err(file("the workprint", &path))?;
        let rows = std::mem::take(&mut self.waiting);
        let file_frames = std::mem::take(&mut self.file_frames);
        let change = self.db.transaction()?;
        insert_frames(&change, self.id, self.frames, &rows)?;
        insert_file_frames(&change, self.id, &file_frames)?;
        change.commit()?;
        self.frames += u32::try_from(rows.len()).unwrap_or(0);
        Ok(())
    }

    /// Brings all that was pushed onto the disk. For whoever must not wait for
    /// the disk while it completes the workprint: that is quick after this.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    pub fn settle(&mut self) -> Result<(), StoreError> {
        self.flush()?;
        let path = workprint_index::folder(&self.dir).join(&self.name);
        self.pictures
            .get_ref()
            .sync_all()
            .map_err(file("the workprint", &path))
    }

    /// Keeps what signs are judged by, to be given back as it is.
    ///
    /// # Errors
    /// [`StoreError::Sql`].
    pub fn keep_signs(&mut self, kept: &[u8]) -> Result<(), StoreError> {
        self.db.execute(
            "UPDATE workprint SET signs = ?2 WHERE id = ?1",
            (self.id, kept),
        )?;
        Ok(())
    }

    /// Completes the workprint: it is the roll's from now on, and an earlier
    /// one is taken away. `scan` is the hash of the scans it was made from, known
    /// only now; `report` is what the reading found. Both are kept as given.
    /// Gives the number of film frames.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    pub fn finish(mut self, scan: &str, report: &str) -> Result<u32, StoreError> {
        self.settle()?;
        // Seen and instead of the earlier one at the same moment. What others
        // are writing meanwhile is no business of this one.
        let change = self.db.transaction()?;
        change.execute(
            "UPDATE workprint SET complete = 1, frames = ?2, scan = ?3, report = ?4 WHERE id = ?1",
            (self.id, self.frames, scan, report),
        )?;
        let replaced = listed(
            &change,
            "SELECT old.id, old.file FROM workprint AS old JOIN workprint AS new ON new.id = ?1
             WHERE old.roll = new.roll AND old.id < new.id AND old.complete = 1",
            [self.id],
        )?;
        for (id, _) in &replaced {
            remove_rows(&change, *id)?;
        }
        change.commit()?;
        self.finished = true;
        for (_, name) in &replaced {
            remove_if_there(&workprint_index::folder(&self.dir).join(name))?;
        }
        Ok(self.frames)
    }
}

impl Drop for WorkprintWriter {
    fn drop(&mut self) {
        if self.finished {
            return;
        }
        // Whatever stays behind here is swept at the next start.
        let _gone = remove(&mut self.db, &self.dir, self.id, &self.name);
    }
}

fn signed(n: u64) -> i64 {
    i64::try_from(n).unwrap_or(i64::MAX)
}

fn insert_frames(db: &Connection, id: i64, first: u32, rows: &[Row]) -> Result<(), StoreError> {
    let mut insert = db.prepare_cached(
        "INSERT INTO frame (workprint, frame, place, length, part, file_frame, made_of, level, sharpness,
         change) VALUES (?1,?2,?3,?4,?5,?6,?7,?8,?9,?10)",
    )?;
    for (frame, row) in (first..).zip(rows) {
        insert.execute((
            id,
            frame,
            row.place.map(|p| signed(p.0)),
            row.place.map(|p| p.1),
            row.shown_by.map(|s| s.0),
            row.shown_by.map(|s| signed(s.1)),
            &row.made_of,
            row.level,
            row.sharpness,
            row.change,
        ))?;
    }
    Ok(())
}

fn insert_file_frames(
    db: &Connection,
    id: i64,
    rows: &[(u32, u64, FileFrameRow)],
) -> Result<(), StoreError> {
    let mut insert = db.prepare_cached(
        "INSERT INTO file_frame (workprint, part, file_frame, pts, key_frame, number, byte_pos, plane)
         VALUES (?1,?2,?3,?4,?5,?6,?7,?8)",
    )?;
    for (part, file_frame, row) in rows {
        insert.execute((
            id,
            part,
            signed(*file_frame),
            row.pts,
            row.key,
            row.number.map(signed),
            row.byte_pos.map(signed),
            // The bits are kept; SQLite knows signed numbers only.
            i64::from_ne_bytes(row.plane.to_ne_bytes()),
        ))?;
    }
    Ok(())
}

fn remove_rows(db: &Connection, id: i64) -> Result<(), StoreError> {
    for table in ["frame", "file_frame", "part"] {
        db.execute(&format!("DELETE FROM {table} WHERE workprint = ?1"), [id])?;
    }
    db.execute("DELETE FROM workprint WHERE id = ?1", [id])?;
    Ok(())
}

pub(crate) fn remove(
    db: &mut Connection,
    dir: &Path,
    id: i64,
    name: &str,
) -> Result<(), StoreError> {
    let change = db.transaction()?;
    remove_rows(&change, id)?;
    change.commit()?;
    remove_if_there(&workprint_index::folder(dir).join(name))
}

/// Numbers and file names of workprints.
pub(crate) fn listed(
    db: &Connection,
    query: &str,
    given: impl rusqlite::Params,
) -> Result<Vec<(i64, String)>, StoreError> {
    let mut query = db.prepare(query)?;
    let rows = query.query_map(given, |r| Ok((r.get(0)?, r.get(1)?)))?;
    Ok(rows.collect::<Result<_, _>>()?)
}
