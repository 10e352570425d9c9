//! What a cue holds to, and what became of it.

use crate::Placed;

/// What a cue, or its end, holds to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Anchor {
    /// A frame of a roll.
    Frame {
        /// The roll.
        roll: String,
        /// The frame.
        frame: u32,
    },
    /// The join before the piece that begins with this frame of a roll.
    Join {
        /// The roll.
        roll: String,
        /// The first frame behind the join.
        first: u32,
    },
    /// So many frames after the head of the film.
    Clock {
        /// The running frame.
        at: i64,
    },
}

impl Anchor {
    /// The running frame it has in a version; nothing where the version has no such place.
    #[must_use]
    pub fn in_version(&self, version: &Placed) -> Option<i64> {
        match self {
            Self::Frame { roll, frame } => version.shown(roll, *frame),
            Self::Join { roll, first } => version.join_before(roll, *first),
            Self::Clock { at } => Some(*at),
        }
    }
}

/// A cue where it was laid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Laid {
    /// Its running frame.
    pub at: i64,
    /// How long. Unit: frames.
    pub frames: u32,
}

/// What became of a cue since it was laid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CueState {
    /// It is where it was, as long as it was.
    Held,
    /// It stands elsewhere.
    Moved,
    /// It is longer or shorter.
    Stretched,
    /// It has no place.
    Orphan,
}

/// What became of a cue that was laid there and stands here now. A cue that was never laid
/// before is held.
#[must_use]
pub fn state(was: Option<Laid>, now: Option<Laid>) -> CueState {
    match (was, now) {
        (_, None) => CueState::Orphan,
        (Some(was), Some(now)) if was.frames != now.frames => CueState::Stretched,
        (Some(was), Some(now)) if was.at != now.at => CueState::Moved,
        _ => CueState::Held,
    }
}
