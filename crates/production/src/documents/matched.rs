//! Two takes of the same action laid beside each other.

use onestrand_twins::{Entry, MatchPoint};
use serde::Serialize;
use utoipa::ToSchema;

/// Where to cut from one take to another on the action.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct MatchedDocument {
    /// The take that is left.
    pub from: MatchedTake,
    /// The take that is entered.
    pub to: MatchedTake,
    /// `marks` where two were set by hand, `pictures` where it was found, `nothing`
    /// where the pictures cannot tell.
    pub by: &'static str,
    /// The marks it goes by: frames of both that show the same moment.
    pub marks: Vec<SameFramesDocument>,
    /// Whether these are kept with the film.
    pub marks_kept: bool,
    /// Why the pictures do not tell, where they do not; then there are no points.
    pub cannot_tell: Option<CannotTellDocument>,
    /// Frames there for each frame here.
    pub pace: f64,
    /// The same as a fraction, `49/48`.
    pub pace_exact: String,
    /// How strongly the pictures speak for it: the logarithm of a chance beyond what
    /// any two takes have in common. Nothing for marks, which are taken as they are.
    pub strength: Option<f64>,
    /// Where to cut, the best first.
    pub points: Vec<MatchPointDocument>,
    /// Where to cut back to the take that was left, the best first.
    pub back: Vec<MatchPointDocument>,
}

/// A frame of each take that shows the same moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct SameFramesDocument {
    /// Of the take that is left, or of the one.
    pub here: u32,
    /// Of the take that is entered, or of the other.
    pub there: u32,
}

impl From<&(u32, u32)> for SameFramesDocument {
    fn from(&(here, there): &(u32, u32)) -> Self {
        Self { here, there }
    }
}

/// Frames of a take, half-open.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct SharedFramesDocument {
    /// The first.
    #[serde(rename = "in")]
    pub first: u32,
    /// The first after them.
    #[serde(rename = "out")]
    pub thrown: u32,
}

/// Why two takes cannot be told to show the same moments.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CannotTellDocument {
    /// A stable name.
    pub code: String,
    /// What is in the way.
    pub message: String,
    /// The next step.
    pub hint: String,
}

/// Which takes show the same action.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct TwinsDocument {
    /// Pairs of takes, those by the user's marks first.
    pub pairs: Vec<TwinPairDocument>,
    /// How many pairs of takes were looked at, as the takes are divided now.
    pub looked_at: usize,
}

/// Two takes that show the same action.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct TwinPairDocument {
    /// The one.
    pub from: MatchedTake,
    /// The other.
    pub to: MatchedTake,
    /// `marks` or `pictures`.
    pub by: &'static str,
    /// Frames of the other for each frame of the one.
    pub pace: f64,
    /// How strongly the pictures speak for it; nothing for marks.
    pub strength: Option<f64>,
    /// The marks, frames of both; none where it was found.
    pub marks: Vec<SameFramesDocument>,
    /// The frames of the one over which it was found; nothing for marks.
    pub shared: Option<SharedFramesDocument>,
}

/// A take by its place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct MatchedTake {
    /// Its roll.
    pub roll: String,
    /// Its first frame.
    #[serde(rename = "in")]
    pub first: u32,
    /// The first frame after it.
    #[serde(rename = "out")]
    pub thrown: u32,
    /// What the slate says.
    pub slate: Option<String>,
}

/// A place to cut on the action.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct MatchPointDocument {
    /// The first frame thrown away of the take that is left.
    pub leave: u32,
    /// The same moment in the take that is entered. Unit: frames of its roll.
    pub due: f64,
    /// How far that may be off, in two cases of three. Unit: frames; 0 for marks.
    pub uncertain: f64,
    /// What moves there in both. Range: 0 to 1; 0 where no pictures were looked at.
    pub moves: f64,
    /// The frames to enter at.
    pub entries: Vec<MatchEntryDocument>,
}

/// A frame to enter the other take at.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct MatchEntryDocument {
    /// The overlap wished for. Unit: frames.
    pub overlap: u32,
    /// The first frame kept.
    pub enter: u32,
    /// By how many frames the action is repeated; below 0 as many are left out.
    pub repeats: f64,
    /// How much later than wished for the frame is; below 0 it is early. Unit: frames.
    pub phase: f64,
}

/// A fraction as a decimal of so many places as anybody can see.
pub(crate) fn decimal(of: num_rational::Ratio<i64>) -> f64 {
    rounded(*of.numer() as f64 / *of.denom() as f64)
}

fn rounded(value: f64) -> f64 {
    (value * 1e4).round() / 1e4
}

impl From<&MatchPoint> for MatchPointDocument {
    fn from(point: &MatchPoint) -> Self {
        Self {
            leave: point.leave.index(),
            due: rounded(point.due.decimal()),
            uncertain: rounded(point.due.uncertain),
            moves: rounded(f64::from(point.moves)),
            entries: point.entries.iter().map(Into::into).collect(),
        }
    }
}

impl From<&Entry> for MatchEntryDocument {
    fn from(entry: &Entry) -> Self {
        Self {
            overlap: entry.overlap,
            enter: entry.enter.index(),
            repeats: decimal(entry.repeats),
            phase: decimal(entry.phase()),
        }
    }
}
