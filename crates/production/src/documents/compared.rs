//! Two versions beside each other, and the change list between them.

use onestrand_cut::{Beside, ChangeLine, Piece, Stay};
use onestrand_film::Gauge;
use serde::Serialize;
use utoipa::ToSchema;

use super::{FootageDocument, PieceDocument, PieceForm};

/// What differs between two versions, frame by frame name.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ComparedDocument {
    /// The version that is changed.
    pub from: String,
    /// The version it becomes.
    pub to: String,
    /// The film's revision that both were seen at.
    pub revision: u64,
    /// Length of the old version. Unit: frames.
    pub from_frames: u32,
    /// Length of the new version. Unit: frames.
    pub to_frames: u32,
    /// Frames that both have in the same order.
    pub held: u32,
    /// Frames that both have, in another order.
    pub moved: u32,
    /// Frames that only the old version has.
    pub out: u32,
    /// Frames that only the new version has.
    pub new_frames: u32,
    /// The usual join of each.
    pub usual_joins: [String; 2],
    /// The change list, in the order of the old version.
    pub changes: Vec<ChangeLineDocument>,
    /// What stays, stretch by stretch.
    pub stays: Vec<StayDocument>,
    /// Both versions row by row.
    pub beside: Vec<BesideDocument>,
    /// The pieces of the old version.
    pub from_pieces: Vec<PieceDocument>,
    /// The pieces of the new version.
    pub to_pieces: Vec<PieceDocument>,
}

/// One line of the change list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ChangeLineDocument {
    /// Where, in running frames of the old version.
    pub at: u32,
    /// The same in feet.
    pub at_footage: FootageDocument,
    /// `lift`, `insert`, `trim` or `move`.
    pub act: String,
    /// As one says it: `lift`, `lay in`, `trim`, `extend` or `move`.
    pub word: String,
    /// With how many frames.
    pub frames: u32,
    /// Which film.
    pub film: PieceForm,
    /// Where it comes to lie, in running frames of the new version.
    pub to: Option<u32>,
    /// By how much what follows then lies elsewhere. Unit: frames.
    pub offset_after: i32,
}

/// Frames that stay, one after the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct StayDocument {
    /// Where they begin in the old version. Unit: frames.
    pub old: u32,
    /// Where they begin in the new version. Unit: frames.
    pub new: u32,
    /// How many.
    pub frames: u32,
    /// New place less old place. Unit: frames.
    pub offset: i32,
}

/// One row of two versions beside each other; positions are counted from 1.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct BesideDocument {
    /// Position in the old version.
    pub old: Option<usize>,
    /// Position in the new version.
    pub new: Option<usize>,
    /// `same`, `trimmed`, `moved`, `only_old` or `only_new`.
    pub state: String,
    /// Where one side is blank: the position at which the piece stands instead.
    pub elsewhere: Option<usize>,
    /// Whether join, note, slate or effect differ.
    pub paper_differs: bool,
}

impl ChangeLineDocument {
    pub(crate) fn new(line: &ChangeLine, gauge: Gauge) -> Self {
        let film = Piece {
            kind: line.film.clone(),
            slate: line.slate.clone(),
            join: None,
            effect: None,
            note: String::new(),
        };
        Self {
            at: line.at.count(),
            at_footage: gauge.footage(line.at).into(),
            act: line.act.code().to_owned(),
            word: line.act.word().to_owned(),
            frames: line.frames.count(),
            film: (&film).into(),
            to: line.to.map(|to| to.count()),
            offset_after: line.offset_after.frames(),
        }
    }
}

impl From<&Stay> for StayDocument {
    fn from(stay: &Stay) -> Self {
        Self {
            old: stay.old.count(),
            new: stay.new.count(),
            frames: stay.frames.count(),
            offset: stay.offset().frames(),
        }
    }
}

impl From<&Beside> for BesideDocument {
    fn from(row: &Beside) -> Self {
        Self {
            old: row.old,
            new: row.new,
            state: row.state.code().to_owned(),
            elsewhere: row.elsewhere,
            paper_differs: row.paper_differs,
        }
    }
}
