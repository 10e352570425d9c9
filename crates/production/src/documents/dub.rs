//! The sound of a film, laid to one version: what is kept of it, and what is reckoned.

use serde::Serialize;
use utoipa::ToSchema;

use super::{AnchorWords, ColumnWords, CueWords, MixWords, PassWords, SoundWords};

/// What became of a cue since it was last laid.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum CueStateWord {
    /// It is where it was.
    Held,
    /// It went with what it holds to.
    Moved,
    /// Its length changed.
    Stretched,
    /// What it holds to is not in this version.
    Orphan,
}

/// A place that is proposed for a cue.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CueProposalDocument {
    /// The running frame.
    pub at: i64,
    /// What it would hold to.
    pub anchor: AnchorWords,
    /// Why there, in a sentence.
    pub why: String,
}

/// A join that is heard near a cue.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CueEchoDocument {
    /// The running frame of the join.
    pub join_at: i64,
    /// The running frame at which it is heard.
    pub heard_at: i64,
    /// How far that is from the cue. Unit: frames; negative when it is heard before.
    pub frames_away: i64,
}

/// A cue, laid to a version.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CueDocument {
    /// Its number.
    pub id: i64,
    /// What is kept of it.
    pub cue: CueWords,
    /// The running frame it begins at, before 0 in the leader; an orphan stands where it
    /// was last.
    pub at: i64,
    /// How long it is. Unit: frames, rounded up.
    pub frames: u32,
    /// What became of it.
    pub state: CueStateWord,
    /// Where it was last laid.
    pub was: Option<i64>,
    /// Where it might go, best first.
    pub proposals: Vec<CueProposalDocument>,
    /// A join that is heard within three frames of it.
    pub echo: Option<CueEchoDocument>,
    /// Frames at its end for which the sound does not last; it is silent there.
    pub short_by: u32,
    /// What its start holds to, in words.
    pub holds: String,
}

/// A column with its number.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ColumnDocument {
    /// Its number.
    pub id: i64,
    /// What is kept of it.
    pub column: ColumnWords,
}

/// A sound with its number.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct SoundDocument {
    /// Its number.
    pub id: i64,
    /// What is kept of it.
    pub sound: SoundWords,
    /// How long it is as it is played. Unit: thousandths of a second.
    pub milliseconds: u64,
    /// How many cues play it.
    pub used: usize,
    /// Its kept file is not there.
    pub missing: bool,
}

/// A join of the version and where it is heard.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct JoinHeardDocument {
    /// The running frame of the join: the first frame behind it.
    pub at: i64,
    /// The running frame at which it is heard.
    pub heard_at: i64,
}

/// A piece of the version, as the chart names it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct PieceOnChartDocument {
    /// Its position, counted from 1.
    pub position: usize,
    /// The running frame it begins at.
    pub at: i64,
    /// How long. Unit: frames.
    pub frames: u32,
    /// The roll; nothing for leader and cards.
    pub roll: Option<String>,
    /// Its first frame in the roll.
    pub first: u32,
    /// What is to be seen: the slate and the words of the action.
    pub says: String,
}

/// A move of a fader by hand.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct HandMoveDocument {
    /// The column, by its number.
    pub column: i64,
    /// The cue it belongs to.
    pub cue: i64,
    /// Where it begins. Unit: running frames.
    pub from: i64,
    /// Where it is done.
    pub to: i64,
    /// What is done, such as `river down`.
    pub what: String,
}

/// A place where more is to be moved than there are hands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct HandsFullDocument {
    /// Where it begins. Unit: running frames.
    pub from: i64,
    /// Where it ends.
    pub to: i64,
    /// So many moves at once.
    pub moves: u32,
    /// Which columns.
    pub columns: Vec<i64>,
}

/// The hand score of a mix.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct HandScoreDocument {
    /// The moves, in order.
    pub moves: Vec<HandMoveDocument>,
    /// The most at once.
    pub most: u32,
    /// Where that is first. Unit: running frames.
    pub most_at: Option<i64>,
    /// The hands there are.
    pub hands: u32,
    /// Where there are too few.
    pub too_many: Vec<HandsFullDocument>,
    /// The fewest columns to lay on one tape beforehand so that the hands are enough.
    pub lay_together: Vec<i64>,
    /// The most at once when that is done.
    pub most_then: u32,
}

/// A pass of the mix.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct PassDocument {
    /// Its number, by which it is changed.
    pub id: i64,
    /// As it is kept.
    pub pass: PassWords,
}

/// The sound of a film, laid to one version.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct DubDocument {
    /// The state it was read in.
    pub revision: u64,
    /// The version.
    pub cut: String,
    /// How long the version is. Unit: frames.
    pub frames: u32,
    /// The speed the mix is made for, as `18` or `18.37`: frames a second.
    pub speed: String,
    /// How many frames the sound lies ahead of its picture on this gauge; nothing where
    /// the gauge has no such track.
    pub lead: Option<i64>,
    /// Where that figure is from.
    pub lead_source: String,
    /// The pieces, in order.
    pub pieces: Vec<PieceOnChartDocument>,
    /// The joins and where they are heard.
    pub joins: Vec<JoinHeardDocument>,
    /// The columns, from left to right.
    pub columns: Vec<ColumnDocument>,
    /// The cues, in the order in which they begin.
    pub cues: Vec<CueDocument>,
    /// The sounds.
    pub sounds: Vec<SoundDocument>,
    /// Who moves what.
    pub hands: HandScoreDocument,
    /// How it is mixed.
    pub mix: MixWords,
    /// The passes of the mix so far, of any version, in the order of the log.
    pub passes: Vec<PassDocument>,
    /// Changes whenever anything that is heard does: for the address of what is heard.
    pub heard: String,
}
