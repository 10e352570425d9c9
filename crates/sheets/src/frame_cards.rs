//! Frame cards: pictures and counts by which both ends of a strip are found.

use onestrand_film::{FramePos, FrameRange, RollId};

use crate::head::Head;
use crate::pull::Pin;
use crate::way::{Edge, MayBeOff, StripEnd, WayCount};

/// Frame cards to print, several to a page, to be cut apart.
#[derive(Clone, Debug)]
pub struct FrameCards {
    /// What every sheet has in common.
    pub head: Head,
    /// How the film lies on the user's bench.
    pub lies: OnBench,
    /// No single count is longer. Unit: frames.
    pub limit: u32,
    /// A hand slips by one frame in so many counted.
    pub one_slip_in: u32,
    /// The cards in the order of the work.
    pub cards: Vec<StripCard>,
}

/// How film lies on the bench, from left to right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OnBench {
    /// Whether the emulsion is up; else the base.
    pub emulsion_up: bool,
    /// Whether the head is at the left; else at the right.
    pub head_left: bool,
}

/// The card of one strip.
#[derive(Clone, Debug)]
pub struct StripCard {
    /// Its number in the work order.
    pub number: u32,
    /// The first position it fills.
    pub position: u32,
    /// The last.
    pub last_position: u32,
    /// The roll.
    pub roll: RollId,
    /// Setup and take, may be empty.
    pub slate: String,
    /// What happens, may be empty.
    pub action: String,
    /// The frames kept.
    pub kept: FrameRange,
    /// The frames cut out.
    pub cut: FrameRange,
    /// Whether the film reads right through its emulsion, as a contact print does.
    pub is_print: bool,
    /// Which end is cut first.
    pub first: StripEnd,
    /// Where the strip goes.
    pub pin: Pin,
    /// Its head.
    pub head: CardEnd,
    /// Its tail.
    pub tail: CardEnd,
}

/// One end of a strip on its card.
#[derive(Clone, Debug)]
pub struct CardEnd {
    /// The cut is made on the line before this frame.
    pub at: FramePos,
    /// What the blade does there.
    pub edge: Edge,
    /// The frames about the cut, in the order of the roll.
    pub frames: Vec<CardFrame>,
    /// The main way.
    pub way: Vec<WayCount>,
    /// How far that may be off.
    pub off: MayBeOff,
    /// Whether it leads over the other end of the strip, so that it must be
    /// counted and marked before that is cut.
    pub before_other_cut: bool,
    /// From the cut at the other end, once it is made.
    pub from_other_cut: Option<WayCount>,
    /// A way from nearer by, and how far that may be off.
    pub near: Option<(WayCount, MayBeOff)>,
}

/// A frame beside a cut.
#[derive(Clone, Debug)]
pub struct CardFrame {
    /// The frame.
    pub frame: FramePos,
    /// What becomes of it.
    pub fate: Fate,
    /// Its picture as a JPEG or PNG file.
    pub picture: Option<Vec<u8>>,
}

/// What becomes of a frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fate {
    /// It stays in the cut.
    Kept,
    /// The join eats it.
    Eaten,
    /// It is thrown away.
    Thrown,
    /// It is wanted for another position.
    WantedIn(u32),
}
