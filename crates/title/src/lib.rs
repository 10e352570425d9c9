#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod crawl;
mod hold;
mod sheet;
mod title_error;

pub use crawl::{Crawl, CrawlFault, CrawlMeasures, STROBE_PART};
pub use hold::{
    HOLD_RULES, Hold, HoldRule, LONG_HOLD_S, NamedHoldRule, count_words, hold, hold_footage,
};
pub use sheet::{
    ArtMove, Background, CEL_DENSITY, CelIn, DissolveTo, Exposed, Exposing, ExposureAsked,
    ExposureLine, ExposureSheet, ExposureTimes, FADE_STOPS, LettersBy, RUN_UP, RollNeed,
    SheetWarning, card_frame, darkening_stops, exposure_sheet, replay,
};
pub use title_error::TitleError;
