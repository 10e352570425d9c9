#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod asked;
mod breaking;
mod chance;
mod contrast;
mod design;
mod draw;
mod error;
mod exposed;
mod faces;
mod ground;
mod hand;
mod layer;
mod light;
mod manner;
mod measures;
mod placing;
mod remedies;
mod set_card;
mod setting;
mod shaping;
mod svg;
mod typeface;

pub use asked::{Across, CardAsked, Down};
pub use contrast::{Contrast, Place, Remedy, contrast};
pub use design::Design;
pub use error::LetteringError;
pub use exposed::{Also, Ground, LightOn, exposed};
pub use faces::{FACES, ShippedFace};
pub use ground::{Fitted, ground_of};
pub use layer::{Layer, laid_over};
pub use set_card::{Bounds, SetCard, SetLine};
pub use setting::set;
