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
    /// Which of the roll's scans shows it, counted from 0.
    pub part: Option<u32>,
    /// Which file frame of that scan shows it, counted from 0.
    pub file_frame: Option<u64>,
    /// Its time in the stream's own units.
    pub pts: Option<i64>,
    /// Whether decoding can begin there.
    pub key: bool,
    /// Where its packet begins in the file. Unit: bytes.
    pub byte_pos: Option<u64>,
    /// Mean level. Unit: grey levels, 0 to 255.
    pub level: f64,
    /// Sharpness; unit as `inspect` says.
    pub sharpness: f64,
    /// Change against the frame before; unit as `inspect` says.
    pub change: f64,
    /// Hash of the measuring plane, to know the frame again.
    pub hash: Option<[u8; 32]>,
}

#[derive(Debug)]
struct Row {
    place: Option<(u64, u32)>,
    part: Option<u32>,
    file_frame: Option<u64>,
    pts: Option<i64>,
    key: bool,
    byte_pos: Option<u64>,
    level: f64,
    sharpness: f64,
    change: f64,
    hash: Option<[u8; 32]>,
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
    finished: bool,
}

impl WorkprintWriter {
    /// Begins the workprint of a roll; an earlier one stays in use until this
    /// one is finished.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    pub fn begin(dir: &Path, roll: &str, scan: &str) -> Result<Self, StoreError> {
        let db = workprint_index::open(dir)?;
        db.execute(
            "INSERT INTO workprint (roll, file, scan) VALUES (?1, '', ?2)",
            (roll, scan),
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
            part: frame.part,
            file_frame: frame.file_frame,
            pts: frame.pts,
            key: frame.key,
            byte_pos: frame.byte_pos,
            level: frame.level,
            sharpness: frame.sharpness,
            change: frame.change,
            hash: frame.hash,
        });
        if self.waiting.len() >= BATCH {
            self.flush()?;
        }
        Ok(())
    }

    /// Pictures first, then the rows that name them.
    fn flush(&mut self) -> Result<(), StoreError> {
        let path = workprint_index::folder(&self.dir).join(&self.name);
        self.pictures
            .flush()
            .map_err(file("the workprint", &path))?;
        let rows = std::mem::take(&mut self.waiting);
        let signed = |n: u64| i64::try_from(n).unwrap_or(i64::MAX);
        let change = self.db.transaction()?;
        {
            let mut insert = change.prepare_cached(
                "INSERT INTO frame (workprint, frame, place, length, part, file_frame, pts, key_frame, byte_pos, level, sharpness, change, hash)
                 VALUES (?1,?2,?3,?4,?5,?6,?7,?8,?9,?10,?11,?12,?13)",
            )?;
            for row in &rows {
                insert.execute(rusqlite::params![
                    self.id,
                    self.frames,
                    row.place.map(|p| signed(p.0)),
                    row.place.map(|p| p.1),
                    row.part,
                    row.file_frame.map(signed),
                    row.pts,
                    row.key,
                    row.byte_pos.map(signed),
                    row.level,
                    row.sharpness,
                    row.change,
                    row.hash.as_ref().map(<[u8; 32]>::as_slice),
                ])?;
                self.frames += 1;
            }
        }
        change.commit()?;
        Ok(())
    }

    /// Completes the workprint: it is the roll's from now on, and an earlier
    /// one is taken away. Gives the number of film frames.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    pub fn finish(mut self) -> Result<u32, StoreError> {
        self.flush()?;
        let path = workprint_index::folder(&self.dir).join(&self.name);
        self.pictures
            .get_ref()
            .sync_all()
            .map_err(file("the workprint", &path))?;
        self.db.execute(
            "UPDATE workprint SET complete = 1, frames = ?2 WHERE id = ?1",
            (self.id, self.frames),
        )?;
        self.finished = true;
        sweep(&self.db, &self.dir)?;
        Ok(self.frames)
    }
}

impl Drop for WorkprintWriter {
    fn drop(&mut self) {
        if self.finished {
            return;
        }
        // Whatever stays behind here is swept at the next opening.
        let _gone = remove(&self.db, &self.dir, self.id, &self.name);
    }
}

fn remove(db: &Connection, dir: &Path, id: i64, name: &str) -> Result<(), StoreError> {
    db.execute("DELETE FROM frame WHERE workprint = ?1", [id])?;
    db.execute("DELETE FROM workprint WHERE id = ?1", [id])?;
    remove_if_there(&workprint_index::folder(dir).join(name))
}

/// Takes away workprints that were never completed or have been replaced.
pub(crate) fn sweep(db: &Connection, dir: &Path) -> Result<(), StoreError> {
    let mut query = db.prepare(
        "SELECT id, file FROM workprint AS old WHERE complete = 0 OR EXISTS
         (SELECT 1 FROM workprint AS new WHERE new.roll = old.roll AND new.complete = 1 AND new.id > old.id)",
    )?;
    let stale: Vec<(i64, String)> = query
        .query_map([], |r| Ok((r.get(0)?, r.get(1)?)))?
        .collect::<Result<_, _>>()?;
    for (id, name) in stale {
        remove(db, dir, id, &name)?;
    }
    Ok(())
}
