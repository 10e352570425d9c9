#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod coding;
mod disk;
mod error;
mod film_writer;

mod drawn;
mod make;
mod parts;
mod pattern;
mod plan;
mod put_together;
mod walk;
mod whole;

pub use coding::{Coding, Container};
pub use error::FinishError;
pub use film_writer::{FilmWriter, PictureForm};
pub use make::{Made, make};
pub use parts::{parts_of, throw_parts_away};
pub use pattern::Pattern;
pub use plan::{CardFilm, FinishPlan, FinishScan, Place, SoundOfFilm, Treat};
