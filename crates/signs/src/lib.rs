#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod closing;
mod dark_things;
mod gate_watch;
mod judge;
mod kept;
mod light;
mod movement;
mod pyramid;
mod reader;
mod record;
mod settings;
mod sharpness;
mod sign;
mod spans;
mod specks;
mod tile_shift;
mod tone;
mod upright_lines;

pub use reader::SignReader;
pub use record::SignRecord;
pub use settings::SignSettings;
pub use sign::{LineRun, LineTone, Pair, Place, Sign, SignKind};
