//! A production as a document: what it is, its rolls, its versions, its notes.

use serde::Serialize;
use utoipa::ToSchema;

use super::{FootageDocument, ReelDocument, RollDocument};

/// A gauge, so that film can be drawn to scale.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct GaugeDocument {
    /// The word in commands and files.
    pub gauge: String,
    /// The word on screens.
    pub name: String,
    /// Frames a foot as the trade counts.
    pub frames_per_foot: u32,
    /// From frame to frame. Unit: millimetres.
    pub pitch_mm: f64,
    /// Width of the strip. Unit: millimetres.
    pub width_mm: f64,
    /// The picture as the camera exposes it.
    pub picture: PictureDocument,
    /// The picture as the projector shows it.
    pub shown: SizeDocument,
    /// A perforation, if one has been measured.
    pub hole: Option<HoleDocument>,
    /// Where the holes are: `beside_picture`, `edge_on_frame_line`,
    /// `centre_on_frame_line` or `four_both_edges`.
    pub place: String,
    /// By how many frames the sound of a magnetic stripe usually lies ahead of
    /// its picture; nothing where the machine must be asked.
    pub magnetic_lead: Option<u32>,
    /// The usual load. Unit: frames.
    pub load: Option<u32>,
    /// The usual load in words.
    pub load_words: Option<String>,
}

/// A picture on the film. Unit: millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct PictureDocument {
    /// Width.
    pub w: f64,
    /// Height.
    pub h: f64,
    /// From the left edge of the strip, seen through the base, heads up.
    pub left: f64,
}

/// A perforation. Unit: millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct HoleDocument {
    /// Width.
    pub w: f64,
    /// Height.
    pub h: f64,
    /// From the edge of the strip.
    pub edge: f64,
    /// Of its corners.
    pub radius: f64,
}

/// A size. Unit: millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct SizeDocument {
    /// Width.
    pub w: f64,
    /// Height.
    pub h: f64,
}

/// A version in a list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CutHeadDocument {
    /// Its name.
    pub cut: String,
    /// Pieces in it.
    pub pieces: usize,
    /// Length. Unit: frames.
    pub frames: u32,
    /// The same in feet and frames.
    pub footage: FootageDocument,
    /// The same as `m:ss.s`.
    pub clock: String,
    /// The usual join.
    pub usual_join: String,
    /// When it was made.
    pub made: String,
    /// The user's note.
    pub note: String,
}

/// A note that falls on a frame.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct NoteDocument {
    /// Its number.
    pub id: i64,
    /// The roll.
    pub roll: String,
    /// The frame.
    pub frame: u32,
    /// The user's words.
    pub words: String,
    /// Who wrote it, where several do.
    pub writer: String,
    /// When, in UTC.
    pub made: String,
}

/// A production.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ProductionDocument {
    /// How many changes it has seen.
    pub revision: u64,
    /// Its title.
    pub title: String,
    /// Its gauge.
    pub gauge: GaugeDocument,
    /// The running speed as a fraction.
    pub speed: String,
    /// Its folder.
    pub dir: String,
    /// Its rolls by name.
    pub rolls: Vec<RollDocument>,
    /// Its reels and cans by name.
    pub reels: Vec<ReelDocument>,
    /// From where on signs are told.
    pub sign_limits: Vec<crate::SignLimitDocument>,
    /// Its versions.
    pub cuts: Vec<CutHeadDocument>,
    /// Its titles, for their pictures.
    pub titles: Vec<super::TitlePicturesDocument>,
    /// Notes on its frames.
    pub notes: Vec<NoteDocument>,
    /// What the user should know about how it was opened.
    pub notices: Vec<String>,
    /// What the next undo takes back, in words.
    pub undo: Option<String>,
    /// What the next redo makes again, in words.
    pub redo: Option<String>,
}
