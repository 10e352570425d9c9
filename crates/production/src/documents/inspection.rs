//! What was found with the film in the hand, and what is wound on what.

use onestrand_store::{ConditionRecord, WoundRecord};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::FootageDocument;

/// What was found on a roll with the film in the hand.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, ToSchema)]
pub struct InspectionDocument {
    /// The number it has in a collection.
    pub accession: String,
    /// How it lies: `heads`, `tails` or empty where nobody looked.
    pub lies: String,
    /// In what state it is.
    pub condition: ConditionWords,
    /// A hundred frames on the ruler, against new film.
    pub hundred: HundredDocument,
    /// The roll on its reel, as a ruler found it.
    pub wound: Option<WoundDocument>,
    /// Joins found on it, in the order of the film.
    pub joins: Vec<RollJoinDocument>,
    /// Numbers read on its edge.
    pub edge: EdgeDocument,
    /// The reels and cans it is wound on.
    pub on_reels: Vec<OnReelDocument>,
    /// What to be careful of, short and never as advice of law.
    pub cautions: Vec<String>,
}

/// Numbers read on the edge of a roll.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, ToSchema)]
pub struct EdgeDocument {
    /// Frames from one number to the next, as the user says it; none while nobody has.
    pub step: Option<u32>,
    /// Those read, in the order of the film.
    pub read: Vec<EdgeNumberDocument>,
    /// How many more follow between them.
    pub follow: usize,
}

/// A number read on the edge.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct EdgeNumberDocument {
    /// The frame it stands at.
    pub frame: u32,
    /// As it was read.
    pub number: String,
}

/// In what state a roll is, in the user's words; empty where nobody looked.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct ConditionWords {
    /// Colour, black and white, toned.
    pub picture: String,
    /// Level of an acid strip, `0` to `3`.
    pub acid: String,
    /// Smell of vinegar: `none`, `slight` or `strong`.
    pub vinegar: String,
    /// How flat it lies: flat, cupped, curled, twisted, spoked.
    pub warping: String,
    /// The perforations: whole, nicked, torn, repaired.
    pub perforations: String,
    /// Scratches: none, base, emulsion, both.
    pub scratches: String,
    /// Whether the colour holds: holds, faded, turned red.
    pub fading: String,
    /// The sound on it: none, magnetic, optical.
    pub sound: String,
    /// Who inspected it, and on which day.
    pub by: String,
    /// Anything more.
    pub note: String,
}

/// A hundred frames on the ruler, against new film.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, ToSchema)]
pub struct HundredDocument {
    /// As it was measured. Unit: millimetres.
    pub mm: Option<String>,
    /// New film of the gauge. Unit: millimetres.
    pub new_mm: String,
    /// Where the pitch of new film comes from.
    pub source: String,
    /// What follows: shrinkage in per cent.
    pub shrinkage: Option<String>,
}

/// A roll on its reel as a ruler finds it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct WoundDocument {
    /// What was measured.
    pub measured: WoundWords,
    /// The thickness that was reckoned with. Unit: millimetres.
    pub thickness_mm: String,
    /// Whether the thickness was taken from a table and not measured.
    pub thickness_taken: bool,
    /// The likeliest length. Unit: frames.
    pub frames: u32,
    /// The same in feet and frames.
    pub footage: FootageDocument,
    /// The least and the most it may be, by ruler and thickness. Unit: frames.
    #[schema(value_type = Vec<u32>)]
    pub between: (u32, u32),
    /// The sum in words.
    pub sum: String,
}

/// What a ruler says of film on a reel. Unit: millimetres, as they were written.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct WoundWords {
    /// Across the wound film.
    pub across_mm: String,
    /// Across the hub.
    pub hub_mm: String,
    /// Thickness of the film, where it was measured.
    #[serde(default)]
    pub thickness_mm: Option<String>,
}

/// A join found on a roll.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RollJoinDocument {
    /// The first frame after it.
    pub frame: u32,
    /// The same in feet and frames.
    pub footage: FootageDocument,
    /// `tape`, `cement`, `weld` or `not-known`.
    pub kind: String,
    /// What is to be said of it.
    pub note: String,
}

/// Where a roll is wound.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct OnReelDocument {
    /// The reel or can.
    pub reel: String,
    /// Which of the parts on it, counted from 1.
    pub place: u32,
    /// The first frame there.
    #[serde(rename = "in")]
    pub first: u32,
    /// The first frame after.
    #[serde(rename = "out")]
    pub thrown: u32,
}

/// One half of a strip of double-run film.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct HalfDocument {
    /// What the strip is called.
    pub strip: String,
    /// `A`, which was run first, or `B`.
    pub side: String,
    /// Whether the strip has been slit.
    pub slit: bool,
    /// The roll that is the other half.
    pub other: Option<String>,
    /// How it lies on the strip, in a sentence.
    pub words: String,
}

/// A reel, core or can.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ReelDocument {
    /// What it is called.
    pub reel: String,
    /// What is said of it.
    #[serde(flatten)]
    pub words: ReelWords,
    /// Film on it. Unit: frames.
    pub frames: u32,
    /// The same in feet and frames, by the gauge of the first roll on it.
    pub footage: FootageDocument,
    /// Whether more is wound on it than it takes, by its feet.
    pub too_much: bool,
}

/// What is said of a reel or can; all of it is replaced.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct ReelWords {
    /// `reel`, `core` or `can`.
    pub kind: String,
    /// What it takes. Unit: feet.
    #[serde(default)]
    pub feet: Option<u32>,
    /// How far it is across. Unit: millimetres, as it is written.
    #[serde(default)]
    pub across_mm: Option<String>,
    /// How far its hub is across. Unit: millimetres, as it is written.
    #[serde(default)]
    pub hub_mm: Option<String>,
    /// How the film on it lies: `heads`, `tails` or `not-known`.
    #[serde(default = "not_known")]
    pub lies: String,
    /// Where it is kept.
    #[serde(default)]
    pub kept_in: String,
    /// The number it has in a collection.
    #[serde(default)]
    pub accession: String,
    /// The user's note.
    #[serde(default)]
    pub note: String,
    /// What is wound on it, in order from the head of the first.
    #[serde(default)]
    pub wound: Vec<WoundPart>,
}

/// A roll, or a part of one, on a reel.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct WoundPart {
    /// The roll.
    pub roll: String,
    /// Its first frame there; with `out` or not at all.
    #[serde(rename = "in", default)]
    pub first: Option<u32>,
    /// The first frame after.
    #[serde(rename = "out", default)]
    pub thrown: Option<u32>,
}

fn not_known() -> String {
    "not-known".to_owned()
}

impl From<&WoundRecord> for WoundWords {
    fn from(record: &WoundRecord) -> Self {
        Self {
            across_mm: record.across_mm.clone(),
            hub_mm: record.hub_mm.clone(),
            thickness_mm: record.thickness_mm.clone(),
        }
    }
}

impl From<&WoundWords> for WoundRecord {
    fn from(words: &WoundWords) -> Self {
        Self {
            across_mm: words.across_mm.clone(),
            hub_mm: words.hub_mm.clone(),
            thickness_mm: words.thickness_mm.clone(),
        }
    }
}

impl From<&ConditionRecord> for ConditionWords {
    fn from(record: &ConditionRecord) -> Self {
        let record = record.clone();
        Self {
            picture: record.picture,
            acid: record.acid,
            vinegar: record.vinegar,
            warping: record.warping,
            perforations: record.perforations,
            scratches: record.scratches,
            fading: record.fading,
            sound: record.sound,
            by: record.by,
            note: record.note,
        }
    }
}

impl From<&ConditionWords> for ConditionRecord {
    fn from(words: &ConditionWords) -> Self {
        let words = words.clone();
        Self {
            picture: words.picture,
            acid: words.acid,
            vinegar: words.vinegar,
            warping: words.warping,
            perforations: words.perforations,
            scratches: words.scratches,
            fading: words.fading,
            sound: words.sound,
            by: words.by,
            note: words.note,
        }
    }
}
