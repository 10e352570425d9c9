#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod archive_error;
mod bag_path;
mod bag_problem;
mod check;
mod digests;
mod dublin_core;
mod manifest;
mod room;
mod tags;
mod writer;

pub use archive_error::ArchiveError;
pub use bag_path::BagPath;
pub use bag_problem::BagProblem;
pub use check::{Checked, check};
pub use digests::{Digests, digests_of, digests_seen};
pub use dublin_core::{Term, TermKind, dublin_core};
pub use room::free_bytes;
pub use writer::{BagWriter, Bagged};

/// Told the bytes done so far; gives whether to go on.
pub type Told<'a> = &'a mut dyn FnMut(u64) -> bool;
