//! Labels for the pins of a trim bin while a cut is worked.

use onestrand_film::{FrameRange, RollId};

use crate::head::{Head, JoinKind};

/// Pin labels to print, to be cut apart.
#[derive(Clone, Debug)]
pub struct PinLabels {
    /// What every sheet has in common.
    pub head: Head,
    /// A label for each strip that hangs, in the order in which they are hung.
    pub labels: Vec<PinLabel>,
}

/// The label of one strip.
#[derive(Clone, Debug)]
pub struct PinLabel {
    /// The pin.
    pub pin: u32,
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
    /// The frames kept.
    pub kept: FrameRange,
    /// The frames on the pin: kept, and those for the joins to eat.
    pub cut: FrameRange,
    /// The position after which it comes off; none when it is the first of the cut.
    pub off_after: Option<u32>,
    /// The join with what goes before it.
    pub join: JoinKind,
    /// Its first frame kept as a JPEG or PNG file.
    pub picture: Option<Vec<u8>>,
}
