#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod draw;
mod dub;
pub mod edge_code;
mod error;
mod faults;
mod lettering;
mod log;
mod look;
mod noise;
mod painter;
mod paper;
mod scene;
mod script;
mod sound;
mod story;
mod test_picture;
pub mod world;

pub use dub::{ExampleColumn, ExampleCue, Hold, Place, columns, cues, goes_round};
pub use error::ExampleError;
pub use faults::{ExampleFault, FaultKind, faults};
pub use log::{Direction, ExampleTake, FogSpan, ShotSize, TakeUse, fog_spans, takes};
pub use painter::RollPainter;
pub use script::{SCREENPLAY, SETUPS, WILD_SOUNDS};
pub use sound::{ExampleSound, MARCH_BARS, MARCH_BPM, SOUND_RATE, SoundKind, march_beats, sounds};
pub use story::{ExampleMark, ExamplePiece, MarkKind, first_cut, marks};
pub use test_picture::numbered_picture;

/// Width of a scanned frame. Unit: pixels.
pub const WIDTH: u32 = 640;
/// Height of a scanned frame, frame line to frame line. Unit: pixels.
pub const HEIGHT: u32 = 480;
/// Frames on each of the three rolls: a 50 ft cartridge at 72 frames a foot.
pub const FRAMES_PER_ROLL: u32 = 3600;
/// Rolls of the example film.
pub const ROLLS: u8 = 3;
/// Bytes of one painted frame: three bytes a pixel, red, green, blue.
pub const FRAME_BYTES: usize = WIDTH as usize * HEIGHT as usize * 3;
