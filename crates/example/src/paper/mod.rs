//! Cut paper on a table: sheets with a fibre, laid on each other, each with a
//! bright cut edge to the light and a shadow away from it.

mod blend;
mod palette;
pub(crate) mod shape;
mod texture;

use tiny_skia::{FillRule, LineCap, LineJoin, Mask, Paint, Path, Pixmap, Stroke, Transform};

pub(crate) use palette::Paper;
pub(crate) use texture::Papers;

/// How the light falls: shadow to the right and below, cut edge to the left.
const SHADOW: [u8; 4] = [24, 22, 34, 74];
/// How far beyond the table a sheet may still throw a shadow on it, pixels.
const REACH: f32 = 8.0;

/// A table on which paper is laid, top sheet last.
#[derive(Debug)]
pub(crate) struct Stage<'a> {
    /// What the camera sees.
    pub(crate) pix: &'a mut Pixmap,
    papers: &'a Papers,
    /// How high a sheet lies over the next, pixels of shadow.
    pub(crate) lift: f32,
    /// Paper the table has beyond the picture's left side, pixels.
    spare: i32,
}

impl<'a> Stage<'a> {
    pub(crate) fn new(pix: &'a mut Pixmap, papers: &'a Papers) -> Self {
        Self {
            pix,
            papers,
            lift: 2.2,
            spare: 0,
        }
    }

    /// A table that reaches beyond the picture on the left.
    pub(crate) fn with_spare(pix: &'a mut Pixmap, papers: &'a Papers, spare: u32) -> Self {
        Self {
            spare: spare as i32,
            ..Self::new(pix, papers)
        }
    }

    /// From the measure of the picture to that of the table.
    fn on_table(&self, at: Transform) -> Transform {
        at.post_translate(self.spare as f32, 0.0)
    }

    /// Lays one cut sheet: shadow, bright edge, paper.
    pub(crate) fn piece(&mut self, path: &Path, paper: Paper, at: Transform) {
        let Some((mask, corner)) = self.cut_out(path, at) else {
            return;
        };
        let (x, y) = corner;
        let fall = ((self.lift * 0.75).round() as i32, self.lift.round() as i32);
        let [r, g, b, cover] = SHADOW;
        blend::even(self.pix, &mask, (x + fall.0, y + fall.1), [r, g, b], cover);
        let edge = paper.rgb().map(|c| c.saturating_add((255 - c) / 3));
        blend::even(self.pix, &mask, (x - 1, y - 1), edge, 190);
        self.lay_tile(&mask, corner, paper, at);
    }

    /// Lays paper without shadow or edge: a mark stuck flat on another sheet.
    pub(crate) fn sheet(&mut self, path: &Path, paper: Paper, at: Transform) {
        if let Some((mask, corner)) = self.cut_out(path, at) {
            self.lay_tile(&mask, corner, paper, at);
        }
    }

    /// The fibre keeps its size but turns and moves with the sheet.
    fn lay_tile(&mut self, mask: &Mask, corner: (i32, i32), paper: Paper, at: Transform) {
        let scale = size_of(at);
        let Some(back) = self.on_table(at).invert() else {
            return;
        };
        let back = back.post_scale(scale, scale);
        blend::tiled(self.pix, mask, corner, self.papers.tile(paper), back);
    }

    /// Cuts a shape out: how much of each pixel it covers, and where.
    ///
    /// `None` when no part of it, or of its shadow, can be seen.
    fn cut_out(&self, path: &Path, at: Transform) -> Option<(Mask, (i32, i32))> {
        let at = self.on_table(at);
        let bounds = path.bounds().transform(at)?;
        let (w, h) = (self.pix.width() as f32, self.pix.height() as f32);
        let left = bounds.left().floor().max(-REACH) as i32;
        let top = bounds.top().floor().max(-REACH) as i32;
        let right = bounds.right().ceil().min(w + REACH) as i32;
        let bottom = bounds.bottom().ceil().min(h + REACH) as i32;
        if right <= left || bottom <= top {
            return None;
        }
        let mut mask = Mask::new((right - left) as u32, (bottom - top) as u32)?;
        let shifted = at.post_translate(-left as f32, -top as f32);
        mask.fill_path(path, FillRule::Winding, true, shifted);
        Some((mask, (left, top)))
    }

    /// Fills with one even colour, red green blue and cover.
    pub(crate) fn fill(&mut self, path: &Path, rgba: [u8; 4], at: Transform) {
        let mut paint = Paint::default();
        paint.set_color_rgba8(rgba[0], rgba[1], rgba[2], rgba[3]);
        let at = self.on_table(at);
        self.pix
            .fill_path(path, &paint, FillRule::Winding, at, None);
    }

    /// Draws a line of even colour, `width` in the units of the path.
    pub(crate) fn line(&mut self, path: &Path, width: f32, rgba: [u8; 4], at: Transform) {
        let mut paint = Paint::default();
        paint.set_color_rgba8(rgba[0], rgba[1], rgba[2], rgba[3]);
        let stroke = Stroke {
            width,
            line_cap: LineCap::Round,
            line_join: LineJoin::Round,
            ..Stroke::default()
        };
        let at = self.on_table(at);
        self.pix.stroke_path(path, &paint, &stroke, at, None);
    }

    /// A cord of twisted paper with its shadow.
    pub(crate) fn cord(&mut self, path: &Path, width: f32, paper: Paper, at: Transform) {
        let lift = self.lift;
        self.line(path, width, SHADOW, at.post_translate(lift * 0.75, lift));
        let [r, g, b] = paper.rgb();
        let dark = [r, g, b].map(|c| (u32::from(c) * 3 / 4) as u8);
        self.line(path, width, [dark[0], dark[1], dark[2], 255], at);
        self.line(
            path,
            width * 0.6,
            [r, g, b, 255],
            at.post_translate(-0.4, -0.5),
        );
    }

    /// A brass paper fastener: what makes a joint.
    pub(crate) fn fastener(&mut self, x: f32, y: f32, radius: f32, at: Transform) {
        let scale = size_of(at);
        if radius * scale < 1.1 {
            return;
        }
        let disc = shape::oval(x, y, radius, radius);
        self.fill(&disc, [30, 24, 20, 110], at.post_translate(0.7, 1.0));
        self.fill(&disc, [196, 152, 62, 255], at);
        let glint = shape::oval(
            x - radius * 0.3,
            y - radius * 0.3,
            radius * 0.4,
            radius * 0.4,
        );
        self.fill(&glint, [246, 224, 160, 255], at);
    }

    /// Lays a prepared sheet with its corner at whole pixels of the picture.
    pub(crate) fn lay(&mut self, picture: &Pixmap, x: i32, y: i32) {
        blend::picture(self.pix, picture, (x + self.spare, y));
    }
}

/// How much larger a thing is laid than it was cut.
pub(crate) fn size_of(at: Transform) -> f32 {
    (at.sy * at.sy + at.kx * at.kx).sqrt().max(0.01)
}

/// Place, size and facing in one: where a puppet stands.
pub(crate) fn at(x: f32, y: f32, scale: f32) -> Transform {
    Transform::from_row(scale, 0.0, 0.0, scale, x, y)
}

/// Turns what comes after about its own origin. Unit: degrees, clockwise.
pub(crate) fn turned(base: Transform, x: f32, y: f32, degrees: f32) -> Transform {
    base.pre_concat(Transform::from_translate(x, y))
        .pre_concat(Transform::from_rotate(degrees))
}
