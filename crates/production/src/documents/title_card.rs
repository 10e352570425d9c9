//! One card as it is set, measured and exposed.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::TitleProblemDocument;

/// How the letters of a card will be read. Lengths in millimetres stand as text with one
/// decimal, parts of the picture's height in thousandths.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct LettersReadDocument {
    /// Lines as they are broken.
    pub lines: Vec<String>,
    /// Words.
    pub words: usize,
    /// Height of capitals: thousandths of the picture's height.
    pub capitals: u32,
    /// Height of small letters: thousandths of the picture's height.
    pub small: u32,
    /// Capitals on the artwork. Unit: mm.
    pub on_art_mm: String,
    /// Capitals on the screen. Unit: mm.
    pub on_screen_mm: String,
    /// What the last row needs on the screen. Unit: mm.
    pub needed_on_screen_mm: String,
    /// What that is on the artwork. Unit: mm.
    pub needed_on_art_mm: String,
    /// Whether the last row reads them.
    pub last_row_reads: bool,
}

/// What may be done where letters do not stand out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case", tag = "do")]
pub enum ContrastRemedyDocument {
    /// Let them stand elsewhere.
    Move {
        /// From top to bottom.
        down: super::LettersDownWord,
    },
    /// A plate under them.
    Plate,
    /// Darken the artwork.
    Darken {
        /// By how much more than it is darkened already. Unit: tenths of a stop.
        tenths: u32,
    },
    /// Dark letters instead of light ones, or the other way round.
    OtherInk,
}

/// A remedy in words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ContrastRemedyWords {
    /// What is done.
    pub remedy: ContrastRemedyDocument,
    /// What it is, in words.
    pub words: String,
}

/// How the letters stand out from what lies under them.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CardContrastDocument {
    /// The least ratio of light where letters stand, in tenths: 45 is 4.5 to 1.
    pub least_tenths: u32,
    /// The usual one, in tenths.
    pub usual_tenths: u32,
    /// What is asked for, in tenths.
    pub asked_tenths: u32,
    /// Whether it is enough.
    pub enough: bool,
    /// Where it is least: left, top, width, height in thousandths of the picture.
    pub least_at: [u32; 4],
    /// What would be enough, the cheapest first.
    pub remedies: Vec<ContrastRemedyWords>,
}

/// A run of frames of a card that look alike.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CardRunDocument {
    /// Frames of it.
    pub frames: u32,
    /// Its picture's number: the first frame that looks so, counted from 0.
    pub picture: u32,
}

/// A card as it is set, measured and exposed.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct TitleCardDocument {
    /// How many words it has.
    pub words: usize,
    /// How long the lettering stands by the reading rule. Unit: frames.
    pub by_rule: u32,
    /// How long it stands. Unit: frames.
    pub hold: u32,
    /// The letters; nothing where they cannot be set.
    pub letters: Option<LettersReadDocument>,
    /// How they stand out; nothing where there are none.
    pub contrast: Option<CardContrastDocument>,
    /// The field seen by the camera, the projected part and the safe part, each as left,
    /// top, width and height in thousandths of the camera's field.
    pub shown: [i32; 4],
    /// The safe part.
    pub safe: [i32; 4],
    /// Frame after frame what the camera sees.
    pub runs: Vec<CardRunDocument>,
    /// Frames in all.
    pub frames: u32,
    /// What is done frame by frame; nothing where it cannot be.
    pub sheet: Option<super::TitleSheetDocument>,
    /// What wants a look.
    pub problems: Vec<TitleProblemDocument>,
}
