//! Lengths of film, what they are joined to, and where they are.

use onestrand_cut::JoinKind;
use onestrand_film::{FrameName, FrameRange, RollId};

use super::Laid;

/// Film without a join in it.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Film {
    /// Frames of a roll.
    Roll {
        /// The roll.
        roll: RollId,
        /// First frame.
        begin: u32,
        /// First frame behind it.
        end: u32,
    },
    /// Leader or a card, which come from no roll.
    Other {
        /// Its position in the cut, from 1.
        position: usize,
        /// Its length in frames.
        frames: u32,
    },
}

impl Film {
    /// Its length in frames.
    #[must_use]
    pub const fn frames(&self) -> u32 {
        match self {
            Self::Roll { begin, end, .. } => *end - *begin,
            Self::Other { frames, .. } => *frames,
        }
    }

    /// The frame seen first, if it is of a roll.
    #[must_use]
    pub fn first_seen(&self, laid: Laid) -> Option<FrameName> {
        let Self::Roll { roll, begin, end } = self else {
            return None;
        };
        let frame = if laid.is_tail_first() {
            super::whole::name(roll, end - 1)
        } else {
            super::whole::name(roll, *begin)
        };
        Some(frame)
    }

    /// The frame seen last, if it is of a roll.
    #[must_use]
    pub fn last_seen(&self, laid: Laid) -> Option<FrameName> {
        let Self::Roll { roll, begin, end } = self else {
            return None;
        };
        let frame = if laid.is_tail_first() {
            super::whole::name(roll, *begin)
        } else {
            super::whole::name(roll, end - 1)
        };
        Some(frame)
    }

    /// Whether it holds a frame.
    #[must_use]
    pub fn holds(&self, of: &RollId, frame: u32) -> bool {
        matches!(self, Self::Roll { roll, begin, end }
            if roll == of && (*begin..*end).contains(&frame))
    }
}

/// A join that was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Made {
    /// With what.
    pub kind: JoinKind,
    /// By which entry of the log.
    pub entry: usize,
}

/// One length in a length.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Link {
    /// The film.
    pub film: Film,
    /// How it lies.
    pub laid: Laid,
    /// The join to what is before it: another link, or the head leader of the
    /// reel. None at the head of a length that is joined to nothing.
    pub join: Option<Made>,
}

/// Where a length is.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// With its roll, as the blade left it.
    Roll,
    /// On the made film that was turned back, as it was made.
    Made,
    /// On a pin of the trim bin.
    Pin(u32),
    /// On the take-up reel.
    TakeUp,
    /// On the bench, neither hung nor wound.
    Bench,
    /// On a reel of outs.
    Outs(String),
}

/// Film that hangs together: links joined to each other.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Length {
    /// From head to tail.
    pub links: Vec<Link>,
    /// The join to the tail leader, if one hangs on it. Only on film that was turned
    /// back: that of the take-up reel is told by [`super::BenchState::is_ended`].
    pub tail: Option<Made>,
    /// Where it is.
    pub place: Place,
}

impl Length {
    /// Its length in frames.
    #[must_use]
    pub fn frames(&self) -> u32 {
        self.links.iter().map(|l| l.film.frames()).sum()
    }

    /// The join with the head leader, if one hangs on it.
    #[must_use]
    pub fn head(&self) -> Option<Made> {
        self.links.first().and_then(|l| l.join)
    }

    pub(super) fn of(film: Film, place: Place) -> Self {
        Self {
            links: vec![Link {
                film,
                laid: Laid::Right,
                join: None,
            }],
            tail: None,
            place,
        }
    }
}

/// How frames were lost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum How {
    /// A join ate them.
    Eaten,
    /// A join that was opened spoiled them.
    Opened,
    /// Torn.
    Torn,
}

impl How {
    /// The word in commands and files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Eaten => "eaten",
            Self::Opened => "opened",
            Self::Torn => "torn",
        }
    }
}

/// Frames that are no more.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Gone {
    /// The roll.
    pub roll: RollId,
    /// Which.
    pub frames: FrameRange,
    /// How.
    pub how: How,
    /// By which entry of the log.
    pub entry: usize,
}
