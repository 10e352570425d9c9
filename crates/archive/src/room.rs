//! How much room a disk has.

use std::path::Path;

/// Bytes that may still be written where this path is or will be; nothing where the system
/// does not say.
#[must_use]
pub fn free_bytes(path: &Path) -> Option<u64> {
    let there = path.ancestors().find(|at| at.exists())?;
    let about = rustix::fs::statvfs(there).ok()?;
    Some(about.f_bavail.saturating_mul(about.f_frsize))
}

/// What the disk allows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Room {
    /// As much as it has.
    Disk,
    /// So many bytes and no more: a disk of that size, to try what happens.
    #[cfg(test)]
    Only(u64),
}

impl Room {
    pub(crate) fn free(self, path: &Path, _written: u64) -> Option<u64> {
        match self {
            Self::Disk => free_bytes(path),
            #[cfg(test)]
            Self::Only(most) => Some(most.saturating_sub(_written)),
        }
    }

    /// Whether so many bytes in all may be written.
    pub(crate) fn takes(self, _bytes: u64) -> std::io::Result<()> {
        match self {
            Self::Disk => Ok(()),
            #[cfg(test)]
            Self::Only(most) if _bytes <= most => Ok(()),
            #[cfg(test)]
            Self::Only(_) => Err(std::io::ErrorKind::StorageFull.into()),
        }
    }
}
