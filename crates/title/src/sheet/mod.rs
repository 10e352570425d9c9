//! The exposure sheet: from what is asked, and played back.

mod art_move;
mod asked;
mod build;
mod exposed;
mod line;
mod need;
mod replay;
mod warning;

pub use art_move::ArtMove;
pub use asked::{
    CEL_DENSITY, DissolveTo, Exposing, ExposureAsked, ExposureTimes, LettersBy, RUN_UP,
};
pub use build::{FADE_STOPS, exposure_sheet};
pub use exposed::{Exposed, card_frame};
pub use line::{Background, CelIn, ExposureLine, ExposureSheet};
pub use need::RollNeed;
pub use replay::replay;
pub use warning::{SheetWarning, darkening_stops};
