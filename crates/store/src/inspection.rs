//! What is found on a roll with the film in the hand, and kept with it.

use serde::{Deserialize, Serialize};

use crate::HandlingRecord;

/// What was found on a roll. An empty text was not looked at.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct InspectionRecord {
    /// The number it has in a collection.
    pub accession: String,
    /// How it lies now: `heads`, `tails` or empty.
    pub lies: String,
    /// The length of a hundred frames as it was measured. Unit: millimetres, as
    /// it was written.
    pub hundred_mm: Option<String>,
    /// How it is wound, measured with a ruler.
    pub wound: Option<WoundRecord>,
    /// In what state it is.
    pub condition: ConditionRecord,
    /// Joins that were found on it, by their frames.
    pub joins: Vec<RollJoinRecord>,
    /// Numbers read on its edge.
    pub edge: EdgeRecord,
    /// The strip of double-run film it is one half of.
    pub half: Option<HalfRecord>,
    /// What was done to it and when, the first first. An older program wrote runs
    /// alone, under that name.
    #[serde(alias = "runs")]
    pub ledger: Vec<HandlingRecord>,
}

/// Film on a reel as a ruler finds it. Unit: millimetres, as they were written.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct WoundRecord {
    /// Across the wound film.
    pub across_mm: String,
    /// Across the hub.
    pub hub_mm: String,
    /// Thickness of the film, where it was measured.
    pub thickness_mm: Option<String>,
}

/// In what state a roll is, in the user's words.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct ConditionRecord {
    /// Colour, black and white, toned.
    pub picture: String,
    /// Level of an acid strip, 0 to 3.
    pub acid: String,
    /// Smell of vinegar: `none`, `slight`, `strong`.
    pub vinegar: String,
    /// How flat it lies.
    pub warping: String,
    /// The perforations.
    pub perforations: String,
    /// Scratches, and on which side.
    pub scratches: String,
    /// Whether the colour holds.
    pub fading: String,
    /// The sound on it.
    pub sound: String,
    /// Who inspected it, and on which day.
    pub by: String,
    /// Anything more.
    pub note: String,
}

/// A join found on a roll.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RollJoinRecord {
    /// The first frame after it.
    pub frame: u32,
    /// `tape`, `cement`, `weld` or `not-known`.
    pub kind: String,
    /// What is to be said of it.
    pub note: String,
}

/// Numbers read on the edge of a roll.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct EdgeRecord {
    /// Frames from one number to the next, as the user says it of this stock; 0 while
    /// nobody has.
    pub step: u32,
    /// The numbers, in the order of the film.
    pub read: Vec<EdgeNumberRecord>,
}

/// A number read on the edge.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct EdgeNumberRecord {
    /// The frame it stands at.
    pub frame: u32,
    /// As it was read: `4127`, `KD 0101`.
    pub number: String,
}

/// One half of a strip of double-run film.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HalfRecord {
    /// What the strip is called.
    pub strip: String,
    /// `A`, which was run first, or `B`.
    pub side: String,
    /// Whether the strip has been slit.
    pub slit: bool,
}
