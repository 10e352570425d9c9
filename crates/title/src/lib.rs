#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod crawl;
mod hold;
mod lamps;
mod letters;
mod sheet;
mod stand;
mod title_error;

pub use crawl::{Crawl, CrawlFault, CrawlMeasures, STROBE_PART};
pub use hold::{
    HOLD_RULES, Hold, HoldRule, LONG_HOLD_S, NamedHoldRule, count_words, hold, hold_footage,
};
pub use lamps::{
    EVEN_STOPS, Evenness, Glare, LampAt, LampsAsked, MAP_COLUMNS, MAP_ROWS, evenness, glare,
    lamps_at,
};
pub use letters::{LETTER_RULES, LetterRule, Letters, LettersAsked, letter_height_mm, letters};
pub use sheet::{
    ArtMove, Background, CEL_DENSITY, CelIn, DissolveTo, Exposed, Exposing, ExposureAsked,
    ExposureLine, ExposureSheet, ExposureTimes, FADE_STOPS, LettersBy, RUN_UP, RollNeed,
    SheetWarning, card_frame, darkening_stops, exposure_sheet, replay,
};
pub use stand::{
    SAFE, Stand, StandAsked, StandBy, aperture_mm, close_up_reaching, copy_stand, focus_behind,
    focus_behind_for, sharp_behind, stand_of,
};
pub use title_error::TitleError;
