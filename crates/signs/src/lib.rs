#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod closing;
mod dark_things;
mod gate_watch;
mod judge;
mod kept;
mod kept_bytes;
mod light;
mod light_beside;
mod limits;
mod movement;
mod pyramid;
mod reader;
mod record;
mod sharpness;
mod sign;
mod spans;
mod specks;
mod standing_picture;
mod standing_thing;
mod tile_shift;
mod tone;
mod upright_lines;

pub use light_beside::{RollLight, RunLight};
pub use limits::SignLimits;
pub use reader::SignReader;
pub use record::SignRecord;
pub use sign::{LineRun, LineTone, Pair, Place, Sign, SignKind};
