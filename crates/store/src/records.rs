//! How the model is written down: plain records, apart from the model itself,
//! so that either can change without the other.

use onestrand_cut::{
    Base, Change, Effect, Fit, JoinKind, Piece, PieceKind, Rating, Roll, Slate, Take, TrialCut,
    Wind,
};
use onestrand_film::{FrameRange, Frames, RollId, Span};
use serde::{Deserialize, Serialize};

use crate::StoreError;

/// A roll as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RollRecord {
    /// Its name.
    pub name: String,
    /// Its gauge.
    pub gauge: String,
    /// The speed it was run at in the camera.
    pub film_speed: String,
    /// `triacetate`, `polyester` or `not-known`.
    pub base: String,
    /// `project`, `scan-only` or `never-cut`.
    pub fit: String,
    /// `A` or `B`, if known.
    pub wind: Option<String>,
    /// Film frames on it, missing ones counted.
    pub frames: u32,
    /// Film frames that no scan shows.
    pub missing: u32,
    /// Frames that the measured length holds, if it was measured.
    pub expected: Option<u32>,
    /// The measured length as it was given.
    pub measured: Option<String>,
    /// Shrinkage in per cent as it was given.
    pub shrinkage: Option<String>,
    /// Who said that the scan is complete although it was not measured.
    pub proved_by: Option<String>,
    /// The scans, in order along the roll; none for a roll known on paper.
    pub scans: Vec<ScanRecord>,
}

/// A scan as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ScanRecord {
    /// The file, or the pictures of a sequence in order.
    pub paths: Vec<String>,
    /// Size of it all. Unit: bytes.
    pub bytes: u64,
    /// BLAKE3 of it all, in hexadecimal.
    pub blake3: String,
    /// What the stream says of itself.
    pub facts: ScanFacts,
}

/// What a scan's stream says of itself.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ScanFacts {
    /// File frames decoded.
    pub frames: u64,
    /// File frames a second, as a fraction.
    pub rate: String,
    /// Width. Unit: pixels.
    pub width: u32,
    /// Height. Unit: pixels.
    pub height: u32,
    /// The coding, in words.
    pub coding: String,
}

/// A take as it is kept.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct TakeRecord {
    /// The roll.
    pub roll: String,
    /// The first frame.
    pub first: u32,
    /// The first frame after it.
    pub thrown: u32,
    /// Setup as the slate says it.
    pub setup: Option<String>,
    /// Take number.
    pub take: Option<u16>,
    /// `none`, `circled`, `hold` or `ng`.
    pub rating: String,
    /// Size of the view.
    pub size: String,
    /// What the camera does.
    pub camera_move: String,
    /// Who moves which way.
    pub direction: String,
    /// What happens.
    pub action: String,
    /// The user's note.
    pub note: String,
    /// How it begins: `roll_start`, `fog`, `camera_stop`, `join`, `cut`, `fade`.
    pub begins: String,
    /// Over-exposed frames at its start.
    pub flash_frames: u32,
    /// By how much the first is over-exposed. Unit: stops.
    pub flash_stops: Option<f64>,
}

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
            Self::All { changes } => {
                Change::All(changes.iter().map(Self::to_model).collect::<Result<_, _>>()?)
            }
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

impl RollRecord {
    /// The roll of the model.
    ///
    /// It is proved when a length was measured and exactly that many frames
    /// were found with none missing, or when the user has said so.
    ///
    /// # Errors
    /// [`StoreError::Unreadable`].
    pub fn to_model(&self) -> Result<Roll, StoreError> {
        let counted = self.missing == 0 && self.expected == Some(self.frames);
        Ok(Roll {
            id: roll_id(&self.name)?,
            gauge: self
                .gauge
                .parse()
                .map_err(|_| StoreError::unreadable("a gauge", &self.gauge))?,
            base: base(&self.base)?,
            fit: fit(&self.fit)?,
            wind: match self.wind.as_deref() {
                None => None,
                Some("A") => Some(Wind::A),
                Some("B") => Some(Wind::B),
                Some(other) => return Err(StoreError::unreadable("a wind", other)),
            },
            frames: Frames::new(self.frames)
                .map_err(|_| StoreError::unreadable("a roll's length", self.frames))?,
            proved: counted || self.proved_by.is_some(),
        })
    }
}

impl TakeRecord {
    /// The take of the model.
    ///
    /// # Errors
    /// [`StoreError::Unreadable`].
    pub fn to_model(&self) -> Result<Take, StoreError> {
        Ok(Take {
            span: span(&self.roll, self.first, self.thrown)?,
            slate: slate(self.setup.as_deref(), self.take)?,
            rating: rating(&self.rating)?,
            size: self.size.clone(),
            camera_move: self.camera_move.clone(),
            direction: self.direction.clone(),
            action: self.action.clone(),
            note: self.note.clone(),
        })
    }
}

fn span(roll: &str, first: u32, thrown: u32) -> Result<Span, StoreError> {
    let range = FrameRange::of(first, thrown)
        .map_err(|_| StoreError::unreadable("a span", format!("{roll} {first} {thrown}")))?;
    Ok(Span::new(roll_id(roll)?, range))
}

fn roll_id(name: &str) -> Result<RollId, StoreError> {
    RollId::new(name).map_err(|_| StoreError::unreadable("a roll's name", name))
}

fn slate(setup: Option<&str>, take: Option<u16>) -> Result<Option<Slate>, StoreError> {
    match (setup, take) {
        (Some(setup), Some(take)) => Slate::new(setup, take)
            .map(Some)
            .map_err(|e| StoreError::unreadable("a slate", e.found)),
        _ => Ok(None),
    }
}

fn join_kind(word: &str) -> Result<JoinKind, StoreError> {
    word.parse()
        .map_err(|_| StoreError::unreadable("a join", word))
}

fn base(word: &str) -> Result<Base, StoreError> {
    match word {
        "triacetate" => Ok(Base::Triacetate),
        "polyester" => Ok(Base::Polyester),
        "not-known" => Ok(Base::NotKnown),
        _ => Err(StoreError::unreadable("a base", word)),
    }
}

fn fit(word: &str) -> Result<Fit, StoreError> {
    match word {
        "project" => Ok(Fit::Project),
        "scan-only" => Ok(Fit::ScanOnly),
        "never-cut" => Ok(Fit::NeverCut),
        _ => Err(StoreError::unreadable("what a roll is fit for", word)),
    }
}

fn rating(word: &str) -> Result<Rating, StoreError> {
    match word {
        "none" => Ok(Rating::None),
        "circled" => Ok(Rating::Circled),
        "hold" => Ok(Rating::Hold),
        "ng" => Ok(Rating::Ng),
        _ => Err(StoreError::unreadable("a rating", word)),
    }
}
