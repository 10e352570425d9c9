#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod clips;
mod counting;
mod effects;
mod error;
mod film;
mod media;
mod note_marks;
mod place_in_file;
mod read;
mod reader;
mod schema;
mod write;

pub use error::{ExchangeError, Found};
pub use film::{Film, FrameNote, RollOnFile, ScanFile, Version};
pub use read::{ReadVersion, read};
pub use write::write;
