//! A trial cut as a document, and the changes that may be asked of it.

use onestrand_cut::{Change, Effect, JoinKind, Piece, PieceKind, Slate};
use onestrand_film::{FrameRange, Frames, RollId, Span};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::{CheckDocument, FootageDocument};
use crate::ProductionError;
use crate::error::unfit;

/// A piece as it is asked for and as it stands on the sheet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct PieceForm {
    /// `shot`, `leader` or `card`.
    pub kind: PieceWord,
    /// The roll of a shot.
    #[serde(default)]
    pub roll: Option<String>,
    /// First frame of a shot.
    #[serde(default, rename = "in")]
    pub first: Option<u32>,
    /// First frame after a shot.
    #[serde(default, rename = "out")]
    pub thrown: Option<u32>,
    /// Length of leader or card; of a shot it is told, never asked.
    #[serde(default)]
    pub frames: Option<u32>,
    /// Name of the title on a card.
    #[serde(default)]
    pub title: Option<String>,
    /// The slate as it is said, `3A-T2`.
    #[serde(default)]
    pub slate: Option<String>,
    /// The join after it, when not the usual one: `tape`, `cement` or `weld`.
    #[serde(default)]
    pub join: Option<String>,
    /// An effect that no bench can make.
    #[serde(default)]
    pub effect: Option<String>,
    /// The user's note.
    #[serde(default)]
    pub note: String,
}

/// What a piece is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum PieceWord {
    /// Frames of a camera roll.
    Shot,
    /// Film without picture.
    Leader,
    /// A title still to be photographed.
    Card,
}

/// A change of a trial cut. Positions are counted from 0.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(tag = "change", rename_all = "snake_case")]
pub enum CutChange {
    /// Lay a piece in before the one at `at`, or at the end.
    Insert {
        /// Where.
        at: usize,
        /// What.
        piece: PieceForm,
    },
    /// Lift a piece out.
    Remove {
        /// Which.
        at: usize,
    },
    /// Put a piece in the place of another: trim, swap, join, note.
    Replace {
        /// Which.
        at: usize,
        /// What stands there afterwards.
        piece: PieceForm,
    },
    /// Move a piece so that it then stands at `to`.
    Move {
        /// Which.
        from: usize,
        /// Its new position.
        to: usize,
    },
    /// Change the usual join.
    UsualJoin {
        /// `tape`, `cement` or `weld`.
        join: String,
    },
    /// Several changes as one, in order.
    All {
        /// In order.
        #[schema(no_recursion)]
        changes: Vec<CutChange>,
    },
}

/// The most changes that one may hold, however they are nested; an evening's film
/// has sixty pieces.
const MOST_CHANGES: usize = 2_000;

impl CutChange {
    /// How many changes it holds, itself counted.
    fn count(&self) -> usize {
        match self {
            Self::All { changes } => changes.iter().map(Self::count).sum::<usize>() + 1,
            _ => 1,
        }
    }

    /// The change of the model.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] or [`ProductionError::Unit`] naming what
    /// cannot be read.
    pub fn to_model(&self) -> Result<Change, ProductionError> {
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
            Self::All { changes } => {
                let count = self.count();
                if count > MOST_CHANGES {
                    return Err(unfit(
                        format!("{count} changes in one"),
                        "make them in several steps",
                    ));
                }
                let all: Result<_, _> = changes.iter().map(Self::to_model).collect();
                Change::All(all?)
            }
        })
    }
}

impl From<&Change> for CutChange {
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

impl From<&Piece> for PieceForm {
    fn from(piece: &Piece) -> Self {
        let mut form = Self {
            kind: PieceWord::Shot,
            roll: None,
            first: None,
            thrown: None,
            frames: Some(piece.frames().count()),
            title: None,
            slate: piece.slate.as_ref().map(Slate::to_string),
            join: piece.join.map(|j| j.to_string()),
            effect: piece.effect.map(|e| e.word().to_owned()),
            note: piece.note.clone(),
        };
        match &piece.kind {
            PieceKind::Shot(span) => {
                form.roll = Some(span.roll.to_string());
                form.first = Some(span.range.begin().index());
                form.thrown = Some(span.range.end().index());
            }
            PieceKind::Leader(_) => form.kind = PieceWord::Leader,
            PieceKind::Card { title, .. } => {
                form.kind = PieceWord::Card;
                form.title = Some(title.clone());
            }
        }
        form
    }
}

impl PieceForm {
    /// The piece of the model.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] or [`ProductionError::Unit`] naming what
    /// cannot be read.
    pub fn to_model(&self) -> Result<Piece, ProductionError> {
        let effect = |word: &str| {
            let known = Effect::ALL.into_iter().find(|e| e.word() == word);
            known.ok_or_else(|| {
                unfit(
                    format!("{word:?} is no effect"),
                    "freeze, speed, reverse or fade",
                )
            })
        };
        let slate = |text: &str| {
            text.parse::<Slate>().map_err(|e| {
                unfit(
                    e.to_string(),
                    "write it as the slate says it, such as 3A-T2",
                )
            })
        };
        Ok(Piece {
            kind: self.kind_of_model()?,
            slate: self.slate.as_deref().map(slate).transpose()?,
            join: self.join.as_deref().map(join_kind).transpose()?,
            effect: self.effect.as_deref().map(effect).transpose()?,
            note: self.note.clone(),
        })
    }

    fn kind_of_model(&self) -> Result<PieceKind, ProductionError> {
        let length = || {
            let frames = self.frames.filter(|f| *f > 0).ok_or_else(|| {
                unfit(
                    "no length is given".to_owned(),
                    "say how many frames it has",
                )
            })?;
            Ok::<_, ProductionError>(Frames::new(frames)?)
        };
        Ok(match self.kind {
            PieceWord::Shot => {
                let (roll, first, thrown) = self
                    .roll
                    .as_deref()
                    .zip(self.first)
                    .zip(self.thrown)
                    .map(|((roll, first), thrown)| (roll, first, thrown))
                    .ok_or_else(|| {
                        unfit(
                            "a shot needs its roll, its first and its last frame".to_owned(),
                            "choose a take in Rolls",
                        )
                    })?;
                let range = FrameRange::of(first, thrown)?;
                PieceKind::Shot(Span::new(RollId::new(roll)?, range))
            }
            PieceWord::Leader => PieceKind::Leader(length()?),
            PieceWord::Card => PieceKind::Card {
                frames: length()?,
                title: self.title.clone().unwrap_or_default(),
            },
        })
    }
}

pub(crate) fn join_kind(word: &str) -> Result<JoinKind, ProductionError> {
    word.parse::<JoinKind>()
        .map_err(|e| unfit(e.to_string(), "choose tape, cement or weld"))
}

/// A piece where it stands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct PieceDocument {
    /// The piece.
    #[serde(flatten)]
    pub piece: PieceForm,
    /// Where it begins in the running cut. Unit: frames.
    pub starts_at: u32,
    /// What the log says happens there.
    pub action: String,
    /// The slate of the log, where the piece has none of its own.
    pub logged: Option<String>,
    /// The take it lies in, on its roll.
    pub take: Option<TakeEnds>,
    /// Whether it runs on into the next piece, so that there is no join.
    pub runs_on: bool,
}

/// The ends of a take.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct TakeEnds {
    /// First frame.
    #[serde(rename = "in")]
    pub first: u32,
    /// First frame after.
    #[serde(rename = "out")]
    pub thrown: u32,
}

/// What one kind of join costs on this gauge.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct JoinRowDocument {
    /// `tape`, `cement` or `weld`.
    pub join: String,
    /// Frames eaten of the outgoing piece, behind its last kept frame.
    pub out_tail: u32,
    /// Frames eaten of the incoming piece, before its first kept frame.
    pub in_head: u32,
    /// Frames marked on the outgoing side.
    pub scar_out: u32,
    /// Frames marked on the incoming side.
    pub scar_in: u32,
    /// The shortest piece that holds beside it. Unit: frames.
    pub shortest: u32,
}

/// A version, ready to be drawn: pieces, check, pace.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CutDocument {
    /// Its name.
    pub cut: String,
    /// The revision of the production it was read at.
    pub revision: u64,
    /// Whether it is only tried, not kept.
    pub on_trial: bool,
    /// The usual join.
    pub usual_join: String,
    /// The user's note.
    pub note: String,
    /// When it was made.
    pub made: String,
    /// Length. Unit: frames.
    pub frames: u32,
    /// The same in feet and frames.
    pub footage: FootageDocument,
    /// The same as `m:ss.s` at the running speed.
    pub clock: String,
    /// The pieces in order.
    pub pieces: Vec<PieceDocument>,
    /// The strand check.
    pub check: CheckDocument,
    /// Whether there are so many conflicts that ways out are only looked for where
    /// they are asked for; then none stand in the check.
    pub ways_later: bool,
    /// What joins cost on this gauge.
    pub joins: Vec<JoinRowDocument>,
}
