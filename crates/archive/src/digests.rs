//! Checksums taken while bytes go by.

use std::fmt::Write as _;
use std::io::Read;
use std::path::Path;

use sha2::{Digest, Sha256, Sha512};

use crate::{ArchiveError, Told};

/// What a file is known by, in small hexadecimal letters.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Digests {
    /// SHA-256 (FIPS 180-4).
    pub sha256: String,
    /// SHA-512 (FIPS 180-4).
    pub sha512: String,
    /// Its size. Unit: bytes.
    pub bytes: u64,
}

/// Takes both checksums at once.
#[derive(Debug, Default)]
pub(crate) struct Taking {
    sha256: Sha256,
    sha512: Sha512,
    bytes: u64,
}

impl Taking {
    pub(crate) fn take(&mut self, piece: &[u8]) {
        self.sha256.update(piece);
        self.sha512.update(piece);
        self.bytes += piece.len() as u64;
    }

    pub(crate) fn done(self) -> Digests {
        Digests {
            sha256: hex(&self.sha256.finalize()),
            sha512: hex(&self.sha512.finalize()),
            bytes: self.bytes,
        }
    }
}

fn hex(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(2 * bytes.len());
    for byte in bytes {
        let _fits = write!(text, "{byte:02x}");
    }
    text
}

/// Bytes that are read at a time.
pub(crate) const PIECE: usize = 1 << 20;

/// Both checksums of a file; `told` hears the bytes of all files so far, beginning at
/// `before`.
///
/// # Errors
/// [`ArchiveError::File`], [`ArchiveError::Stopped`].
pub fn digests_of(path: &Path, before: u64, told: Told<'_>) -> Result<Digests, ArchiveError> {
    read(path, before, &mut |_| {}, told)
}

/// The same, and `seen` gets the bytes on the way.
///
/// # Errors
/// As [`digests_of`].
pub fn digests_seen(
    path: &Path,
    seen: &mut dyn FnMut(&[u8]),
    told: Told<'_>,
) -> Result<Digests, ArchiveError> {
    read(path, 0, seen, told)
}

fn read(
    path: &Path,
    before: u64,
    seen: &mut dyn FnMut(&[u8]),
    told: Told<'_>,
) -> Result<Digests, ArchiveError> {
    let wrong = || ArchiveError::file("read", path);
    let mut file = std::fs::File::open(path).map_err(wrong())?;
    let mut taking = Taking::default();
    let mut piece = vec![0; PIECE];
    loop {
        if !told(before + taking.bytes) {
            return Err(ArchiveError::Stopped);
        }
        match file.read(&mut piece) {
            Ok(0) => return Ok(taking.done()),
            Ok(count) => {
                taking.take(&piece[..count]);
                seen(&piece[..count]);
            }
            Err(problem) if problem.kind() == std::io::ErrorKind::Interrupted => {}
            Err(problem) => return Err(wrong()(problem)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FIPS 180-4's own example: the message "abc".
    #[test]
    fn the_published_example() {
        let mut taking = Taking::default();
        taking.take(b"ab");
        taking.take(b"c");
        let found = taking.done();
        assert_eq!(
            found.sha256,
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
        assert!(found.sha512.starts_with("ddaf35a193617abacc417349ae204131"));
        assert_eq!((found.sha512.len(), found.bytes), (128, 3));
    }
}
