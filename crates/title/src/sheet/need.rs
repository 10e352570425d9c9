//! What a title needs of the roll.

use crate::sheet::asked::ExposureAsked;

/// What a title needs of the roll.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RollNeed {
    /// Takes, spares counted.
    pub takes: u32,
    /// Frames of each with its run-up.
    pub frames_each: u32,
    /// All of it. Unit: frames.
    pub frames: u32,
    /// The furthest that the film is wound back. Unit: frames.
    pub wound_back: u32,
}

/// What it needs of the roll: a second pass winds back and takes no further film.
pub(crate) fn need(asked: &ExposureAsked, wound_back: u32) -> RollNeed {
    let takes = asked.spares.saturating_add(1);
    let frames_each = asked.frames().saturating_add(asked.run_up);
    RollNeed {
        takes,
        frames_each,
        frames: takes.saturating_mul(frames_each),
        wound_back,
    }
}
