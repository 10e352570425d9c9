#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod count;
mod landmark;
mod pull;

pub use count::{Extent, WorkCount};
pub use landmark::{Landmark, LandmarkKind};
pub use pull::{Pull, PullList};
