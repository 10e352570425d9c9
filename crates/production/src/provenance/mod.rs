//! Family reels: whose camera, in which order, and which of two copies is nearer the
//! original. Nothing of it is kept in a film.

mod copies;
mod copy_words;
mod family;
mod order;
mod pictures;
mod reels;

pub use copies::{CopiesAsked, compare_copies_of};
pub use family::{FamilyMemory, look_at_family};
pub use reels::FamilyReels;
