//! Writing a bag: beside its place first, under its name only when it is whole.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};

use crate::digests::{PIECE, Taking};
use crate::manifest::{self, Algorithm};
use crate::room::Room;
use crate::{ArchiveError, BagPath, Checked, Digests, Told, check, digests_of, tags};

/// The file by which a half box is known as ours; the lock on it goes with its process.
const MARK: &str = "being-made";

/// A bag that is being written. When it is let go before it is done, nothing of it is left.
#[derive(Debug)]
pub struct BagWriter {
    place: PathBuf,
    part: PathBuf,
    room: Room,
    mark: Option<File>,
    written: BTreeMap<BagPath, Digests>,
    bytes: u64,
    expected: u64,
}

/// A bag that stands under its name.
#[derive(Debug)]
pub struct Bagged {
    /// Files of the payload.
    pub files: u64,
    /// Bytes of the payload.
    pub bytes: u64,
    /// Each file of the payload with its checksums.
    pub payload: BTreeMap<BagPath, Digests>,
}

impl BagWriter {
    /// Begins a bag that will stand at `place`. What a killed program left of one there is
    /// taken away.
    ///
    /// # Errors
    /// [`ArchiveError::Taken`] when something stands there, [`ArchiveError::HalfTaken`] when
    /// another program is writing it, [`ArchiveError::File`].
    pub fn begin(place: &Path) -> Result<Self, ArchiveError> {
        Self::begin_with(place, Room::Disk)
    }

    fn begin_with(place: &Path, room: Room) -> Result<Self, ArchiveError> {
        if place.symlink_metadata().is_ok() {
            return Err(ArchiveError::Taken {
                path: place.to_owned(),
            });
        }
        let name = place.file_name().ok_or_else(|| ArchiveError::Path {
            path: place.display().to_string(),
            why: "it has no name of its own",
        })?;
        let mut half = name.to_owned();
        half.push(".part");
        let part = place.with_file_name(half);
        sweep(&part)?;
        std::fs::create_dir_all(part.join("data"))
            .map_err(ArchiveError::file("make the folder", &part))?;
        let mark = mark(&part)?;
        Ok(Self {
            place: place.to_owned(),
            part,
            room,
            mark: Some(mark),
            written: BTreeMap::new(),
            bytes: 0,
            expected: 0,
        })
    }

    /// Says how many bytes the payload will have, about; whether there is room is told
    /// before anything is written.
    ///
    /// # Errors
    /// [`ArchiveError::NoRoom`] with what is missing.
    pub fn expect(&mut self, bytes: u64) -> Result<(), ArchiveError> {
        self.expected = bytes;
        match self.room.free(&self.part, self.bytes) {
            Some(free) if free < bytes.saturating_sub(self.bytes) => Err(self.no_room(free)),
            _ => Ok(()),
        }
    }

    fn no_room(&self, free: u64) -> ArchiveError {
        let needed = self.expected.saturating_sub(self.bytes);
        ArchiveError::NoRoom {
            // At least one piece more was wanted than there was room for.
            needed: needed.max(free + 1),
            free,
            path: self.part.clone(),
        }
    }

    /// A full disk is told with what is missing.
    fn told(&self, problem: ArchiveError) -> ArchiveError {
        match problem.is_full() {
            true => self.no_room(self.room.free(&self.part, self.bytes).unwrap_or(0)),
            false => problem,
        }
    }

    /// Bytes of the payload so far.
    #[must_use]
    pub const fn bytes(&self) -> u64 {
        self.bytes
    }

    /// What is written so far, with its checksums.
    pub fn written(&self) -> impl Iterator<Item = (&BagPath, &Digests)> {
        self.written.iter()
    }

    /// Puts bytes into the payload; `path` is counted from its folder.
    ///
    /// # Errors
    /// [`ArchiveError::Path`], [`ArchiveError::Twice`], [`ArchiveError::NoRoom`],
    /// [`ArchiveError::File`].
    pub fn put(&mut self, path: &str, bytes: &[u8]) -> Result<(), ArchiveError> {
        self.copy(
            path,
            &mut &*bytes,
            Path::new(path),
            &mut |_| {},
            &mut |_| true,
        )
    }

    /// Copies a file into the payload. `seen` gets its bytes on the way, so that other
    /// checksums can be taken of what is truly written.
    ///
    /// # Errors
    /// As [`BagWriter::put`]; [`ArchiveError::Stopped`].
    pub fn put_file(
        &mut self,
        path: &str,
        from: &Path,
        seen: &mut dyn FnMut(&[u8]),
        told: Told<'_>,
    ) -> Result<(), ArchiveError> {
        let mut file = File::open(from).map_err(ArchiveError::file("read", from))?;
        self.copy(path, &mut file, from, seen, told)
    }

    /// Lets a file of the payload be made at its place; its checksums are taken afterwards.
    ///
    /// # Errors
    /// What `make` gives, and as [`BagWriter::put_file`].
    pub fn put_made<T, E: From<ArchiveError>>(
        &mut self,
        path: &str,
        told: Told<'_>,
        make: impl FnOnce(&Path) -> Result<T, E>,
    ) -> Result<T, E> {
        let (path, place) = self.place_of(path)?;
        let made = make(&place)?;
        let digests = digests_of(&place, self.bytes, told)?;
        self.bytes += digests.bytes;
        self.written.insert(path, digests);
        Ok(made)
    }

    fn place_of(&self, path: &str) -> Result<(BagPath, PathBuf), ArchiveError> {
        let path = BagPath::payload(path)?;
        if self.written.contains_key(&path) {
            return Err(ArchiveError::Twice {
                path: path.to_string(),
            });
        }
        let place = path.within(&self.part);
        if let Some(folder) = place.parent() {
            std::fs::create_dir_all(folder)
                .map_err(|e| self.told(ArchiveError::file("make the folder", folder)(e)))?;
        }
        Ok((path, place))
    }

    fn copy(
        &mut self,
        path: &str,
        from: &mut dyn Read,
        from_path: &Path,
        seen: &mut dyn FnMut(&[u8]),
        told: Told<'_>,
    ) -> Result<(), ArchiveError> {
        let (path, place) = self.place_of(path)?;
        let before = self.bytes;
        let mut out =
            File::create(&place).map_err(|e| self.told(ArchiveError::file("write", &place)(e)))?;
        let mut taking = Taking::default();
        let mut piece = vec![0; PIECE];
        loop {
            if !told(self.bytes) {
                return Err(ArchiveError::Stopped);
            }
            let count = match from.read(&mut piece) {
                Ok(0) => break,
                Ok(count) => count,
                Err(e) if e.kind() == std::io::ErrorKind::Interrupted => continue,
                Err(e) => return Err(ArchiveError::file("read", from_path)(e)),
            };
            let piece = &piece[..count];
            self.room
                .takes(self.bytes + count as u64)
                .and_then(|()| out.write_all(piece))
                .map_err(|e| self.told(ArchiveError::file("write", &place)(e)))?;
            taking.take(piece);
            seen(piece);
            self.bytes += count as u64;
        }
        out.sync_all()
            .map_err(|e| self.told(ArchiveError::file("write", &place)(e)))?;
        let digests = taking.done();
        debug_assert_eq!(self.bytes, before + digests.bytes);
        self.written.insert(path, digests);
        Ok(())
    }

    /// Writes the tag files, reads the whole box back, and gives it its name. `info` is
    /// what stands in `bag-info.txt`; the sum of the payload is added to it. `told` hears
    /// the bytes that were read back.
    ///
    /// # Errors
    /// [`ArchiveError::NotAsWritten`] when it does not read back as it was written,
    /// [`ArchiveError::NoRoom`], [`ArchiveError::File`], [`ArchiveError::Stopped`].
    pub fn done(
        mut self,
        info: &[(String, String)],
        told: Told<'_>,
    ) -> Result<Bagged, ArchiveError> {
        self.tags(info)?;
        drop(self.mark.take());
        let mark = self.part.join(MARK);
        std::fs::remove_file(&mark).map_err(ArchiveError::file("take away", &mark))?;
        let Checked { problems, .. } = check(&self.part, told)?;
        if let Some(first) = problems.first() {
            return Err(ArchiveError::NotAsWritten {
                first: first.to_string(),
            });
        }
        if self.place.symlink_metadata().is_ok() {
            return Err(ArchiveError::Taken {
                path: self.place.clone(),
            });
        }
        std::fs::rename(&self.part, &self.place)
            .map_err(ArchiveError::file("give its name to the box", &self.place))?;
        // The name is on the disk too; where a file system has no such thing, it is none.
        if let Some(folder) = self.place.parent() {
            let _where_it_can_be = File::open(folder).and_then(|at| at.sync_all());
        }
        Ok(Bagged {
            files: self.written.len() as u64,
            bytes: self.bytes,
            payload: std::mem::take(&mut self.written),
        })
    }

    fn tags(&self, info: &[(String, String)]) -> Result<(), ArchiveError> {
        let mut info = info.to_vec();
        let sum = format!("{}.{}", self.bytes, self.written.len());
        info.push(("Payload-Oxum".to_owned(), sum));
        let mut tags = BTreeMap::new();
        let mut put = |name: &str, text: &str| {
            let digests = self.tag(name, text)?;
            tags.insert(BagPath::new(name)?, digests);
            Ok::<(), ArchiveError>(())
        };
        put("bagit.txt", tags::DECLARATION)?;
        put("bag-info.txt", &tags::written(&info))?;
        for algorithm in Algorithm::ALL {
            let name = format!("manifest-{}.txt", algorithm.word());
            put(&name, &manifest::written(&self.written, algorithm))?;
        }
        for algorithm in Algorithm::ALL {
            let name = format!("tagmanifest-{}.txt", algorithm.word());
            self.tag(&name, &manifest::written(&tags, algorithm))?;
        }
        Ok(())
    }

    fn tag(&self, name: &str, text: &str) -> Result<Digests, ArchiveError> {
        let place = self.part.join(name);
        let mut taking = Taking::default();
        taking.take(text.as_bytes());
        let written = File::create(&place).and_then(|mut out| {
            out.write_all(text.as_bytes())?;
            out.sync_all()
        });
        written.map_err(|e| self.told(ArchiveError::file("write", &place)(e)))?;
        Ok(taking.done())
    }
}

impl Drop for BagWriter {
    fn drop(&mut self) {
        drop(self.mark.take());
        // Once it has its name there is nothing under this one; what cannot be taken away
        // is swept when the box is made again.
        let _gone = std::fs::remove_dir_all(&self.part);
    }
}

fn mark(part: &Path) -> Result<File, ArchiveError> {
    let path = part.join(MARK);
    let mark = File::create(&path).map_err(ArchiveError::file("write", &path))?;
    match mark.try_lock() {
        Err(std::fs::TryLockError::WouldBlock) => Err(ArchiveError::HalfTaken {
            why: "another program is writing this box now",
            path: part.to_owned(),
        }),
        // Where a disk has no locks, two programs at once are the user's care.
        _ => Ok(mark),
    }
}

/// Takes away what a killed program left of a box.
fn sweep(part: &Path) -> Result<(), ArchiveError> {
    if part.symlink_metadata().is_err() {
        return Ok(());
    }
    let left = |why| ArchiveError::HalfTaken {
        why,
        path: part.to_owned(),
    };
    let mark = part.join(MARK);
    let is_ours = mark.is_file() || crate::check::is_whole(part);
    if !part.is_dir() || !is_ours {
        return Err(left("what lies here is no half box of this program"));
    }
    if let Ok(file) = File::open(&mark)
        && matches!(file.try_lock(), Err(std::fs::TryLockError::WouldBlock))
    {
        return Err(left("another program is writing this box now"));
    }
    std::fs::remove_dir_all(part).map_err(ArchiveError::file("take away the half box", part))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entries(dir: &Path) -> Vec<String> {
        let all = std::fs::read_dir(dir).expect("a folder");
        let names = all.map(|e| e.expect("one").file_name().to_string_lossy().into_owned());
        let mut names: Vec<String> = names.collect();
        names.sort();
        names
    }

    #[test]
    fn a_disk_that_fills_at_nine_tenths_is_told_with_what_is_missing() {
        let dir = tempfile::tempdir().expect("a folder");
        let place = dir.path().join("box");
        let mut bag = BagWriter::begin_with(&place, Room::Only(90_000)).expect("begun");
        let problem = bag.expect(100_000).expect_err("too small");
        assert!(
            matches!(
                problem,
                ArchiveError::NoRoom {
                    needed: 100_000,
                    free: 90_000,
                    ..
                }
            ),
            "{problem:?}"
        );
        // It was said to be smaller than it is: it fills while it is written.
        bag.expect(80_000).expect("room for that");
        bag.put("one", &[1; 60_000]).expect("written");
        let problem = bag.put("two", &[2; 40_000]).expect_err("full");
        match &problem {
            ArchiveError::NoRoom { needed, free, .. } => {
                assert_eq!((*needed, *free), (30_001, 30_000));
            }
            other => panic!("{other:?}"),
        }
        drop(bag);
        assert!(entries(dir.path()).is_empty(), "nothing is left");
    }

    #[test]
    fn what_a_killed_program_left_is_swept_and_what_is_not_ours_is_left() {
        let dir = tempfile::tempdir().expect("a folder");
        let place = dir.path().join("box");
        let part = dir.path().join("box.part");
        std::fs::create_dir_all(part.join("data")).expect("a folder");
        std::fs::write(part.join("data/mine"), "mine").expect("written");
        let problem = BagWriter::begin(&place).expect_err("not ours");
        assert_eq!(problem.code(), "archive.half_taken");
        assert!(part.join("data/mine").is_file());
        std::fs::write(part.join(MARK), "").expect("written");
        let mut bag = BagWriter::begin(&place).expect("swept");
        assert!(!part.join("data/mine").exists());
        let second = BagWriter::begin(&place).expect_err("it is being written");
        assert_eq!(second.code(), "archive.half_taken");
        bag.put("one", b"1").expect("written");
        bag.done(&[], &mut |_| true).expect("whole");
        assert_eq!(entries(dir.path()), ["box"]);
        assert_eq!(
            BagWriter::begin(&place).expect_err("taken").code(),
            "archive.taken"
        );
    }

    #[test]
    fn stopped_anywhere_nothing_is_left() {
        let dir = tempfile::tempdir().expect("a folder");
        let from = dir.path().join("from");
        std::fs::write(&from, vec![7; 3 * PIECE]).expect("written");
        for stop_at in 0..9 {
            let place = dir.path().join("box");
            let mut calls = 0;
            let mut told = |_| {
                calls += 1;
                calls <= stop_at
            };
            let mut bag = BagWriter::begin(&place).expect("begun");
            let came = bag
                .put_file("scan", &from, &mut |_| {}, &mut told)
                .and_then(|()| bag.done(&[], &mut told));
            assert!(matches!(came, Err(ArchiveError::Stopped)), "{stop_at}");
            assert_eq!(entries(dir.path()), ["from"], "{stop_at}");
        }
    }

    #[test]
    fn a_path_is_written_once() {
        let dir = tempfile::tempdir().expect("a folder");
        let mut bag = BagWriter::begin(&dir.path().join("box")).expect("begun");
        bag.put("a/b", b"1").expect("written");
        assert_eq!(
            bag.put("a/b", b"2").expect_err("twice").code(),
            "archive.twice"
        );
        assert_eq!(
            bag.put("../b", b"2").expect_err("out").code(),
            "archive.path"
        );
    }
}
