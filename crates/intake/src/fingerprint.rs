//! Knowing a scan again: path, size and BLAKE3.

use std::fmt;
use std::fs::File;
use std::io::Read;
use std::os::unix::ffi::OsStrExt;
use std::path::{Path, PathBuf};

use crate::{Cancel, IntakeError, Source};

/// What a scan is known by, also after it was moved or renamed.
///
/// For a film file the hash is BLAKE3 over its bytes. For a run of pictures it
/// is BLAKE3 over, for each picture in order, the length of its name (u64,
/// little-endian), its name without folders, its size (u64, little-endian) and
/// the 32 bytes of its own BLAKE3: so a run is the same in another folder, and
/// another when one picture is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fingerprint {
    /// Where it lay when it was taken, absolute.
    pub path: PathBuf,
    /// Bytes, summed over the pictures of a run.
    pub size: u64,
    /// The BLAKE3 hash.
    pub hash: [u8; 32],
}

impl Fingerprint {
    /// The hash in 64 hexadecimal letters.
    #[must_use]
    pub fn hex(&self) -> String {
        blake3::Hash::from_bytes(self.hash).to_hex().to_string()
    }
}

impl fmt::Display for Fingerprint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.hex())
    }
}

impl Source {
    /// Bytes of the source, summed over the pictures of a run.
    ///
    /// # Errors
    /// [`IntakeError::NotFound`], [`IntakeError::NoPermission`],
    /// [`IntakeError::Disk`].
    pub fn size_in_bytes(&self) -> Result<u64, IntakeError> {
        let size = |path: &Path| {
            let meta = std::fs::metadata(path);
            meta.map(|m| m.len())
                .map_err(|e| IntakeError::from_io("measuring the file", path.to_owned(), e))
        };
        match self.sequence() {
            None => size(self.path()),
            Some(sequence) => sequence.pictures().iter().map(|p| size(&p.path)).sum(),
        }
    }

    /// Reads the source once from end to end and takes its fingerprint.
    ///
    /// Independent of [`crate::read()`], so that it can run beside it; `progress`
    /// is told the bytes read so far, about once a megabyte.
    ///
    /// # Errors
    /// [`IntakeError::NotFound`], [`IntakeError::NoPermission`],
    /// [`IntakeError::Disk`], [`IntakeError::Cancelled`].
    pub fn fingerprint(
        &self,
        progress: &mut dyn FnMut(u64),
        cancel: &Cancel,
    ) -> Result<Fingerprint, IntakeError> {
        let mut size = 0;
        let hash = match self.sequence() {
            None => hash_file(self.path(), &mut size, progress, cancel)?,
            Some(sequence) => {
                let mut whole = blake3::Hasher::new();
                for picture in sequence.pictures() {
                    let before = size;
                    let own = hash_file(&picture.path, &mut size, progress, cancel)?;
                    let name = picture.path.file_name().unwrap_or_default().as_bytes();
                    whole.update(&(name.len() as u64).to_le_bytes());
                    whole.update(name);
                    whole.update(&(size - before).to_le_bytes());
                    whole.update(own.as_bytes());
                }
                whole.finalize()
            }
        };
        Ok(Fingerprint {
            path: self.path().to_owned(),
            size,
            hash: *hash.as_bytes(),
        })
    }
}

fn hash_file(
    path: &Path,
    size: &mut u64,
    progress: &mut dyn FnMut(u64),
    cancel: &Cancel,
) -> Result<blake3::Hash, IntakeError> {
    let failed =
        |source| IntakeError::from_io("reading for the fingerprint", path.to_owned(), source);
    let mut file = File::open(path).map_err(failed)?;
    let mut hasher = blake3::Hasher::new();
    let mut piece = vec![0; 1 << 20];
    loop {
        if cancel.is_cancelled() {
            return Err(IntakeError::Cancelled { frames: 0 });
        }
        let got = match file.read(&mut piece) {
            Ok(0) => return Ok(hasher.finalize()),
            Ok(got) => got,
            Err(error) if error.kind() == std::io::ErrorKind::Interrupted => continue,
            Err(error) => return Err(failed(error)),
        };
        hasher.update(&piece[..got]);
        *size += got as u64;
        progress(*size);
    }
}
