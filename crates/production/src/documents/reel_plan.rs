//! What goes on which reel, and what is written on reel, leader and can.

use serde::Serialize;
use utoipa::ToSchema;

use super::FootageDocument;

/// The answer of `reel plan`.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ReelPlanDocument {
    /// The production.
    pub title: String,
    /// The gauge.
    pub gauge: String,
    /// The speed it is run at, as it was said or as the film's own.
    pub speed: String,
    /// Thickness of the film. Unit: millimetres.
    pub thickness_mm: f64,
    /// Whether the thickness was said; else it is taken from the base.
    pub thickness_known: bool,
    /// Leader at the head of each reel. Unit: frames.
    pub leader_frames: u32,
    /// Leader at the tail of each reel. Unit: frames.
    pub tail_leader_frames: u32,
    /// Spacing between two films on one reel. Unit: frames.
    pub spacing_frames: u32,
    /// The films in order.
    pub films: Vec<FilmToWindDocument>,
    /// Whether it all goes on the reels there are.
    pub fits: bool,
    /// Why not, and what would help; empty where it fits.
    pub problem: String,
    /// The fewest reels, in order; none where it does not fit.
    pub reels: Vec<MadeUpReelDocument>,
    /// All of it on one hub, leaders and spacing with it.
    pub whole: WoundWholeDocument,
    /// The reels there were to choose from, the smallest first.
    pub choice: Vec<ReelChoiceDocument>,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
}

/// A version that is to be wound.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct FilmToWindDocument {
    /// The version.
    pub cut: String,
    /// Its length. Unit: frames.
    pub frames: u32,
    /// The same in feet and frames.
    pub footage: FootageDocument,
    /// How long it runs.
    pub clock: String,
    /// Whether the strand check lets it be cut.
    pub can_be_cut: bool,
}

/// Everything on one hub.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct WoundWholeDocument {
    /// Unit: frames.
    pub frames: u32,
    /// The same in feet and frames.
    pub footage: FootageDocument,
    /// How long it runs, leaders and spacing with it.
    pub clock: String,
    /// The hub. Unit: millimetres.
    pub hub_mm: f64,
    /// Across the wound film. Unit: millimetres.
    pub across_mm: f64,
}

/// A reel that could be used.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ReelChoiceDocument {
    /// How it is asked for: `50ft`, or the name of one's own.
    pub reel: String,
    /// Whether it is one of the user's own.
    pub own: bool,
    /// Across the flange, where it is known. Unit: millimetres.
    pub flange_mm: Option<f64>,
    /// Across the hub. Unit: millimetres.
    pub hub_mm: f64,
    /// Across the wound film when it is full. Unit: millimetres.
    pub full_mm: f64,
    /// What it takes of this film, leaders included. Unit: frames.
    pub takes_frames: u32,
    /// The same in feet and frames.
    pub takes: FootageDocument,
    /// Where flange and length come from.
    pub source: String,
}

/// A reel with what is wound on it.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct MadeUpReelDocument {
    /// Which of the reels, from 1.
    pub number: usize,
    /// Of how many.
    pub of: usize,
    /// The reel.
    pub reel: ReelChoiceDocument,
    /// What is wound on it, from the head.
    pub wound: Vec<WoundStretchDocument>,
    /// Film on it. Unit: frames.
    pub frames: u32,
    /// The same in feet and frames.
    pub footage: FootageDocument,
    /// How long it runs, from the first frame of leader to the last.
    pub clock: String,
    /// How long the films on it run alone.
    pub films_clock: String,
    /// Across the wound film. Unit: millimetres.
    pub across_mm: f64,
    /// How full it is. Unit: per cent of what it takes.
    pub full_percent: f64,
    /// What more it would take. Unit: frames.
    pub room_frames: u32,
    /// The same in feet and frames.
    pub room: FootageDocument,
    /// What is written on it.
    pub labels: ReelLabelsDocument,
}

/// A stretch on a reel.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct WoundStretchDocument {
    /// `leader`, `film`, `spacing` or `tail_leader`.
    pub what: String,
    /// The version of a film.
    pub cut: Option<String>,
    /// Where only a part of the film is on this reel: its first position.
    pub from: Option<usize>,
    /// And its last.
    pub to: Option<usize>,
    /// Unit: frames.
    pub frames: u32,
    /// The same in feet and frames.
    pub footage: FootageDocument,
}

/// What is written on a reel, its leaders and its can: lines made from one record,
/// so that they cannot disagree.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ReelLabelsDocument {
    /// The label on the reel.
    pub reel: Vec<String>,
    /// Written on the head leader, in the order in which it is read.
    pub head_leader: Vec<String>,
    /// Written on the tail leader.
    pub tail_leader: Vec<String>,
    /// The label on the can.
    pub can: Vec<String>,
}
