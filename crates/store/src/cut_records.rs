//! How cuts and their changes are written down.

use onestrand_cut::{Change, Effect, JoinKind, Piece, PieceKind, Slate, TrialCut};
use onestrand_film::Frames;
use serde::{Deserialize, Serialize};

use crate::StoreError;
use crate::records::{slate, span};

/// A trial cut as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutRecord {
    /// The usual join.
    pub usual_join: String,
    /// The user's note.
    pub note: String,
    /// When it was made.
    pub made: String,
    /// The pieces in order.
    pub pieces: Vec<PieceRecord>,
}

/// A piece as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PieceRecord {
    /// `shot`, `leader` or `card`.
    pub kind: String,
    /// The roll of a shot.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub roll: Option<String>,
    /// First frame of a shot.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub first: Option<u32>,
    /// First frame after a shot.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thrown: Option<u32>,
    /// Length of leader or card.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub frames: Option<u32>,
    /// Name of the title on a card.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// Setup as the slate says it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub setup: Option<String>,
    /// Take number.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub take: Option<u16>,
    /// The join after it, when not the usual.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub join: Option<String>,
    /// An effect asked for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub effect: Option<String>,
    /// The user's note.
    pub note: String,
}

/// A change of a cut as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "change", rename_all = "snake_case")]
pub enum ChangeRecord {
    /// See [`Change::Insert`].
    Insert {
        /// Where.
        at: usize,
        /// What.
        piece: PieceRecord,
    },
    /// See [`Change::Remove`].
    Remove {
        /// Which.
        at: usize,
    },
    /// See [`Change::Replace`].
    Replace {
        /// Which.
        at: usize,
        /// What stands there afterwards.
        piece: PieceRecord,
    },
    /// See [`Change::Move`].
    Move {
        /// Which.
        from: usize,
        /// Its new position.
        to: usize,
    },
    /// See [`Change::UsualJoin`].
    UsualJoin {
        /// The kind.
        join: String,
    },
    /// See [`Change::All`].
    All {
        /// In order.
        changes: Vec<ChangeRecord>,
    },
}

impl From<&Change> for ChangeRecord {
    fn from(change: &Change) -> Self {
        match change {
            Change::Insert { at, piece } => Self::Insert {
                at: *at,
                piece: piece.into(),
            },
            Change::Remove { at } => Self::Remove { at: *at },
            Change::Replace { at, piece } => Self::Replace {
                at: *at,
                piece: piece.into(),
            },
            Change::Move { from, to } => Self::Move {
                from: *from,
                to: *to,
            },
            Change::UsualJoin(kind) => Self::UsualJoin {
                join: kind.to_string(),
            },
            Change::All(changes) => Self::All {
                changes: changes.iter().map(Into::into).collect(),
            },
        }
    }
}

impl ChangeRecord {
    /// The change of the model.
    ///
    /// # Errors
    /// [`StoreError::Unreadable`].
    pub fn to_model(&self) -> Result<Change, StoreError> {
        Ok(match self {
            Self::Insert { at, piece } => Change::Insert {
                at: *at,
                piece: piece.to_model()?,
            },
            Self::Remove { at } => Change::Remove { at: *at },
            Self::Replace { at, piece } => Change::Replace {
                at: *at,
                piece: piece.to_model()?,
            },
            Self::Move { from, to } => Change::Move {
                from: *from,
                to: *to,
            },
            Self::UsualJoin { join } => Change::UsualJoin(join_kind(join)?),
            Self::All { changes } => Change::All(
                changes
                    .iter()
                    .map(Self::to_model)
                    .collect::<Result<_, _>>()?,
            ),
        })
    }
}

impl From<&Piece> for PieceRecord {
    fn from(piece: &Piece) -> Self {
        let mut record = Self {
            kind: "shot".to_owned(),
            roll: None,
            first: None,
            thrown: None,
            frames: None,
            title: None,
            setup: piece.slate.as_ref().map(|s| s.setup().to_owned()),
            take: piece.slate.as_ref().map(Slate::take),
            join: piece.join.map(|j| j.to_string()),
            effect: piece.effect.map(|e| e.word().to_owned()),
            note: piece.note.clone(),
        };
        match &piece.kind {
            PieceKind::Shot(span) => {
                record.roll = Some(span.roll.to_string());
                record.first = Some(span.range.begin().index());
                record.thrown = Some(span.range.end().index());
            }
            PieceKind::Leader(frames) => {
                "leader".clone_into(&mut record.kind);
                record.frames = Some(frames.count());
            }
            PieceKind::Card { frames, title } => {
                "card".clone_into(&mut record.kind);
                record.frames = Some(frames.count());
                record.title = Some(title.clone());
            }
        }
        record
    }
}

impl PieceRecord {
    /// The piece of the model.
    ///
    /// # Errors
    /// [`StoreError::Unreadable`].
    pub fn to_model(&self) -> Result<Piece, StoreError> {
        let bad = || StoreError::unreadable("a piece", format!("{self:?}"));
        let frames = || Frames::new(self.frames.ok_or_else(bad)?).map_err(|_| bad());
        let kind = match self.kind.as_str() {
            "shot" => {
                let roll = self.roll.as_deref().ok_or_else(bad)?;
                let (first, thrown) = self.first.zip(self.thrown).ok_or_else(bad)?;
                PieceKind::Shot(span(roll, first, thrown)?)
            }
            "leader" => PieceKind::Leader(frames()?),
            "card" => PieceKind::Card {
                frames: frames()?,
                title: self.title.clone().unwrap_or_default(),
            },
            _ => return Err(bad()),
        };
        let effect = |word: &String| Effect::ALL.into_iter().find(|e| e.word() == word);
        Ok(Piece {
            kind,
            slate: slate(self.setup.as_deref(), self.take)?,
            join: self.join.as_deref().map(join_kind).transpose()?,
            effect: self.effect.as_ref().and_then(effect),
            note: self.note.clone(),
        })
    }
}

impl CutRecord {
    /// A record of a cut made now.
    #[must_use]
    pub fn new(cut: &TrialCut, note: &str) -> Self {
        Self {
            usual_join: cut.usual_join().to_string(),
            note: note.to_owned(),
            made: crate::production::now(),
            pieces: cut.pieces().iter().map(Into::into).collect(),
        }
    }

    /// The cut of the model.
    ///
    /// # Errors
    /// [`StoreError::Unreadable`].
    pub fn to_model(&self) -> Result<TrialCut, StoreError> {
        let pieces: Result<Vec<Piece>, _> = self.pieces.iter().map(PieceRecord::to_model).collect();
        Ok(TrialCut::new(pieces?, join_kind(&self.usual_join)?))
    }
}

fn join_kind(word: &str) -> Result<JoinKind, StoreError> {
    word.parse()
        .map_err(|_| StoreError::unreadable("a join", word))
}
