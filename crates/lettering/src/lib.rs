#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod asked;
mod contrast;
mod design;
mod error;
mod faces;
mod ground;
mod layer;
mod light;
mod measures;
mod set_card;

pub use asked::{Across, CardAsked, Down};
pub use contrast::{Contrast, Place, Remedy, contrast};
pub use design::Design;
pub use error::LetteringError;
pub use faces::{FACES, ShippedFace};
pub use ground::{Fitted, ground_of};
pub use layer::{Layer, laid_over};
pub use set_card::{Bounds, SetCard, SetLine, set};
