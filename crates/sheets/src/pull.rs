//! The pull list: what the hand takes from which roll, and how it finds it.

use onestrand_film::{FrameDelta, FramePos, FrameRange, Frames, RollId};

use crate::head::Head;

/// A pull list to print.
#[derive(Clone, Debug)]
pub struct PullList {
    /// What every sheet has in common.
    pub head: Head,
    /// The order the strips are pulled in.
    pub order: PullOrder,
    /// The work, roll by roll as they are mounted.
    pub mounts: Vec<Mount>,
    /// The running length of the whole cut, leaders apart.
    pub running: Frames,
    /// Cuts with the blade.
    pub cuts: u32,
    /// Joins, those to the leaders included.
    pub joins: u32,
    /// Stretches of film left over, for the outs reel.
    pub leftovers: u32,
    /// Film wound past the hand.
    pub wound: Frames,
}

/// The order strips are pulled in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum PullOrder {
    /// In the order of the cut: no strip need hang, the rolls are changed and
    /// wound to and fro instead.
    Cut,
}

/// One mounting of a roll and the strips pulled from it.
#[derive(Clone, Debug)]
pub struct Mount {
    /// The roll.
    pub roll: RollId,
    /// How it lies on the rewind.
    pub lies: Lies,
    /// The strips, in the order they are pulled.
    pub strips: Vec<Strip>,
}

/// How a roll lies when it is mounted: which end is outermost.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Lies {
    /// Its head.
    HeadsOut,
    /// Its tail.
    TailsOut,
    /// Neither: the roll was on the bench before and is put back as it was
    /// left, part on either reel.
    AsLeft,
}

/// One strip to cut out of a roll.
#[derive(Clone, Debug)]
pub struct Strip {
    /// The frames kept, first kept to first thrown.
    pub kept: FrameRange,
    /// The frames cut out: those kept and, beyond them, those the joins eat.
    /// Equal to `kept` with tape.
    pub cut: FrameRange,
    /// Something near by that the eye can find.
    pub landmark: Landmark,
    /// How far the film is wound to bring the first cut into the splicer from
    /// where the hand left it; backwards when negative.
    pub wind: FrameDelta,
    /// Where the strip goes.
    pub pin: Pin,
    /// The first position of the cut it fills.
    pub position: u32,
    /// The last; the same unless pieces were merged into one strip.
    pub last_position: u32,
    /// The first frame kept as a JPEG or PNG file, nothing for a roll that was
    /// never scanned.
    pub picture: Option<Vec<u8>>,
}

/// A frame that can be recognised by eye.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Landmark {
    /// What it is, such as `camera stop 3-T2` or `last cut`.
    pub words: String,
    /// Its frame on the roll of the strip.
    pub at: FramePos,
}

/// Where a strip hangs, if it does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Pin {
    /// An empty box: whoever holds the gloves writes the number in.
    ToBeWritten,
    /// On this pin of the trim bin, counted from 1.
    Number(u32),
    /// On none: straight on the take-up reel.
    None,
}
