//! Film frames as they are told.

use crate::recipe::Recipe;

/// How a film frame is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Standing {
    /// A file frame shows it alone.
    Clean,
    /// Every file frame that shows it shows a neighbour too.
    Blended,
    /// Nothing can be seen there; the cadence carries on and says that it is there.
    Counted,
    /// No file frame shows it.
    Missing,
}

/// One film frame of the roll.
#[derive(Debug, Clone, PartialEq)]
pub struct FilmFrame {
    /// Its number on the roll, from 0.
    pub number: u32,
    /// How it is known.
    pub standing: Standing,
    /// The file frame that shows it best; nothing when it is missing.
    pub shown_by: Option<u64>,
    /// How much of that file frame is this film frame, 0 to 1.
    pub share: f32,
    /// File frames that show some of it, `[first, last + 1)`.
    pub file_frames: (u64, u64),
    /// File frames with weights that together give it alone, where that is
    /// nearer the film than the best file frame; otherwise empty. The weights
    /// sum to 1, some are negative.
    pub unmix: Vec<(u64, f32)>,
    /// How its picture is put together of those of file frames, wherever that may
    /// be nearer the film than the best file frame: see [`crate::unmix_picture`],
    /// which looks at the pictures and decides.
    pub recipe: Option<Box<Recipe>>,
}

/// What the scanning machine did wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FaultKind {
    /// Film frames passed that no file frame shows.
    Skipped,
    /// A film frame stands in more file frames than its turn.
    Doubled,
}

/// A fault of the scanning machine, with its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fault {
    /// What happened.
    pub kind: FaultKind,
    /// The film frame: the first that is missing, or the one doubled.
    pub at: u32,
    /// Film frames missed, or turns too many; the likeliest number.
    pub frames: u32,
    /// The fewest that fit what is seen.
    pub frames_low: u32,
    /// The most that fit what is seen.
    pub frames_high: u32,
}
