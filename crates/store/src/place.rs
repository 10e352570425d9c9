//! Whether the folder is a place where SQLite's write-ahead log is safe.

use std::path::Path;

/// Numbers of file systems that share a disk over a network or through a
/// program of the user's, where shared memory between processes cannot be
/// trusted. Source: `statfs(2)`, Linux manual pages.
const SHARED: [i64; 6] = [
    0x6969,      // NFS
    0x517b,      // SMB
    0xff53_4d42, // CIFS
    0xfe53_4d42, // SMB2
    0x6573_5546, // FUSE
    0x0102_1997, // 9P
];

/// How the journal of SQLite is to be kept in this folder.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum JournalMode {
    /// Write-ahead log: readers never wait.
    Wal,
    /// Rollback journal: slower, safe on shared folders.
    Rollback,
}

impl JournalMode {
    pub(crate) const fn sql(self) -> &'static str {
        match self {
            Self::Wal => "WAL",
            Self::Rollback => "DELETE",
        }
    }

    /// What the folder allows. When it cannot be told, the safer way is taken.
    pub(crate) fn for_folder(dir: &Path) -> Self {
        match rustix::fs::statfs(dir) {
            Ok(fs) => Self::for_file_system(fs.f_type),
            Err(_) => Self::Rollback,
        }
    }

    fn for_file_system(number: i64) -> Self {
        if SHARED.contains(&(number & 0xffff_ffff)) {
            Self::Rollback
        } else {
            Self::Wal
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shared_folders_get_the_rollback_journal() {
        assert_eq!(JournalMode::for_file_system(0x6969), JournalMode::Rollback);
        assert_eq!(JournalMode::for_file_system(0xef53), JournalMode::Wal);
    }
}
