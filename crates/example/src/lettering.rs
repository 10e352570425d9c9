//! Letters cut out of paper: outlines of the project's own typeface.

use tiny_skia::{Path, PathBuilder, Transform};
use ttf_parser::{Face, OutlineBuilder};

/// Bitter Bold, SIL Open Font Licence 1.1; see the fonts folder.
static BITTER_BOLD: &[u8] = include_bytes!("../../../fonts/Bitter-Bold.ttf");

/// One letter ready to be laid.
#[derive(Debug)]
pub(crate) struct Letter {
    pub(crate) path: Path,
    /// Left end of the letter on the line, pixels.
    pub(crate) x: f32,
}

/// Cuts a line of words, `size` pixels to the em. Gives letters and the width.
pub(crate) fn cut(words: &str, size: f32, spacing: f32) -> (Vec<Letter>, f32) {
    let face = Face::parse(BITTER_BOLD, 0).expect("the font in the program is sound");
    let scale = size / f32::from(face.units_per_em());
    let mut letters = Vec::new();
    let mut x = 0.0;
    for character in words.chars() {
        let Some(glyph) = face.glyph_index(character) else {
            continue;
        };
        let mut pen = Pen(PathBuilder::new());
        if face.outline_glyph(glyph, &mut pen).is_some()
            && let Some(path) = pen.0.finish()
            && let Some(path) = path.transform(Transform::from_scale(scale, -scale))
        {
            letters.push(Letter { path, x });
        }
        x += f32::from(face.glyph_hor_advance(glyph).unwrap_or(0)) * scale + spacing;
    }
    (letters, x - spacing)
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
