#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod chance;
mod fields;
mod ground;
mod planted;
mod projection;
mod roll;
mod transfer;

pub use chance::Chance;
pub use fields::{FieldOrder, field_of, weave};
pub use planted::{Planted, gate_order};
pub use projection::{Coding, FileFrame, Projection, levels};
pub use roll::{Look, Roll, Scene};
pub use transfer::{Drift, Shown, Transfer};
