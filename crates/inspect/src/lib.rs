#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod blocks;
mod compare;
mod error;
mod evidence;
mod finder;
mod finding;
mod fog;
mod frame;
mod judge;
mod light;
mod measures;
mod plane;
pub mod score;
mod settings;
mod shift;
mod small;
mod takes;
mod tone;
mod window;

pub use error::InspectError;
pub use finder::{BreakFinder, Seen};
pub use finding::{Begins, BreakEvidence, Finding};
pub use measures::FrameMeasures;
pub use plane::{PLANE_BYTES, PLANE_HEIGHT, PLANE_WIDTH, PlaneRef};
pub use settings::BreakSettings;
pub use takes::{TakeSpan, takes_from};
