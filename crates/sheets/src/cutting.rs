//! The cutting sheet: the cut row by row, in the order it will be seen.

use onestrand_film::{Frames, Span};

use crate::head::{Head, JoinKind};

/// A cutting sheet to print.
#[derive(Clone, Debug)]
pub struct CuttingSheet {
    /// What every sheet has in common.
    pub head: Head,
    /// The join between the head leader and the first row; nothing when the
    /// cut has no head leader.
    pub head_join: Option<JoinKind>,
    /// The rows in the order of the cut. The row's place, from 1, is its
    /// position.
    pub rows: Vec<CuttingRow>,
}

/// One row of the cut.
#[derive(Clone, Debug)]
pub struct CuttingRow {
    /// What stands there.
    pub what: Standing,
    /// What comes after it.
    pub after: After,
    /// A note in the maker's words, may be empty.
    pub note: String,
}

/// What stands at a position of the cut.
#[derive(Clone, Debug)]
pub enum Standing {
    /// A piece of a roll.
    Piece(Piece),
    /// Leader without picture.
    Leader {
        /// Its length.
        frames: Frames,
    },
    /// A title card still to be photographed, so that the cut is complete
    /// before the title roll comes back.
    Card {
        /// Its length.
        frames: Frames,
        /// What the card says or is called.
        title: String,
    },
}

/// A piece of camera original.
#[derive(Clone, Debug)]
pub struct Piece {
    /// The take's name, such as `3A-T2`, may be empty.
    pub slate: String,
    /// What happens, in a few words, may be empty.
    pub action: String,
    /// The frames, first kept to first thrown.
    pub span: Span,
    /// The first frame kept as a JPEG or PNG file, nothing for a roll that was
    /// never scanned.
    pub first: Option<Vec<u8>>,
    /// The last frame kept, likewise.
    pub last: Option<Vec<u8>>,
}

/// What comes after a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum After {
    /// A join to the next row, or to the tail leader after the last.
    Join(JoinKind),
    /// No join: the next row continues this one on the film, both are one
    /// strip.
    RunsOn,
    /// Nothing: the cut ends here without a tail leader.
    End,
}

impl Standing {
    /// The length of what stands there.
    pub(crate) fn frames(&self) -> Frames {
        match self {
            Self::Piece(piece) => piece.span.range.len(),
            Self::Leader { frames } | Self::Card { frames, .. } => *frames,
        }
    }
}
