#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod hold;
mod title_error;

pub use hold::{
    HOLD_RULES, Hold, HoldRule, LONG_HOLD_S, NamedHoldRule, count_words, hold, hold_footage,
};
pub use title_error::TitleError;
