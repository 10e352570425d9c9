#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod assemble;
mod course;
mod error;
mod exposure;
mod faults;
mod fields;
mod film_frame;
mod finder;
mod mixing;
mod motion;
mod passing;
mod pattern;
mod recipe;
mod recipe_words;
mod search;
mod shown;
mod skips;
mod speed;
mod steps;
mod stride;
mod track;
mod unmix;

pub use error::CadenceError;
pub use fields::{FieldFinder, FieldOrder, WovenFrame, weave};
pub use film_frame::{Fault, FaultKind, FilmFrame, Standing};
pub use finder::{CadenceFinder, CadenceSettings, Found, Transfer};
pub use mixing::{Layer, unmix_picture};
pub use recipe::Recipe;
pub use steps::{PLANE_BYTES, PLANE_HEIGHT, PLANE_WIDTH};
pub use unmix::{Sample, unmix};
