//! The dubbing chart on paper: the film downward, a column for each source.

use onestrand_film::Fps;

use super::HandMove;
use crate::plan::PlanHead;

/// A dubbing chart to print.
#[derive(Clone, Debug)]
pub struct DubbingChart {
    /// What every sheet has in common; `place` says which version, such as
    /// `v2, tape`, and `speed` is the nominal one.
    pub head: PlanHead,
    /// The speed at which the projector was measured; the nominal one if none was.
    pub true_speed: Fps,
    /// Whether that speed was measured.
    pub is_measured: bool,
    /// By how many frames the sound lies ahead of its picture, below 0 behind; none where
    /// the gauge has no such track.
    pub lead: Option<i32>,
    /// Running frames of the film, leaders left out.
    pub frames: u32,
    /// Feet on a sheet, 4 to 20; [`DubbingChart::USUAL_FEET`] where nothing else
    /// is wished.
    pub feet_a_sheet: u32,
    /// The shots, in their order, from running frame 0 on.
    pub shots: Vec<DubShot>,
    /// One column for each source, as the user named them. More than
    /// [`DubbingChart::COLUMNS`] go on further sheets, beside the first.
    pub columns: Vec<DubColumn>,
    /// Where joins are heard.
    pub echoes: Vec<DubEcho>,
    /// What the hands do.
    pub moves: Vec<HandMove>,
    /// How many moves two hands, or however many there are, can do at once.
    pub hands: u32,
    /// What else should stand at the end, a line each.
    pub remarks: Vec<String>,
}

impl DubbingChart {
    /// Feet on a sheet when nothing else is wished.
    pub const USUAL_FEET: u32 = 10;
    /// Most columns that stand beside each other on a sheet and can still be written into.
    pub const COLUMNS: usize = 8;
}

/// A shot beside the chart.
#[derive(Clone, Debug)]
pub struct DubShot {
    /// As the cut numbers it.
    pub name: String,
    /// What happens.
    pub action: String,
    /// Running frame at which it begins.
    pub from: u32,
    /// Running frame after its last.
    pub to: u32,
    /// Pictures of it, top to bottom, as PNG or JPEG files; may be none. As many
    /// are shown as have room.
    pub pictures: Vec<Vec<u8>>,
}

/// A source: a tape, a microphone, a fader.
#[derive(Clone, Debug)]
pub struct DubColumn {
    /// As the user named it.
    pub name: String,
    /// Its cues, in order.
    pub cues: Vec<DubCue>,
}

/// A sound in a column.
#[derive(Clone, Debug)]
pub struct DubCue {
    /// What it is.
    pub name: String,
    /// Running frame of its first sound; below 0 it begins in the leader.
    pub from: i64,
    /// Running frame after its last.
    pub to: i64,
    /// How it is drawn.
    pub shape: CueShape,
    /// What it holds to.
    pub anchor: CueAnchor,
    /// How it stands after the last change of the picture.
    pub standing: CueStanding,
    /// Its loudest samples in equal parts from `from` to `to`, 0 to 1; may be
    /// empty, then the block is drawn even.
    pub outline: Vec<f32>,
    /// The level line; empty is 0 dB throughout.
    pub level: Vec<LevelPoint>,
    /// Frames over which it fades in.
    pub fade_in: u32,
    /// Frames over which it fades out.
    pub fade_out: u32,
    /// What is to be said of it, such as a tape and its counter; may be empty.
    pub remark: String,
}

/// How a cue is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CueShape {
    /// A stretch of sound: a block with its outline.
    Block,
    /// A short sound: a drop whose point lies on its frame.
    Drop,
}

/// What a cue holds to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CueAnchor {
    /// A frame of the strand: a dot.
    Frame,
    /// A join: a bar.
    Join,
    /// The clock: a small dial.
    Clock,
}

/// How a cue stands after a change of the picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CueStanding {
    /// It holds to what it belongs to.
    Held,
    /// A place that is proposed for it: drawn in outline.
    Proposed,
    /// What it held to is gone: filled with x.
    Orphan,
}

/// A handle of a level line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LevelPoint {
    /// Running frame.
    pub frame: i64,
    /// Level. Unit: dB.
    pub db: f64,
}

/// A join that is heard.
#[derive(Clone, Debug)]
pub struct DubEcho {
    /// Running frame of the join.
    pub join_at: u32,
    /// Running frame at which it is heard.
    pub heard_at: u32,
    /// The column in which a cue lies near it, from 0, with what is to be said;
    /// none when it is on nothing.
    pub near: Option<(usize, String)>,
}
