//! The outs list: what is left of every roll, and where a trim is found again.

use onestrand_film::{FrameRange, Frames, RollId};

use crate::head::Head;

/// An outs list to print.
#[derive(Clone, Debug)]
pub struct OutsList {
    /// What every sheet has in common.
    pub head: Head,
    /// The outs reels, one a roll.
    pub reels: Vec<OutsReel>,
}

/// What is left of one roll, made up into a reel.
#[derive(Clone, Debug)]
pub struct OutsReel {
    /// The roll.
    pub roll: RollId,
    /// Frames of the whole roll.
    pub frames: Frames,
    /// Frames kept in the cut.
    pub kept: Frames,
    /// Frames that joins eat.
    pub eaten: Frames,
    /// What is left, head to tail, as it is joined on the reel.
    pub outs: Vec<Out>,
}

/// One stretch that is left.
#[derive(Clone, Debug)]
pub struct Out {
    /// Its frames on the roll.
    pub frames: FrameRange,
    /// Where it begins on the outs reel.
    pub starts: Frames,
    /// What it holds, take by take: `1-T1 whole, 1-T2 to 401`.
    pub words: String,
    /// The first and the last frame as JPEG or PNG files.
    pub first: Option<Vec<u8>>,
    /// The last.
    pub last: Option<Vec<u8>>,
}
