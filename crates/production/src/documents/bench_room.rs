//! The Bench room: what comes next, what hangs where, what was done.

use serde::Serialize;
use utoipa::ToSchema;

use super::{InnerJoinDocument, RemadeDocument, SpanDocument};
use crate::BenchSetUp;

/// The bench as it is.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct BenchRoomDocument {
    /// The revision of the production.
    pub revision: u64,
    /// How many lines the log of the bench has: a tick says which it follows.
    pub lines: u32,
    /// The version on the bench; none when none was begun.
    pub on_the_bench: Option<OnTheBenchDocument>,
    /// Versions that could be begun, and why the others could not.
    pub versions: Vec<BenchVersionDocument>,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
    /// How the user's bench is: the frame cards are drawn as film lies on it.
    pub set_up: BenchSetUp,
}

/// A version that waits for the bench.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct BenchVersionDocument {
    /// Its name.
    pub name: String,
    /// Its length in frames.
    pub frames: u32,
    /// Its pieces.
    pub pieces: usize,
    /// The usual join.
    pub join: String,
    /// Why it cannot be begun, in words; none when it can.
    pub why_not: Option<String>,
    /// Rolls it takes film from whose scans are not proved complete.
    pub not_proved: Vec<String>,
    /// What it costs when it is made of the film on the reel; none while there is none.
    pub remade: Option<RemadeDocument>,
}

/// The version that is being made.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct OnTheBenchDocument {
    /// Its name.
    pub cut: String,
    /// The version whose film it is made of; none when it is made of whole rolls.
    pub made_of: Option<String>,
    /// The day it was begun, as a time in UTC.
    pub begun: String,
    /// The usual join.
    pub join: String,
    /// Pins owned.
    pub pins_owned: u32,
    /// How rolls are wound: `one_pass`, `tails` or `to_and_fro`.
    pub winding: String,
    /// Length of the version as it was planned, in frames.
    pub planned_frames: u64,
    /// Length it will have, as things are.
    pub frames: u64,
    /// Whether joins that lie wrongly on the reel are opened and made anew.
    pub mends: bool,
    /// Joins on the reel that are not as the version has them; opening and making
    /// them anew is offered.
    pub wrong_joins: u64,
    /// What is on the take-up reel so far, in frames.
    pub reel_frames: u64,
    /// Whether its tail leader is joined: the work is done.
    pub done: bool,
    /// The roll on the rewinds.
    pub roll: Option<MountedDocument>,
    /// Frames wound so far, and in all.
    pub wound: CountOf,
    /// Cuts made, and in all.
    pub cuts: CountOf,
    /// Joins made, and in all.
    pub joins: CountOf,
    /// Joins opened, and in all.
    pub opened: CountOf,
    /// Pins taken now, and owned.
    pub pins_taken: CountOf,
    /// Minutes still to go, by the times below; none when done.
    pub minutes_left: Option<f64>,
    /// The times that is reckoned with, and whether they were learned here.
    pub times: BenchTimesDocument,
    /// Every pin from 1 to the last one owned or taken.
    pub pins: Vec<PinDocument>,
    /// Joins inside lengths that are not on the reel: one may come open.
    pub inner_joins: Vec<InnerJoinDocument>,
    /// What comes next, first the next act. All that is left.
    pub acts: Vec<BenchActDocument>,
    /// Why the next act has to wait; none when it can be done.
    pub waits: Option<BenchWaitDocument>,
    /// What was done, newest first.
    pub done_lines: Vec<BenchLineDocument>,
    /// Where the frames of each roll are now: they sum to the roll.
    pub rolls: Vec<BenchRollDocument>,
    /// Film the version wanted that is passed or lost, in words.
    pub passed: Vec<String>,
}

/// So many of so many.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct CountOf {
    /// So far.
    pub done: u64,
    /// In all.
    pub all: u64,
}

/// The roll on the rewinds.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct MountedDocument {
    /// The roll; of the made film, the version it was made as.
    pub roll: String,
    /// Whether it is the made film, turned back.
    pub is_made: bool,
    /// The frame at the splicer.
    pub stands: u32,
    /// Its length in frames.
    pub frames: u32,
    /// How it lies: `heads out`, `tails out` or `part on either reel`.
    pub lies: String,
}

/// How long things take. Unit: seconds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct BenchTimesDocument {
    /// To find a place and cut there.
    pub cut: u32,
    /// To make one join.
    pub join: u32,
    /// To put a roll on.
    pub mount: u32,
    /// To wind a foot.
    pub foot: u32,
    /// How many ticks the times of cuts and joins were learned from; 0 when they
    /// are a beginner's.
    pub learned_from: u32,
}

/// A pin of the trim bin.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct PinDocument {
    /// Its number.
    pub pin: u32,
    /// What hangs on it; none when it is free.
    pub hangs: Option<HangingDocument>,
}

/// A strip that hangs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct HangingDocument {
    /// First position it is for, from 1; none for film of no strip of the version.
    pub position: Option<usize>,
    /// Last position.
    pub last_position: Option<usize>,
    /// The take, such as `5B-T2`, or where there is none the frame name.
    pub take: String,
    /// Its film.
    pub span: SpanDocument,
    /// Its length in frames.
    pub frames: u32,
}

/// One act still to be done.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct BenchActDocument {
    /// `mount`, `wind`, `cut`, `hang`, `join`, `open`, `unmount`; and of a re-cut
    /// `turn_back`, `mount_made`, `wind_made`, `unjoin`, `lead`.
    pub act: String,
    /// Its number among acts of its kind, from 1: cut 31.
    pub number: u64,
    /// How many of its kind there are in all.
    pub of: u64,
    /// What it is about, in words: `Roll R2, take 3B-T2, for shot 7`.
    pub title: String,
    /// What to do, in words: `Cut on the line before R2·547.`
    pub what: String,
    /// What it destroys or costs, in words; none when nothing.
    pub destroys: Option<String>,
    /// What the green button says: `Cut made`.
    pub tick: String,
    /// What comes of it at once: `Then join 6 | 7; shots 8 and 9 come off pins 8 and 9.`
    pub then: Option<String>,
    /// The roll.
    pub roll: Option<String>,
    /// Cut before, or wound to.
    pub frame: Option<u32>,
    /// Frames to wind to get there, positive towards the tail.
    pub wind: i64,
    /// First position of the strip, from 1.
    pub position: Option<usize>,
    /// Last position of the strip.
    pub last_position: Option<usize>,
    /// The film of the strip as it will be seen.
    pub span: Option<SpanDocument>,
    /// The pin it is hung on, or comes off.
    pub pin: Option<u32>,
    /// The join to be made, or opened: `tape`, `cement` or `weld`.
    pub join: Option<String>,
    /// Frames of both sides of the join as they lie: last of the outgoing, first of
    /// the incoming strip; of a join that is opened, and of a cut in the made film, what
    /// lies before and behind it.
    pub outgoing: Option<FrameRefDocument>,
    /// First frame of the incoming strip.
    pub incoming: Option<FrameRefDocument>,
    /// How the place is found; only of a cut in a roll.
    pub card: Option<FrameCardDocument>,
    /// Of a cut in the made film: the count from the nearer join.
    pub from_join: Option<LandmarkCountDocument>,
}

/// A frame by its roll and number.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct FrameRefDocument {
    /// The roll.
    pub roll: String,
    /// The frame.
    pub frame: u32,
    /// First position of the strip it is in, from 1.
    pub position: Option<usize>,
    /// Of a join to be made, how its film lies there: `right`, `turned_over`,
    /// `end_for_end` or `end_over_end`.
    pub laid: String,
}

/// The frame card of a strip.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct FrameCardDocument {
    /// Which of its two ends this cut is: `head` or `tail`.
    pub this_end: String,
    /// Its length in frames.
    pub frames: u32,
    /// Where the strip goes: `pin 3`, or `straight on the take-up reel`.
    pub goes: String,
    /// Whether its film reads right through the emulsion, as a contact print does;
    /// original reads right through the base.
    pub is_print: bool,
    /// Its head.
    pub head: CutPlaceDocument,
    /// Its tail.
    pub tail: CutPlaceDocument,
}

/// One end of a strip.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CutPlaceDocument {
    /// The cut goes on the line before this frame.
    pub at: u32,
    /// `cuts`, `cut_before` or `roll_ends`.
    pub blade: String,
    /// The frame kept nearest to the cut.
    pub kept: u32,
    /// The frame thrown on the other side of the blade; none where the roll ends.
    pub thrown: Option<u32>,
    /// The position the thrown frame is wanted for, if it is.
    pub thrown_in: Option<usize>,
    /// Frames between the kept one and the cut, for the join.
    pub eaten: u32,
    /// The main way to find it, count by count.
    pub chain: Vec<LandmarkCountDocument>,
    /// How far the main way may be off, such as `± 1.2 mm, a third of a frame`.
    pub doubt: String,
    /// Or from the strip's other end, once that is cut.
    pub from_other_cut: Option<LandmarkCountDocument>,
    /// Or from nearer by.
    pub nearer: Option<LandmarkCountDocument>,
}

/// One count from a landmark.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct LandmarkCountDocument {
    /// What is counted from, in words: `camera stop 3B-T2`.
    pub from: String,
    /// What kind of landmark: `camera_stop`, `mark`, `join`, `flash`, `last_cut`, …
    pub kind: String,
    /// Its frame, which is 0.
    pub at: u32,
    /// So many frames.
    pub frames: u32,
    /// Towards which end: `head` or `tail`.
    pub towards: String,
    /// The same in feet and frames.
    pub feet: u32,
    /// Frames beyond the feet.
    pub feet_frames: u32,
    /// The same in millimetres, shrinkage counted in, such as `326.0`.
    pub mm: String,
}

/// Why the next act waits.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct BenchWaitDocument {
    /// The roll.
    pub roll: String,
    /// What is missing, in words.
    pub why: String,
    /// What would settle it, in words.
    pub hint: String,
}

/// One line of the log.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct BenchLineDocument {
    /// Its number, from 1.
    pub number: u32,
    /// When, in UTC.
    pub at: String,
    /// Who: empty on the main machine, else the name of a tablet.
    pub by: String,
    /// `begin`, `order`, `go_ahead`, `deed`, `strike`, `note`, `end`.
    pub kind: String,
    /// What was done, in words.
    pub words: String,
    /// The line that struck this one out.
    pub struck_by: Option<u32>,
    /// Whether it can be struck out now.
    pub can_be_struck: bool,
}

/// Where the frames of a roll are.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct BenchRollDocument {
    /// The roll.
    pub roll: String,
    /// Its frames.
    pub frames: u32,
    /// On the take-up reel.
    pub on_the_reel: u32,
    /// On pins and on the bench.
    pub hanging: u32,
    /// On the made film, turned back.
    pub made: u32,
    /// With the roll, or on reels of outs.
    pub left: u32,
    /// No more.
    pub gone: u32,
    /// Whether its scan is proved complete.
    pub proved: bool,
    /// The user's word to go ahead without, if it was given.
    pub gone_ahead: Option<String>,
}

/// What a report would mean, or has meant.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct MeaningDocument {
    /// Whether anything is seen or heard otherwise.
    pub changes: bool,
    /// For the picture, one sentence each.
    pub picture: Vec<String>,
    /// For the sound, one sentence each.
    pub sound: Vec<String>,
    /// For the work that is left, one sentence each.
    pub work: Vec<String>,
    /// Length of the film before.
    pub frames_before: u64,
    /// Length of the film after.
    pub frames_after: u64,
}

/// The life of a frame and of the length it is in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct StripHistoryDocument {
    /// The frame.
    pub frame: String,
    /// Where it is now, in words.
    pub now: String,
    /// What happened, oldest first.
    pub events: Vec<StripEventDocument>,
    /// All in one sentence: `joined 3 March in cement, opened, frame 2485 lost`.
    pub words: String,
}

/// One event.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct StripEventDocument {
    /// The line of the log.
    pub line: u32,
    /// When, in UTC.
    pub at: String,
    /// What, in words.
    pub words: String,
}
