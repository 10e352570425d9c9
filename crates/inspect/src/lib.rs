#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod blank;
mod blocks;
mod compare;
mod dissolves;
mod error;
mod evidence;
mod fades;
mod finder;
mod finding;
mod fog;
mod frame;
mod held;
mod joins;
mod judge;
mod light;
mod losses;
mod measures;
mod passing;
mod plane;
pub mod score;
mod settings;
mod shift;
mod small;
mod start_flash;
mod start_speed;
mod strong_changes;
mod takes;
mod tiny;
mod tone;
mod window;

pub use error::InspectError;
pub use finder::{BreakFinder, Seen};
pub use finding::{Begins, BreakEvidence, Finding, GradualKind};
pub use measures::FrameMeasures;
pub use plane::{PLANE_BYTES, PLANE_HEIGHT, PLANE_WIDTH, PlaneRef};
pub use settings::BreakSettings;
pub use start_flash::{FLASH_FRAMES_WANTED, StartFlash, flash_at_start};
pub use start_speed::speed_at_start;
pub use strong_changes::{BESIDE, ChangeKind, SeenFrame, StrongChange, strong_changes};
pub use takes::{TakeSpan, places_of_change, takes_from};
