#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod error;
mod grey;
mod naming;
mod proving;
mod rolls;
mod sketch;
mod strip;
mod way;

pub use error::ProofError;
pub use grey::GreyPicture;
pub use naming::{StripPlace, name_strip};
pub use proving::{FaultKind, ReelFault, ReelProof, ReelSpan, Wanted, prove_reel};
pub use rolls::RollSketches;
pub use sketch::Sketch;
pub use strip::{Beyond, FoundBy, FoundStrip, StripFrame, find_strips};
pub use way::Way;
