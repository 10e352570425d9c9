//! A card whose words are set.

use crate::Design;

/// A rectangle on the card. Unit: parts of the picture height, from the top left
/// of the projected aperture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Left edge.
    pub left: f64,
    /// Top edge.
    pub top: f64,
    /// Right edge.
    pub right: f64,
    /// Bottom edge.
    pub bottom: f64,
}

/// One line as it was set.
#[derive(Debug, Clone, PartialEq)]
pub struct SetLine {
    /// Its words, in the order of reading.
    pub text: String,
    /// Where its ink is; for a gap, a line without height.
    pub bounds: Bounds,
    /// Where its letters stand. Unit: parts of the picture height from the top.
    pub baseline: f64,
}

/// A card whose words are set, to be drawn at any size.
#[derive(Debug, Clone)]
pub struct SetCard {
    pub(crate) design: Design,
    pub(crate) words: usize,
    pub(crate) lines: Vec<SetLine>,
    pub(crate) capital_height: f64,
    pub(crate) x_height: f64,
    pub(crate) bounds: Bounds,
    pub(crate) full_height: f64,
}

impl SetCard {
    /// Its design.
    #[must_use]
    pub fn design(&self) -> Design {
        self.design
    }

    /// How many words it has, as a reader counts them.
    #[must_use]
    pub fn words(&self) -> usize {
        self.words
    }

    /// Its lines from the top, gaps left out.
    #[must_use]
    pub fn lines(&self) -> &[SetLine] {
        &self.lines
    }

    /// Height of a capital. Unit: parts of the picture height.
    #[must_use]
    pub fn capital_height(&self) -> f64 {
        self.capital_height
    }

    /// Height of a small letter without ascender. Unit: parts of the picture height.
    #[must_use]
    pub fn x_height(&self) -> f64 {
        self.x_height
    }

    /// Where the ink of all letters is.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        self.bounds
    }

    /// How tall the whole card is: 1, or for a crawl as tall as its words with the
    /// margins. Unit: picture heights.
    #[must_use]
    pub fn full_height(&self) -> f64 {
        self.full_height
    }

    /// The lettering as pixels. `from_top` is how much of a crawl has gone out at
    /// the top; 0 for a card. Unit: picture heights; below nothing, the words have
    /// not come in yet.
    #[must_use]
    pub fn draw(&self, width: u32, height: u32, from_top: f64) -> crate::Layer {
        let _ = from_top;
        let pixels = width as usize * height as usize;
        crate::Layer {
            width,
            height,
            rgba: vec![0; pixels * 4],
            letters: vec![0; pixels],
            capital: 0,
            safe_rows: (0, height),
        }
    }

    /// True-size outlines: the letters as paths on a field as large as the art,
    /// `field_mm` wide and tall; black on clear, or with `reversed` white (no ink)
    /// on black, for white letters by a second exposure.
    #[must_use]
    pub fn svg(&self, field_mm: (f64, f64), reversed: bool) -> String {
        let _ = (field_mm, reversed);
        String::new()
    }

    /// The same outlines as the `d` of an SVG path, in millimetres from the top
    /// left of the field; filled by the nonzero rule.
    #[must_use]
    pub fn path_data(&self, field_mm: (f64, f64)) -> String {
        let _ = field_mm;
        String::new()
    }
}

/// SKELETON: sets nothing yet.
///
/// # Errors
/// As [`crate::LetteringError`] says.
pub fn set(asked: &crate::CardAsked) -> Result<SetCard, crate::LetteringError> {
    crate::measures::of_asked(asked)?;
    Err(crate::LetteringError::NoWords)
}
