//! The strand check as a document.

use onestrand_cut::{Conflict, Remedy, Severity};
use serde::Serialize;
use utoipa::ToSchema;

use super::{CutChange, SpanDocument};

/// A way out of a conflict.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RemedyDocument {
    /// `other_join`, `effect_off`, `shift`, `twin`, `lift`, `mend_all` or `lab`.
    pub kind: &'static str,
    /// In words.
    pub text: String,
    /// For a shift the frames by which ends move, all told; for a twin, or a
    /// piece to lift, how many frames it has.
    pub frames: u32,
    /// Places of the cut it touches.
    pub joins: usize,
    /// Whether the conflict is gone after it; a note for a laboratory alone does
    /// not make it go.
    pub mends: bool,
    /// Whether the cut is then warned of something new.
    pub warns: bool,
    /// The change that does it.
    pub change: CutChange,
}

impl RemedyDocument {
    /// A way out as a document.
    #[must_use]
    pub fn of(way: &Remedy) -> Self {
        Self {
            kind: way.kind.code(),
            text: way.text.clone(),
            frames: way.frames,
            joins: way.joins,
            mends: way.mends,
            warns: way.warns,
            change: (&way.change).into(),
        }
    }
}

/// What stands in the way of a cut.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ConflictDocument {
    /// The kind.
    pub kind: &'static str,
    /// `refused` or `warned`.
    pub severity: &'static str,
    /// Positions, from 1.
    pub positions: Vec<usize>,
    /// The frames it is about.
    pub span: Option<SpanDocument>,
    /// How many.
    pub frames: u32,
    /// Ways out, cheapest first.
    pub remedies: Vec<RemedyDocument>,
}

impl ConflictDocument {
    /// A conflict without its remedies.
    #[must_use]
    pub fn plain(conflict: &Conflict) -> Self {
        Self::with_remedies(conflict, &[])
    }

    /// A conflict with its remedies.
    #[must_use]
    pub fn with_remedies(conflict: &Conflict, ways: &[Remedy]) -> Self {
        let span = conflict.roll.as_ref().zip(conflict.span);
        Self {
            kind: conflict.kind.code(),
            severity: match conflict.severity() {
                Severity::Refused => "refused",
                Severity::Warned => "warned",
            },
            positions: conflict.positions.clone(),
            span: span.map(|(roll, (first, thrown))| SpanDocument {
                roll: roll.to_string(),
                first,
                thrown,
            }),
            frames: conflict.frames,
            remedies: ways.iter().map(RemedyDocument::of).collect(),
        }
    }
}

/// The ways out of one of many conflicts.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct WaysDocument {
    /// Ways out of it, cheapest first.
    pub remedies: Vec<RemedyDocument>,
    /// One step that mends all that is refused.
    pub mend_all: Vec<RemedyDocument>,
}

/// The answer of `check`.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CheckDocument {
    /// The cut.
    pub cut: String,
    /// The usual join it was checked with.
    pub join: &'static str,
    /// Length of the cut.
    pub frames: u32,
    /// Whether it can be made.
    pub ok: bool,
    /// Strips after merging.
    pub pieces: usize,
    /// Joins, with head and tail leader.
    pub joins: usize,
    /// Frames that joins take.
    pub eaten: u32,
    /// What becomes of each roll.
    pub rolls: Vec<RollCountDocument>,
    /// What stands in the way.
    pub conflicts: Vec<ConflictDocument>,
    /// Where several conflicts are refused: one step that mends them all.
    pub mend_all: Vec<RemedyDocument>,
    /// What is asked.
    pub questions: Vec<QuestionDocument>,
    /// Questions that the user has answered: they are not asked again.
    pub answered: Vec<QuestionDocument>,
    /// How long the pictures stand; none without a picture.
    pub pace: Option<PaceDocument>,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
}

/// What becomes of one roll.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RollCountDocument {
    /// The roll.
    pub roll: String,
    /// Frames on it.
    pub frames: u32,
    /// Frames a piece shows.
    pub used: u32,
    /// Frames joins take.
    pub eaten: u32,
    /// Frames left.
    pub left: u32,
    /// Whether its scan is proved complete.
    pub proved: bool,
}

/// A question of continuity.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct QuestionDocument {
    /// `jump`, `direction`, `line`, `size`, `wind`, `light` or `short_hold`.
    pub kind: &'static str,
    /// Positions on both sides of the join, or of the pieces it is about, from 1.
    pub positions: Vec<usize>,
    /// In words.
    pub text: String,
    /// What it is about, to keep an answer by: it names no position.
    pub key: String,
    /// What the user wrote beside the answer; nothing while the question is open.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// How long the pictures stand.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct PaceDocument {
    /// Unit: seconds at the running speed.
    pub mean_seconds: f64,
    /// Unit: seconds at the running speed.
    pub median_seconds: f64,
}
