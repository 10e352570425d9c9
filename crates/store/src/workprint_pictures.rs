//! The pictures of workprints, one or a run at a time.

use std::fs::File;
use std::os::unix::fs::FileExt;
use std::path::PathBuf;

use onestrand_film::FrameRange;

use crate::production::file;
use crate::workprint::{NEWEST, unsigned};
use crate::{StoreError, Workprints, workprint_index};

/// The picture file of the workprint that was looked at last.
#[derive(Debug)]
pub(crate) struct OpenPictures {
    id: i64,
    pictures: File,
    path: PathBuf,
}

/// Where the pictures of a run lie.
struct Places {
    id: i64,
    file: String,
    places: Vec<Option<Place>>,
}

/// An open picture file, and where the pictures of a run lie in it.
struct Lying<'a> {
    print: &'a OpenPictures,
    places: Vec<Option<Place>>,
}

/// The pictures of a run of frames, one behind the other in one piece of memory:
/// fresh memory costs more than reading does.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PictureRun {
    /// The JPEGs, one behind the other.
    pub bytes: Vec<u8>,
    /// How long the JPEG of each frame is, in order: one entry for each of its
    /// frames that the roll has, nothing in it where there is no picture. Unit:
    /// bytes.
    pub lengths: Vec<Option<usize>>,
}

/// Where one picture lies. Unit: bytes.
#[derive(Debug, Clone, Copy)]
struct Place {
    begin: u64,
    length: usize,
}

impl Place {
    const fn end(self) -> u64 {
        self.begin + self.length as u64
    }
}

impl Workprints {
    /// The picture of one frame, as a JPEG; nothing when there is none.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    pub fn picture(&mut self, roll: &str, frame: u32) -> Result<Option<Vec<u8>>, StoreError> {
        let Some(Lying { print, places }) = self.look(roll, (frame, frame.saturating_add(1)))?
        else {
            return Ok(None);
        };
        match places.first() {
            Some(Some(place)) => Ok(Some(print.read(place.begin, place.length)?)),
            _ => Ok(None),
        }
    }

    /// The pictures of a run of frames, as JPEGs in order: one entry for each of
    /// its frames that the roll has, nothing in it where there is no picture.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    pub fn run(
        &mut self,
        roll: &str,
        range: FrameRange,
    ) -> Result<Vec<Option<Vec<u8>>>, StoreError> {
        let PictureRun { bytes, lengths } = self.run_together(roll, range)?;
        let mut rest = bytes.as_slice();
        let parted = lengths.into_iter().map(|length| {
            let (picture, after) = rest.split_at(length?);
            rest = after;
            Some(picture.to_vec())
        });
        Ok(parted.collect())
    }

    /// The same in one piece of memory.
    ///
    /// Neighbours lie together, so a run is one question to the index and one
    /// read of the picture file.
    ///
    /// # Errors
    /// [`StoreError::Sql`] or [`StoreError::File`].
    pub fn run_together(
        &mut self,
        roll: &str,
        range: FrameRange,
    ) -> Result<PictureRun, StoreError> {
        let ends = (range.begin().index(), range.end().index());
        let Some(Lying { print, places }) = self.look(roll, ends)? else {
            return Ok(PictureRun::default());
        };
        let seen: Vec<Place> = places.iter().flatten().copied().collect();
        let mut bytes = vec![0; seen.iter().map(|place| place.length).sum()];
        let mut rest = bytes.as_mut_slice();
        for lying in seen.chunk_by(|a, b| a.end() == b.begin) {
            let length = lying.iter().map(|place| place.length).sum();
            let (together, after) = rest.split_at_mut(length);
            print.read_into(together, lying[0].begin)?;
            rest = after;
        }
        let lengths = places.iter().map(|place| Some((*place)?.length)).collect();
        Ok(PictureRun { bytes, lengths })
    }

    /// Lets go of a roll's picture file, as when the roll is taken away. Nobody
    /// needs it for a roll that was read again: that is noticed by itself.
    pub fn forget(&mut self, roll: &str) {
        self.open.remove(roll);
    }

    /// The picture file of a roll's newest workprint, and where its frames lie
    /// in it; nothing when there is none.
    fn look(&mut self, roll: &str, ends: (u32, u32)) -> Result<Option<Lying<'_>>, StoreError> {
        // Between the question and the opening of the file, a newer workprint
        // may have come in its place: then the question is asked once more.
        for _attempt in 0..2 {
            let Some(found) = self.places(roll, ends)? else {
                self.open.remove(roll);
                return Ok(None);
            };
            if self.open.get(roll).is_none_or(|open| open.id != found.id) {
                self.open.remove(roll);
                if let Some(print) = self.open_pictures(found.id, &found.file)? {
                    self.open.insert(roll.to_owned(), print);
                }
            }
            if self.open.contains_key(roll) {
                return Ok(self.open.get(roll).map(|print| Lying {
                    print,
                    places: found.places,
                }));
            }
        }
        Ok(None)
    }

    fn places(&self, roll: &str, ends: (u32, u32)) -> Result<Option<Places>, StoreError> {
        let mut query = self.db.prepare_cached(&format!(
            "SELECT w.id, w.file, f.frame, f.place, f.length FROM workprint AS w
             LEFT JOIN frame AS f ON f.workprint = w.id AND f.frame >= ?2 AND f.frame < ?3
             WHERE w.id = {NEWEST} ORDER BY f.frame"
        ))?;
        let mut rows = query.query((roll, ends.0, ends.1))?;
        let mut found = None;
        while let Some(row) = rows.next()? {
            if found.is_none() {
                found = Some(Places {
                    id: row.get(0)?,
                    file: row.get(1)?,
                    places: Vec::new(),
                });
            }
            let frame: Option<u32> = row.get(2)?;
            if let (Some(found), Some(_)) = (&mut found, frame) {
                let (begin, length): (Option<i64>, Option<u32>) = (row.get(3)?, row.get(4)?);
                let place = unsigned(begin).zip(length);
                found.places.push(place.map(|(begin, length)| Place {
                    begin,
                    length: length as usize,
                }));
            }
        }
        Ok(found)
    }

    fn open_pictures(&self, id: i64, name: &str) -> Result<Option<OpenPictures>, StoreError> {
        let path = workprint_index::folder(&self.dir).join(name);
        match File::open(&path) {
            Ok(pictures) => Ok(Some(OpenPictures { id, pictures, path })),
            Err(problem) if problem.kind() == std::io::ErrorKind::NotFound => Ok(None),
            Err(problem) => Err(file("the workprint", &path)(problem)),
        }
    }
}

impl OpenPictures {
    fn read(&self, begin: u64, length: usize) -> Result<Vec<u8>, StoreError> {
        let mut bytes = vec![0; length];
        self.read_into(&mut bytes, begin)?;
        Ok(bytes)
    }

    fn read_into(&self, bytes: &mut [u8], begin: u64) -> Result<(), StoreError> {
        self.pictures
            .read_exact_at(bytes, begin)
            .map_err(file("the workprint", &self.path))
    }
}
