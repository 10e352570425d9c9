#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod browsing;
mod error;
mod full_size;
mod made_of;
mod plane;

pub use browsing::Browsing;
pub use error::ComposeError;
pub use full_size::{FilmForm, FilmPicture, Scan, fetch_film};
pub use made_of::MadeOf;
pub use plane::{mixed_plane, woven_plane};
