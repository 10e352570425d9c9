//! Music and picture that are to come out together, as documents.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::{ConflictDocument, CutChange};
use crate::dub::CueChanged;

/// Which music and which sequence.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct MusicAsked {
    /// The cue that plays it; its sound has been listened to for its beat.
    pub cue: i64,
    /// The first piece of the sequence, counted from 1; the one the music begins in when not
    /// said.
    pub from: Option<usize>,
    /// The last piece; the one the music ends in when not said.
    pub to: Option<usize>,
    /// How long the sequence is wanted; as it is when not said. Unit: frames.
    pub wanted: Option<u32>,
}

/// Music beside the picture, and what could be done so that both come out together. Nothing
/// of it is done unasked.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct MusicDocument {
    /// The version.
    pub cut: String,
    /// The cue.
    pub cue: i64,
    /// The first piece of the sequence, counted from 1.
    pub from: usize,
    /// The last.
    pub to: usize,
    /// The running frame that the sequence begins at.
    pub at: u32,
    /// How long it is. Unit: frames.
    pub frames: u32,
    /// How many beats that is.
    pub beats: f64,
    /// The projector's speed that it is reckoned with. Unit: frames a second.
    pub speed: String,
    /// The tempo as it is played. Unit: beats a minute.
    pub bpm: f64,
    /// Beats in a bar.
    pub in_a_bar: u32,
    /// Frames a beat at that speed.
    pub frames_a_beat: f64,
    /// Frames a beat at the film's own speed, which is not what the projector runs at.
    pub frames_a_beat_nominal: f64,
    /// How long it is wanted. Unit: frames.
    pub wanted: u32,
    /// How many beats that would be.
    pub wanted_beats: f64,
    /// The shortest that the last piece lets it be. Unit: frames.
    pub shortest: u32,
    /// The longest: to the end of the take, or to what else is made of it. Unit: frames.
    pub longest: u32,
    /// The beats along the sequence, to be drawn.
    pub beat_places: Vec<BeatPlaceDocument>,
    /// The joins inside it.
    pub joins: Vec<JoinOnMusicDocument>,
    /// How far its end lies behind the nearest end of a bar; negative before it. Unit: frames.
    pub end_off: f64,
    /// Where its end would lie on the end of a bar; nothing where the handles allow none.
    pub end: Option<EndOnBarDocument>,
    /// Its joins on beats; nothing where there is none that would move.
    pub inner: Option<JoinsOnBeatsDocument>,
    /// What to lift from the music instead; nothing where it is not too long by a bar.
    pub lift: Option<BarsLiftedDocument>,
}

/// A beat.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct BeatPlaceDocument {
    /// Where. Unit: frames from the head of the sequence.
    pub at: f64,
    /// The bar that begins with it, counted from 1.
    pub bar: Option<i64>,
}

/// A join inside the sequence.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct JoinOnMusicDocument {
    /// The piece before it, counted from 1.
    pub after: usize,
    /// Where. Unit: frames from the head of the sequence.
    pub at: i64,
    /// Where that is in the music. Unit: beats from the head of the sequence.
    pub beats: f64,
    /// How far it lies behind the nearest beat; negative before it. Unit: frames.
    pub off: f64,
}

/// A change of the version, and what the strand check says of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CutProposalDocument {
    /// The change, one step to take back.
    pub change: CutChange,
    /// What the strand check refuses then and does not refuse now.
    pub refused: Vec<ConflictDocument>,
}

/// An end on the end of a bar.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct EndOnBarDocument {
    /// How long the sequence is then. Unit: frames.
    pub frames: u32,
    /// How many beats that is.
    pub beats: f64,
    /// The bar that closes there, counted from 1.
    pub bar: i64,
    /// By how much the last piece becomes longer; negative shorter. Unit: frames.
    pub moved: i64,
    /// How far the end then lies behind the close of the bar; negative before it. Unit:
    /// frames.
    pub off: f64,
    /// The same. Unit: seconds.
    pub off_seconds: f64,
    /// How to do it; nothing where it ends there already.
    pub proposal: Option<CutProposalDocument>,
}

/// Joins of the sequence on beats; both its ends stay.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct JoinsOnBeatsDocument {
    /// Every join inside it.
    pub joins: Vec<JoinMovedDocument>,
    /// All moves together. Unit: frames.
    pub moved: i64,
    /// Joins that find no beat inside the handles.
    pub off_beat: usize,
    /// How to do it.
    pub proposal: CutProposalDocument,
}

/// A join that may move.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct JoinMovedDocument {
    /// The piece before it, counted from 1.
    pub after: usize,
    /// By how much it moves; negative is earlier. Unit: frames.
    pub by: i64,
    /// Whether it then lies on a beat.
    pub on_beat: bool,
}

/// Bars lifted from the music.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct BarsLiftedDocument {
    /// The first that goes, counted from 1.
    pub from: i64,
    /// How many.
    pub bars: i64,
    /// Whole bars that the music has.
    pub of: i64,
    /// By how much the music then ends behind the picture; negative before it. Unit: frames.
    pub off: f64,
    /// The cue in two, ready to be kept together.
    pub cues: Vec<CueChanged>,
}
