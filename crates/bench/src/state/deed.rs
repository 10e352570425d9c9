//! What is done at the bench, one deed at a time.

use onestrand_cut::JoinKind;
use onestrand_film::{FrameName, FramePos, FrameRange, RollId};

/// How a length is laid when it is joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Laid {
    /// As it ran in the camera, emulsion as everywhere.
    #[default]
    Right,
    /// Turned over: the emulsion is on the other side, the picture mirrored, and
    /// on film with holes along one edge these lie on the wrong side.
    TurnedOver,
    /// End for end: its tail comes first, the picture stands on its head and runs
    /// backwards.
    EndForEnd,
    /// Both: flipped over end over end.
    EndOverEnd,
}

impl Laid {
    /// Every way.
    pub const ALL: [Self; 4] = [
        Self::Right,
        Self::TurnedOver,
        Self::EndForEnd,
        Self::EndOverEnd,
    ];

    /// Whether its tail comes first.
    #[must_use]
    pub const fn is_tail_first(self) -> bool {
        matches!(self, Self::EndForEnd | Self::EndOverEnd)
    }

    const fn is_turned_over(self) -> bool {
        matches!(self, Self::TurnedOver | Self::EndOverEnd)
    }

    /// How film lies that lay this way and is then laid anew, `by` being how the
    /// hand turns it; and, each way being its own return, how the hand must turn
    /// it to come from one to the other.
    #[must_use]
    pub const fn turned(self, by: Self) -> Self {
        let over = self.is_turned_over() != by.is_turned_over();
        let ends = self.is_tail_first() != by.is_tail_first();
        match (over, ends) {
            (false, false) => Self::Right,
            (true, false) => Self::TurnedOver,
            (false, true) => Self::EndForEnd,
            (true, true) => Self::EndOverEnd,
        }
    }

    /// The word in commands and files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::TurnedOver => "turned_over",
            Self::EndForEnd => "end_for_end",
            Self::EndOverEnd => "end_over_end",
        }
    }
}

/// What is led to the take-up reel.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Next {
    /// The length that holds this frame.
    Film(FrameName),
    /// Leader or a card: the piece at this position of the cut, from 1.
    Other {
        /// The position, from 1.
        position: usize,
        /// Its length in frames.
        frames: u32,
    },
    /// Leader or a card that the tail leader still hangs on, from the end of the film
    /// turned back: it ends the reel.
    Last {
        /// The position, from 1.
        position: usize,
        /// Its length in frames.
        frames: u32,
    },
    /// The tail leader: it ends the reel.
    TailLeader,
}

/// One deed. A deed is never undone; it may be struck out by a later entry of
/// the log when it was written down wrongly.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Deed {
    /// A roll goes on the rewinds, and the one that was there comes off.
    Mount {
        /// The roll.
        roll: RollId,
    },
    /// The rewinds are empty.
    Unmount,
    /// Wound without a cut: through to the tail, or back.
    Wind {
        /// The roll.
        roll: RollId,
        /// The frame at the splicer afterwards.
        to: FramePos,
    },
    /// The made film is wound back, head out, to be made anew; an empty reel takes up,
    /// and the rewinds are empty. What hangs stays; what is left of film turned back
    /// before lies on the bench from now on.
    TurnBack {
        /// Leader and cards by their position in the version they were made for, and
        /// the position that each has from now on.
        others: Vec<(usize, usize)>,
    },
    /// The made film goes on the rewinds, and what was there comes off.
    MountMade,
    /// The made film is wound without a cut.
    WindMade {
        /// The running frame at the splicer afterwards, counted as the film ran when
        /// it was turned back.
        to: FramePos,
    },
    /// What hangs on the head leader of the made film goes with it on the empty reel
    /// as it is.
    Lead,
    /// Cut on the line before a frame.
    Cut {
        /// The roll.
        roll: RollId,
        /// The first frame behind the blade.
        before: FramePos,
    },
    /// Hung on a pin of the trim bin.
    Hang {
        /// A frame of the length.
        frame: FrameName,
        /// The pin, from 1.
        pin: u32,
    },
    /// Led to the take-up reel and joined to what is on it.
    Join {
        /// What.
        next: Next,
        /// With which join.
        kind: JoinKind,
        /// How the film named then lies. What is joined to it turns with it.
        laid: Laid,
    },
    /// A join of the reel opened. 0 is the one with the head leader.
    Open {
        /// Which, counted along the reel.
        join: usize,
    },
    /// A join opened in a length that is not on the reel.
    Unjoin {
        /// A frame of the length.
        frame: FrameName,
        /// Which of its joins, counted along it as it lies, from 1; 0 is the one with
        /// a head leader, and the last one may be that with a tail leader.
        join: usize,
    },
    /// A join opened beside leader or a card on the film turned back.
    UnjoinOther {
        /// Its position, from 1.
        position: usize,
        /// Which of the joins of the length, counted as in [`Deed::Unjoin`].
        join: usize,
    },
    /// Frames torn, or spoiled so that they cannot be shown.
    Tear {
        /// The roll.
        roll: RollId,
        /// The frames.
        frames: FrameRange,
    },
    /// Frames that the version wanted, and that are let go: the rest is not
    /// waited for.
    LetGo {
        /// The roll.
        roll: RollId,
        /// The frames.
        frames: FrameRange,
    },
    /// Wound on a reel of outs, to be found again.
    MakeUp {
        /// A frame of the length.
        frame: FrameName,
        /// The name of the reel.
        reel: String,
    },
}

impl Deed {
    /// The word in commands and files.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Mount { .. } => "mount",
            Self::Unmount => "unmount",
            Self::Wind { .. } => "wind",
            Self::TurnBack { .. } => "turn_back",
            Self::MountMade => "mount_made",
            Self::WindMade { .. } => "wind_made",
            Self::Lead => "lead",
            Self::Cut { .. } => "cut",
            Self::Hang { .. } => "hang",
            Self::Join { .. } => "join",
            Self::Open { .. } => "open",
            Self::Unjoin { .. } | Self::UnjoinOther { .. } => "unjoin",
            Self::Tear { .. } => "tear",
            Self::LetGo { .. } => "let_go",
            Self::MakeUp { .. } => "make_up",
        }
    }

    /// Whether it does to film what cannot be taken back.
    #[must_use]
    pub const fn is_for_good(&self) -> bool {
        matches!(
            self,
            Self::Cut { .. }
                | Self::Join { .. }
                | Self::Open { .. }
                | Self::Unjoin { .. }
                | Self::UnjoinOther { .. }
                | Self::Tear { .. }
        )
    }
}
