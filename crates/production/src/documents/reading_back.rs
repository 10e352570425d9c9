//! Film read back: the name of a loose strip, and the proof of a cut reel.

use serde::Serialize;
use utoipa::ToSchema;

use super::SpanDocument;

/// Which frames a strip in a photograph is.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct NamedDocument {
    /// The likeliest first; none when it is not known.
    pub candidates: Vec<StripCandidate>,
    /// The shot is still: the first is the span of all frames that are alike.
    pub still: bool,
    /// Whether film was found in the photograph.
    pub film: bool,
    /// What was found, in a sentence.
    pub words: String,
    /// What to do next, where it is not known; empty where it is.
    pub hint: String,
}

/// A place in the rolls where a strip may belong.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct StripCandidate {
    /// The roll.
    pub roll: String,
    /// First frame.
    #[serde(rename = "in")]
    pub first: u32,
    /// First frame after.
    #[serde(rename = "out")]
    pub thrown: u32,
    /// How sure it is. Range: 0 to 1.
    pub confidence: f64,
    /// Seen from the other side than the roll was scanned from.
    pub mirrored: bool,
    /// The pictures stand on their heads in the photograph.
    pub upside_down: bool,
    /// Only the span is known: nothing moves enough to tell which of its frames it is.
    pub still: bool,
    /// The strip may begin before these frames: its end in that direction is hidden, or
    /// outside the photograph.
    pub hidden_before: bool,
    /// The strip may go on behind these frames, likewise.
    pub hidden_behind: bool,
    /// By how far the pictures' top is turned from the photograph's, clockwise. Unit:
    /// degrees, 0 up to 360.
    pub turned: f64,
    /// Frames seen in the photograph.
    pub frames: u32,
    /// How like they are to the roll's frames. Range: -1 to 1.
    pub likeness: f64,
    /// Where each frame lies in the photograph.
    pub places: Vec<StripFramePlace>,
}

/// Where a frame of a strip lies in its photograph.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct StripFramePlace {
    /// The frame of the roll; in a still shot the likeliest.
    pub frame: u32,
    /// The corners of its picture, one after the other. Unit: shares of the
    /// photograph's width and height.
    #[schema(value_type = Vec<Vec<f64>>)]
    pub corners: Vec<(f64, f64)>,
}

/// A reel laid beside its version.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ProofDocument {
    /// The version.
    pub cut: String,
    /// Frames of the scan, head and tail leader counted.
    pub frames: u32,
    /// What was recognised, in the order of the reel.
    pub spans: Vec<ProofSpan>,
    /// Where the reel is not the version; none: it is proved.
    pub errors: Vec<ProofError>,
    /// The strips of the bench as this proof sees them, in order, joined one to the next.
    pub strips: Vec<ProofSpan>,
    /// Warnings of the reading of the scan.
    pub warnings: Vec<super::WarningDocument>,
}

/// Frames of a roll that follow each other on a reel.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ProofSpan {
    /// Frame of the scan at which it begins.
    pub at: u32,
    /// The roll.
    pub roll: String,
    /// First frame of the roll.
    #[serde(rename = "in")]
    pub first: u32,
    /// First frame after.
    #[serde(rename = "out")]
    pub thrown: u32,
    /// Seen from the other side.
    pub mirrored: bool,
    /// Its head where its tail should be.
    pub upside_down: bool,
}

impl From<&ProofSpan> for super::SeenStrip {
    fn from(span: &ProofSpan) -> Self {
        Self {
            roll: span.roll.clone(),
            first: span.first,
            thrown: span.thrown,
            mirrored: span.mirrored,
            upside_down: span.upside_down,
        }
    }
}

/// One fault of a reel.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ProofError {
    /// Frame of the scan.
    pub at: u32,
    /// First and last frame of the scan at which it may be: where nothing moves it
    /// cannot be told closer.
    pub earliest: u32,
    /// The last.
    pub latest: u32,
    /// `missing`, `doubled`, `mirrored`, `upside_down`, `order`, `foreign`, `out_of_rack`.
    pub kind: String,
    /// Frames it concerns.
    pub frames: u32,
    /// What the version wants there, where it wants something.
    pub expected: Option<SpanDocument>,
    /// The same in words.
    pub words: String,
    /// What to do about it.
    pub hint: String,
}
