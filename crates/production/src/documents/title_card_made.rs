//! A card that was lettered and written as a picture.

use serde::Serialize;
use utoipa::ToSchema;

use super::CardContrastDocument;

/// How a picture was made to fill the card.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct PictureFittedDocument {
    /// Its own width and height. Unit: pixels.
    pub was: [u32; 2],
    /// What was cut from its width, both sides together. Unit: per cent.
    pub cut_across_percent: f64,
    /// What was cut from its height, top and bottom together. Unit: per cent.
    pub cut_down_percent: f64,
    /// How many times it was enlarged; below 1 it was made smaller.
    pub enlarged: f64,
}

/// A card that was lettered and written as a picture.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct TitleCardMadeDocument {
    /// The picture written.
    pub out: String,
    /// Its width and height. Unit: pixels.
    pub size: [u32; 2],
    /// The gauge.
    pub gauge: String,
    /// What the projector shows of the film, wide and high. Unit: millimetres.
    pub aperture_mm: [f64; 2],
    /// The design.
    pub design: String,
    /// Its words.
    pub words: usize,
    /// Its lines as they are broken.
    pub lines: Vec<String>,
    /// Height of a capital, as a part of the picture's height.
    pub capital_height: f64,
    /// Height of a small letter, as a part of the picture's height.
    pub x_height: f64,
    /// Left, top, right, bottom of all ink, as parts of the picture's height.
    pub ink: [f64; 4],
    /// How the letters stand out.
    pub contrast: CardContrastDocument,
    /// How the picture was made to fit; nothing without one.
    pub picture: Option<PictureFittedDocument>,
    /// What wants a look, each with what may be done.
    pub warnings: Vec<String>,
}
