//! What a child may use.

use std::io;
use std::process::Child;

use rustix::process::{Pid, Resource, Rlimit, prlimit};

/// What a child may use at most.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// Address space in bytes. FFmpeg's threads reserve far more than they
    /// touch, so this is a stop against bombs, not a budget.
    pub address_space: u64,
    /// The largest file it may write, in bytes; none for no bound. Pipes do
    /// not count, so a child that only talks to us gets 0.
    pub file_size: Option<u64>,
}

impl Limits {
    /// For a child that only writes to pipes: 6 GiB of address space, no files.
    #[must_use]
    pub fn pipes_only() -> Self {
        Self {
            address_space: 6 << 30,
            file_size: Some(0),
        }
    }

    /// For a child that writes one file of any size: 12 GiB of address space.
    #[must_use]
    pub fn writes_a_file() -> Self {
        Self {
            address_space: 12 << 30,
            file_size: None,
        }
    }

    pub(crate) fn short_question() -> Self {
        Self {
            address_space: 4 << 30,
            file_size: Some(0),
        }
    }

    pub(super) fn lay_upon(self, child: &Child) -> io::Result<()> {
        let Some(pid) = i32::try_from(child.id()).ok().and_then(Pid::from_raw) else {
            return Ok(());
        };
        let fixed = |bytes: u64| Rlimit {
            current: Some(bytes),
            maximum: Some(bytes),
        };
        let mut wanted = vec![(Resource::As, self.address_space), (Resource::Core, 0)];
        wanted.extend(self.file_size.map(|bytes| (Resource::Fsize, bytes)));
        for (resource, bytes) in wanted {
            match prlimit(Some(pid), resource, fixed(bytes)) {
                // Ended already, or the user's own limit is lower still.
                Ok(_) | Err(rustix::io::Errno::SRCH | rustix::io::Errno::PERM) => {}
                Err(error) => return Err(error.into()),
            }
        }
        Ok(())
    }
}
