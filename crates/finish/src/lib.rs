#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod error;
mod film_writer;
mod finish;

pub use error::FinishError;
pub use film_writer::{Coding, FilmWriter, PictureForm};
pub use finish::{FinishPlan, FinishScan, Place, make};
