//! A card whose words are set.

use tiny_skia::Path;

use crate::manner::Manner;
use crate::{Design, Layer, draw, svg};

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

impl Bounds {
    /// The smallest that holds both.
    pub(crate) fn with(self, other: Self) -> Self {
        Self {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }
}

/// One line as it was set.
#[derive(Debug, Clone, PartialEq)]
pub struct SetLine {
    /// Its words, in the order of reading.
    pub text: String,
    /// Where its ink is.
    pub bounds: Bounds,
    /// Where its letters stand. Unit: parts of the picture height from the top.
    pub baseline: f64,
}

/// A letter on the card.
#[derive(Debug, Clone)]
pub(crate) struct Letter {
    /// Its outline, in parts of the picture height.
    pub(crate) path: Path,
    /// Its number on the card, for what chance does to it.
    pub(crate) number: u64,
}

/// How the card is drawn beside its letters.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Look {
    pub(crate) manner: Manner,
    pub(crate) outline: bool,
    pub(crate) shadow: bool,
    pub(crate) plate: bool,
    pub(crate) dark: bool,
}

/// A card whose words are set, to be drawn at any size.
#[derive(Debug, Clone)]
pub struct SetCard {
    pub(crate) design: Design,
    pub(crate) look: Look,
    pub(crate) seed: u64,
    pub(crate) words: usize,
    pub(crate) lines: Vec<SetLine>,
    pub(crate) letters: Vec<Letter>,
    pub(crate) capital_height: f64,
    pub(crate) x_height: f64,
    pub(crate) bounds: Bounds,
    pub(crate) full_height: f64,
    /// Width over height of the projected aperture.
    pub(crate) aspect: f64,
    pub(crate) safe: f64,
}

impl SetCard {
    /// Its design.
    #[must_use]
    pub fn design(&self) -> Design {
        self.design
    }

    /// How many words it has: what stands between spaces and holds a letter or a
    /// figure.
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
    /// the top; 0 for a card; below 0 the words have not come in yet. Unit: picture
    /// heights. A picture of another shape than the aperture holds the aperture
    /// whole, in its middle.
    ///
    /// Sizes are kept within 1 to 8192 pixels.
    #[must_use]
    pub fn draw(&self, width: u32, height: u32, from_top: f64) -> Layer {
        draw::layer(self, width, height, from_top)
    }

    /// True-size outlines: the letters as paths on a field `field_mm` wide and tall,
    /// which is the art that the projected aperture shows; black on clear, or with
    /// `reversed` white (no ink) on black, for white letters by a second exposure.
    #[must_use]
    pub fn svg(&self, field_mm: (f64, f64), reversed: bool) -> String {
        svg::document(self, field_mm, reversed)
    }

    /// The same outlines as the `d` of an SVG path, in millimetres from the top
    /// left of the field; filled by the nonzero rule.
    #[must_use]
    pub fn path_data(&self, field_mm: (f64, f64)) -> String {
        svg::path_data(self, field_mm)
    }

    /// The same where the top left of the field lies elsewhere: `at` millimetres from the
    /// top left of a larger one.
    #[must_use]
    pub fn path_data_at(&self, field_mm: (f64, f64), at: (f64, f64)) -> String {
        svg::path_data_at(self, field_mm, at)
    }

    /// How thick a pen goes over those outlines to give the letters their weight;
    /// 0 for most designs. Unit: millimetres.
    #[must_use]
    pub fn pen_mm(&self, field_mm: (f64, f64)) -> f64 {
        f64::from(self.look.manner.hand.swell) * self.capital_height * svg::scale(self, field_mm)
    }
}
