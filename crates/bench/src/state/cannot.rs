//! Reports that cannot be true.

use onestrand_film::{FrameName, RollId};

/// Why a deed cannot have happened, the bench being as it is.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CannotBe {
    /// There is no such roll on this bench.
    #[error("roll {roll} is not on this bench")]
    NoRoll {
        /// The roll.
        roll: RollId,
    },
    /// Another roll, or none, is on the rewinds.
    #[error("roll {roll} is not on the rewinds")]
    NotMounted {
        /// The roll.
        roll: RollId,
    },
    /// The film does not go on there.
    #[error("there is no film to cut before {frame}: it already ends there")]
    EndsThere {
        /// The first frame behind the blade.
        frame: FrameName,
    },
    /// The frame is no more.
    #[error("{frame} is no more: it was {how}")]
    NoMore {
        /// The frame.
        frame: FrameName,
        /// How it went.
        how: &'static str,
    },
    /// The roll has no such frame.
    #[error("{frame} is beyond the end of the roll")]
    Beyond {
        /// The frame.
        frame: FrameName,
    },
    /// Something else hangs there.
    #[error("pin {pin} is taken: {frame} hangs there")]
    PinTaken {
        /// The pin.
        pin: u32,
        /// The first frame of what hangs there.
        frame: FrameName,
    },
    /// There are no pins of that number.
    #[error("there is no pin {pin}")]
    NoPin {
        /// The pin.
        pin: u32,
    },
    /// It is on the reel already.
    #[error("{frame} is on the take-up reel already")]
    OnTheReel {
        /// The frame.
        frame: FrameName,
    },
    /// It is still part of its roll: not cut off at one end.
    #[error("{frame} still hangs together with the rest of its roll")]
    NotCutOff {
        /// The frame.
        frame: FrameName,
    },
    /// No film was turned back, or nothing of it is left.
    #[error("no made film was turned back")]
    NothingMade,
    /// The made film is not on the rewinds.
    #[error("the made film is not on the rewinds")]
    MadeNotMounted,
    /// There is no film on the reel that could be turned back.
    #[error("nothing is on the take-up reel")]
    NothingToTurn,
    /// Film is on the take-up reel already.
    #[error("the take-up reel is not empty")]
    ReelNotEmpty,
    /// No head leader hangs on anything off the reel.
    #[error("nothing off the reel hangs on a head leader")]
    NoLeader,
    /// The tail leader hangs on no such leader or card.
    #[error("no tail leader hangs on that leader or card")]
    NoTailLeader,
    /// A leader hangs on it, which is in the way.
    #[error("a leader hangs on the length at {frame}")]
    LeaderThere {
        /// A frame of the length.
        frame: FrameName,
    },
    /// The reel is ended.
    #[error("the reel is ended: its tail leader is joined")]
    Ended,
    /// The reel has no such join.
    #[error("the reel has no join {join}")]
    NoJoin {
        /// Which, counted along the reel.
        join: usize,
    },
    /// The length has no such join.
    #[error("the length at {frame} has no join {join}")]
    NoJoinThere {
        /// A frame of it.
        frame: FrameName,
        /// Which, counted along it from 1.
        join: usize,
    },
    /// Nothing of a length would be left.
    #[error("the length at {frame} is too short for this join: nothing of it would be left")]
    TooShort {
        /// A frame of it.
        frame: FrameName,
    },
    /// The entry to strike out is none, or struck out already.
    #[error("there is no entry {entry} to strike out")]
    NoEntry {
        /// Its number, from 1.
        entry: usize,
    },
    /// What came after it could then not have happened.
    #[error("entry {entry} cannot be struck out: entry {later} came of it")]
    LaterHoldsOn {
        /// The entry to strike out, from 1.
        entry: usize,
        /// The first that could not have happened.
        later: usize,
    },
}

impl CannotBe {
    /// A short word for machines.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NoRoll { .. } => "no_roll",
            Self::NotMounted { .. } => "not_mounted",
            Self::EndsThere { .. } => "ends_there",
            Self::NoMore { .. } => "no_more",
            Self::Beyond { .. } => "beyond",
            Self::PinTaken { .. } => "pin_taken",
            Self::NoPin { .. } => "no_pin",
            Self::OnTheReel { .. } => "on_the_reel",
            Self::NotCutOff { .. } => "not_cut_off",
            Self::NothingMade => "nothing_made",
            Self::MadeNotMounted => "made_not_mounted",
            Self::NothingToTurn => "nothing_to_turn",
            Self::ReelNotEmpty => "reel_not_empty",
            Self::NoLeader => "no_leader",
            Self::NoTailLeader => "no_tail_leader",
            Self::LeaderThere { .. } => "leader_there",
            Self::Ended => "ended",
            Self::NoJoin { .. } => "no_join",
            Self::NoJoinThere { .. } => "no_join_there",
            Self::TooShort { .. } => "too_short",
            Self::NoEntry { .. } => "no_entry",
            Self::LaterHoldsOn { .. } => "later_holds_on",
        }
    }

    /// What to do next.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::NoRoll { .. } => "name a roll that this version takes film from",
            Self::NotMounted { .. } => "say first that the roll was put on",
            Self::EndsThere { .. } => "look at the frame again; say where the blade really went",
            Self::NoMore { .. } | Self::Beyond { .. } => "look at the frame again",
            Self::PinTaken { .. } => "name a pin that is free",
            Self::NoPin { .. } => "pins are counted from 1",
            Self::OnTheReel { .. } => "say that its join was opened, if it came off again",
            Self::NotCutOff { .. } => "say first where the blade went",
            Self::NothingMade => "say first that the made film was turned back",
            Self::MadeNotMounted => "say first that the made film was put on",
            Self::NothingToTurn => "join something first",
            Self::ReelNotEmpty => "join it to what is on the reel",
            Self::NoTailLeader => "say that it was joined, and then the tail leader",
            Self::NoLeader => "say that it was joined",
            Self::LeaderThere { .. } => "say first that the join with the leader was opened",
            Self::Ended => "open the join of the tail leader to go on",
            Self::NoJoin { .. } => "joins are counted along the reel; 0 is that of the head leader",
            Self::NoJoinThere { .. } => "joins are counted along the length as it lies, from 1",
            Self::TooShort { .. } => "take tape, which eats no frames",
            Self::NoEntry { .. } => "look at the list of what was done",
            Self::LaterHoldsOn { .. } => "strike out the later one first",
        }
    }
}
