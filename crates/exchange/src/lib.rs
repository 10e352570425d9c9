#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod clips;
mod counting;
mod effects;
mod error;
mod film;
mod media;
mod note_marks;
mod picture_run;
mod place_in_file;
mod read;
mod reader;
mod schema;
mod write;

pub use error::{ExchangeError, Found};
pub use film::{Film, FrameNote, RollOnFile, ScanFile, Version};
pub use picture_run::PictureRun;
pub use read::{ReadVersion, read};
pub use write::write;
