//! The inspection of joins: every join of a cut film, looked at one by one.

use onestrand_film::{FrameName, Frames};

use crate::head::{Head, JoinKind};

/// An inspection of joins to print.
#[derive(Clone, Debug)]
pub struct JoinsInspection {
    /// What every sheet has in common.
    pub head: Head,
    /// The running length of the cut.
    pub running: Frames,
    /// The joins in the order of the film.
    pub joins: Vec<JoinToSee>,
}

/// One join.
#[derive(Clone, Debug)]
pub struct JoinToSee {
    /// The side before it; none for the head leader.
    pub before: Option<JoinSide>,
    /// The side behind it; none for the tail leader.
    pub behind: Option<JoinSide>,
    /// Where it runs, from the first frame of the cut.
    pub at: Frames,
    /// Its kind.
    pub kind: JoinKind,
}

/// One side of a join.
#[derive(Clone, Debug)]
pub struct JoinSide {
    /// The position in the cut.
    pub position: u32,
    /// The frame of the roll that lies at the join; none for leader and cards.
    pub frame: Option<FrameName>,
    /// How long the piece is.
    pub frames: Frames,
}
