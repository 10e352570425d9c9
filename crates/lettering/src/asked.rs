//! What is asked of a card.

use crate::Design;

/// Where the words stand from left to right, and how their lines are ranged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Across {
    /// Lines begin at the left edge of the safe area.
    Left,
    /// Lines are centred by eye.
    #[default]
    Centre,
    /// Lines end at the right edge of the safe area.
    Right,
}

/// Where the words stand from top to bottom.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Down {
    /// At the top of the safe area.
    Top,
    /// In the middle, a little above the centre, as the eye wants it.
    #[default]
    Middle,
    /// At the bottom of the safe area.
    Low,
}

/// A card as it is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct CardAsked {
    /// The words; a typed line end is a line end, an empty line a gap.
    pub words: String,
    /// How they are lettered.
    pub design: Design,
    /// Width and height of the projected aperture, of which the whole card is
    /// the picture. Unit: millimetres.
    pub aspect_mm: (f64, f64),
    /// The part of width and height that words keep to. Range: 0.3 to 1.
    pub safe: f64,
    /// Height of a capital; `None`: as large as the design likes and fits.
    /// Unit: parts of the picture height. Range: 0.01 to 0.8.
    pub letter_height: Option<f64>,
    /// Where from left to right.
    pub across: Across,
    /// Where from top to bottom.
    pub down: Down,
    /// A contour around the letters; `None`: as the design has it.
    pub outline: Option<bool>,
    /// A shadow beside the letters; `None`: as the design has it.
    pub shadow: Option<bool>,
    /// A plate behind the words.
    pub plate: bool,
    /// Black letters for a light ground, instead of white ones.
    pub dark_on_light: bool,
    /// A typeface of the user's own, TrueType or OpenType, instead of the design's.
    pub face: Option<Vec<u8>>,
    /// As tall as the words need, to be moved through the picture; otherwise the
    /// words must stand within the safe area.
    pub crawl: bool,
}

impl CardAsked {
    /// White letters, centred in the middle eight tenths, everything else as the
    /// design has it.
    #[must_use]
    pub fn new(words: impl Into<String>, design: Design, aspect_mm: (f64, f64)) -> Self {
        Self {
            words: words.into(),
            design,
            aspect_mm,
            safe: 0.8,
            letter_height: None,
            across: Across::default(),
            down: Down::default(),
            outline: None,
            shadow: None,
            plate: false,
            dark_on_light: false,
            face: None,
            crawl: false,
        }
    }
}
