//! The work order: the bench work in the order in which it is done.

use onestrand_film::{FrameDelta, FramePos, FrameRange, Frames, RollId};

use crate::head::{Head, JoinKind};
use crate::pull::{Lies, Pin};
use crate::way::{Edge, StripEnd, WayCount};

/// A work order to print.
#[derive(Clone, Debug)]
pub struct WorkOrderSheet {
    /// What every sheet has in common.
    pub head: Head,
    /// How rolls are wound, in words: `one pass a roll`.
    pub winding: String,
    /// Whether it is proved that no order is better.
    pub best: bool,
    /// What goes on the reel before any roll is mounted.
    pub before: Vec<TakenUp>,
    /// The work, mounting by mounting.
    pub mounts: Vec<WorkMount>,
    /// Every join in the order in which it is made, head and tail leader included.
    pub joins: Vec<JoinMade>,
    /// The running length of the whole cut, leaders apart.
    pub running: Frames,
    /// Cuts with the blade.
    pub cuts: u32,
    /// Stretches of film left over.
    pub leftovers: u32,
    /// Film wound past the hand.
    pub wound: Frames,
    /// Pins wanted at the worst moment.
    pub pins: u32,
    /// Pins of the trim bin.
    pub pins_owned: u32,
    /// The time it takes, as it is estimated. Unit: whole minutes.
    pub minutes: u32,
}

/// One mounting of a roll, and the strips that come off it.
#[derive(Clone, Debug)]
pub struct WorkMount {
    /// The roll.
    pub roll: RollId,
    /// How it lies.
    pub lies: Lies,
    /// Whether it is wound through to its tail first, to this place behind its
    /// last frame.
    pub through: Option<FramePos>,
    /// The strips in the order in which they are taken.
    pub strips: Vec<WorkStrip>,
}

/// One strip that comes off its roll.
#[derive(Clone, Debug)]
pub struct WorkStrip {
    /// The frames kept.
    pub kept: FrameRange,
    /// The frames cut out: kept, and eaten by the joins.
    pub cut: FrameRange,
    /// Which end the hand comes to first.
    pub first: StripEnd,
    /// What the blade does at that end.
    pub first_edge: Edge,
    /// What it does at the other.
    pub second_edge: Edge,
    /// The counts to the first end; the last one ends there.
    pub way: Vec<WayCount>,
    /// Another way from nearer by.
    pub near: Option<WayCount>,
    /// How far the film is wound to bring the first end into the splicer.
    pub wind: FrameDelta,
    /// On which pin it hangs, if it does.
    pub pin: Pin,
    /// The first position of the cut it fills.
    pub position: u32,
    /// The last.
    pub last_position: u32,
    /// The first frame kept as a JPEG or PNG file.
    pub picture: Option<Vec<u8>>,
    /// What goes on the reel after it, before the next strip is taken.
    pub then: Vec<TakenUp>,
}

/// Something that goes on the reel and comes off no roll at that moment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TakenUp {
    /// The pin it comes off; none for leader and cards, which lie ready.
    pub pin: Option<u32>,
    /// What it is, where it lies ready: `leader, 24 frames`.
    pub words: String,
    /// The position it fills.
    pub position: u32,
}

/// One join.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct JoinMade {
    /// The position before it; none at the head leader.
    pub after: Option<u32>,
    /// The position behind it; none at the tail leader.
    pub before: Option<u32>,
    /// Its kind.
    pub kind: JoinKind,
}
