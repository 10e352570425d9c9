//! A projector that is followed while the mix runs.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// How a run is followed.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct RunAsked {
    /// The speed of an earlier pass of this machine, where one was found; else the speed of
    /// the mix counts as what is written on the machine. Unit: frames a second.
    pub speed: Option<f64>,
    /// How far that speed may be off, 95 of 100. Unit: frames a second.
    pub speed_error: Option<f64>,
    /// How late the hand taps in the mean. Unit: milliseconds.
    pub late_ms: f64,
}

/// What was seen.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case", tag = "what")]
pub enum SeenWords {
    /// The motor was switched on with this running frame in the gate; before the picture it
    /// is negative.
    Started {
        /// The running frame.
        frame: i64,
    },
    /// A key was pressed as a cut came.
    Tap {
        /// Its running frame, where the hand said which it meant.
        cut: Option<u32>,
    },
    /// The counter of the machine was read.
    Counter {
        /// What it said, in running frames.
        frame: i64,
    },
}

/// Something seen, with its time.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct SeenAt {
    /// When, on the clock of the page. Unit: seconds.
    pub at: f64,
    /// What.
    pub seen: SeenWords,
}

/// What was seen since the last time, and what is asked.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct RunSeen {
    /// The time on the clock of the page. Unit: seconds.
    pub now: f64,
    /// What was seen.
    pub events: Vec<SeenAt>,
    /// Running frames of which it is asked when they come.
    pub when: Vec<u32>,
}

/// Where the projector is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct LiveDocument {
    /// The time for which this holds, on the clock of the page. Unit: seconds.
    pub at: f64,
    /// The running frame with its part.
    pub frame: f64,
    /// Half the range that holds it in 95 of 100. Unit: frames.
    pub frame_error: f64,
    /// Unit: frames a second.
    pub speed: f64,
    /// Half the range that holds it in 95 of 100. Unit: frames a second.
    pub speed_error: f64,
    /// How much faster it will become as it warms. Unit: frames a second.
    pub still_to_come: f64,
}

/// Why nothing can be told, and how it is found again.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct AstrayDocument {
    /// What is wrong.
    pub words: String,
    /// The next step.
    pub next: String,
}

/// When a frame comes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct ComesDocument {
    /// The running frame.
    pub frame: u32,
    /// When, on the clock of the page. Unit: seconds.
    pub at: f64,
    /// Half the range that holds it in 95 of 100. Unit: frames.
    pub error_frames: f64,
}

/// The straight line through the taps of a run.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct LineDocument {
    /// Frames a second.
    pub speed: f64,
    /// Half the range that holds it in 95 of 100; nothing under three taps.
    pub speed_error: Option<f64>,
}

/// A run as it is known now.
#[derive(Debug, Clone, Default, PartialEq, Serialize, ToSchema)]
pub struct FollowedDocument {
    /// The run, for the addresses of what is sent next.
    pub run: String,
    /// Where the projector is; nothing while nothing was seen.
    pub live: Option<LiveDocument>,
    /// Why it cannot be relied on now.
    pub lost: Option<AstrayDocument>,
    /// Claw or light stand out of what is heard, and are followed.
    pub hears: bool,
    /// The cut to tap next.
    pub next_cut: Option<u32>,
    /// What each tap was taken for, in order; nothing for one that fits no cut.
    pub taken: Vec<Option<u32>>,
    /// When the frames come that were asked for; those that are gone are left out.
    pub comes: Vec<ComesDocument>,
    /// The speed of the taps, as it goes into the log.
    pub line: Option<LineDocument>,
}
