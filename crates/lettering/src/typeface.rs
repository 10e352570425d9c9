//! A typeface ready for shaping and for its outlines.

use rustybuzz::ttf_parser::{GlyphId, OutlineBuilder};
use tiny_skia::{Path, PathBuilder, Transform};

use crate::LetteringError;

/// A typeface whose measures are in capitals: a capital is 1 tall.
pub(crate) struct Typeface<'a> {
    pub(crate) shaper: rustybuzz::Face<'a>,
    /// Capitals in one unit of the font.
    pub(crate) scale: f32,
    /// Height of a small letter without ascender, in capitals.
    pub(crate) x_height: f32,
}

impl<'a> Typeface<'a> {
    pub(crate) fn new(bytes: &'a [u8]) -> Result<Self, LetteringError> {
        let shaper = rustybuzz::Face::from_slice(bytes, 0).ok_or(LetteringError::NoFont)?;
        if shaper.number_of_glyphs() == 0 || shaper.units_per_em() < 16 {
            return Err(LetteringError::NoFont);
        }
        let em = f32::from(shaper.units_per_em() as u16);
        // Ink is measured, for what fonts say of it is often wrong; a font without
        // Latin letters has capitals as tall as most have.
        let tall = |letters: &[char]| {
            letters.iter().find_map(|letter| {
                let glyph = shaper.glyph_index(*letter)?;
                let ink = outline(&shaper, glyph, 1.0)?.compute_tight_bounds()?;
                (ink.height() > em * 0.02 && ink.height() < em * 3.0).then(|| ink.height())
            })
        };
        let capital = tall(&['H', 'E', 'I', '\u{5d0}']).unwrap_or(em * 0.7);
        let small = tall(&['x', 'z', 'v']).unwrap_or(capital * 0.7);
        Ok(Self {
            scale: 1.0 / capital,
            x_height: small / capital,
            shaper,
        })
    }

    /// The outline of a glyph in capitals, y downwards; nothing for a space.
    pub(crate) fn outline(&self, glyph: u16) -> Option<Path> {
        outline(&self.shaper, GlyphId(glyph), self.scale)
    }
}

fn outline(face: &rustybuzz::Face<'_>, glyph: GlyphId, scale: f32) -> Option<Path> {
    let mut pen = Pen(PathBuilder::new());
    face.outline_glyph(glyph, &mut pen)?;
    pen.0
        .finish()?
        .transform(Transform::from_scale(scale, -scale))
}

struct Pen(PathBuilder);

impl OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.move_to(x, y);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.0.line_to(x, y);
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.0.quad_to(x1, y1, x, y);
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.0.cubic_to(x1, y1, x2, y2, x, y);
    }

    fn close(&mut self) {
        self.0.close();
    }
}
