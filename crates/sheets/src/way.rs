//! How a place on the film is found, as the sheets for the bench print it.

use onestrand_film::{FrameDelta, FramePos};

/// One count on the way to a cut.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WayCount {
    /// What is counted from: `camera stop 3-T2`.
    pub words: String,
    /// Its frame, which is 0 of the count.
    pub at: FramePos,
    /// So many frames on, or back towards the head.
    pub count: FrameDelta,
}

/// How far a place may be off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MayBeOff {
    /// Unit: hundredths of a frame.
    pub frames_100: u32,
    /// Whether the ruler is what leaves it open; else the counting.
    pub by_ruler: bool,
}

/// Whether the blade has anything to do at an end of a strip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Edge {
    /// It is cut.
    Cut,
    /// The film was cut there before.
    CutBefore,
    /// The roll begins or ends there.
    RollEnds,
}

/// Which end of a strip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StripEnd {
    /// Its head.
    Head,
    /// Its tail.
    Tail,
}
