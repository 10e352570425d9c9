#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod error;
mod faces;
mod job;
mod print;
mod world;

pub use error::{Place, Remark, TypesetError};
pub use faces::missing_letters;
pub use job::{Job, MOST_PICTURES, PictureName};
pub use print::{Printed, Typeset, pdf, print, typeset};
