#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod jpeg;
mod photograph;
mod picture_error;
mod png;

pub use jpeg::{Small, encode_jpeg, scaled_down, scaled_size, small_jpeg};
pub use photograph::{Photograph, upright_grey};
pub use picture_error::PictureError;
pub use png::{Png, encode_png};
