//! Pieces in their order: the trial cut.

use onestrand_film::{Frames, Span};

use crate::{JoinKind, Slate};

/// Something a splicer cannot do; it would take a laboratory.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Effect {
    /// One frame held.
    Freeze,
    /// Shown faster or slower.
    Speed,
    /// Shown backwards.
    Reverse,
    /// Fading in or out, or into its neighbour.
    Fade,
}

impl Effect {
    /// Every effect.
    pub const ALL: [Self; 4] = [Self::Freeze, Self::Speed, Self::Reverse, Self::Fade];

    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Freeze => "freeze",
            Self::Speed => "speed",
            Self::Reverse => "reverse",
            Self::Fade => "fade",
        }
    }
}

/// What a piece is made of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PieceKind {
    /// Frames of a camera roll.
    Shot(Span),
    /// Film without picture.
    Leader(Frames),
    /// A title still to be photographed.
    Card {
        /// How long it is to stand.
        frames: Frames,
        /// The name of the title.
        title: String,
    },
}

/// One piece of a trial cut.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// What it is made of.
    pub kind: PieceKind,
    /// What the slate says.
    pub slate: Option<Slate>,
    /// The join after it, when it is not the cut's usual one.
    pub join: Option<JoinKind>,
    /// An effect asked for, which no bench can make.
    pub effect: Option<Effect>,
    /// The user's own words.
    pub note: String,
}

impl Piece {
    /// A piece of a camera roll with the usual join after it.
    #[must_use]
    pub const fn shot(span: Span) -> Self {
        Self {
            kind: PieceKind::Shot(span),
            slate: None,
            join: None,
            effect: None,
            note: String::new(),
        }
    }

    /// A length of leader with the usual join after it.
    #[must_use]
    pub const fn leader(frames: Frames) -> Self {
        Self {
            kind: PieceKind::Leader(frames),
            slate: None,
            join: None,
            effect: None,
            note: String::new(),
        }
    }

    /// How long it stands on the screen.
    #[must_use]
    pub fn frames(&self) -> Frames {
        match &self.kind {
            PieceKind::Shot(span) => span.range.len(),
            PieceKind::Leader(frames) | PieceKind::Card { frames, .. } => *frames,
        }
    }

    /// The camera frames it shows, if any.
    #[must_use]
    pub const fn span(&self) -> Option<&Span> {
        match &self.kind {
            PieceKind::Shot(span) => Some(span),
            PieceKind::Leader(_) | PieceKind::Card { .. } => None,
        }
    }
}

/// A cut on the scan only: pieces in their order, with the usual join.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TrialCut {
    pub(crate) pieces: Vec<Piece>,
    pub(crate) usual_join: JoinKind,
}

impl TrialCut {
    /// A cut of these pieces, joined by `usual_join` where a piece says nothing.
    #[must_use]
    pub const fn new(pieces: Vec<Piece>, usual_join: JoinKind) -> Self {
        Self { pieces, usual_join }
    }

    /// The pieces in their order; position 1 is the first.
    #[must_use]
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// The join where a piece says nothing, and at the head leader.
    #[must_use]
    pub const fn usual_join(&self) -> JoinKind {
        self.usual_join
    }

    /// The same cut joined otherwise.
    #[must_use]
    pub fn joined_by(&self, usual_join: JoinKind) -> Self {
        Self {
            pieces: self.pieces.clone(),
            usual_join,
        }
    }

    /// The whole length, leader and cards counted, head and tail leaders not.
    #[must_use]
    pub fn frames(&self) -> Frames {
        Frames::total(self.pieces.iter().map(Piece::frames))
    }

    /// Where each piece begins in the running cut. Unit: frames.
    #[must_use]
    pub fn starts(&self) -> Vec<Frames> {
        let mut at = Frames::ZERO;
        self.pieces
            .iter()
            .map(|piece| {
                let start = at;
                at = at.checked_add(piece.frames()).unwrap_or(Frames::MAX);
                start
            })
            .collect()
    }
}
