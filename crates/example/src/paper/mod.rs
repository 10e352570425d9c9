//! Cut paper on a table: sheets with a fibre, laid on each other, each with a
//! bright cut edge to the light and a shadow away from it.

mod palette;
pub(crate) mod shape;
mod texture;

use tiny_skia::{
    Color, FillRule, FilterQuality, LineCap, LineJoin, Paint, Path, Pattern, Pixmap, PixmapPaint,
    Shader, SpreadMode, Stroke, Transform,
};

pub(crate) use palette::Paper;
pub(crate) use texture::Papers;

/// How the light falls: shadow to the right and below, cut edge to the left.
const SHADOW: [u8; 4] = [24, 22, 34, 74];

/// A table on which paper is laid, top sheet last.
#[derive(Debug)]
pub(crate) struct Stage<'a> {
    /// What the camera sees.
    pub(crate) pix: &'a mut Pixmap,
    papers: &'a Papers,
    /// How high a sheet lies over the next, pixels of shadow.
    pub(crate) lift: f32,
}

impl<'a> Stage<'a> {
    pub(crate) fn new(pix: &'a mut Pixmap, papers: &'a Papers) -> Self {
        Self {
            pix,
            papers,
            lift: 2.2,
        }
    }

    /// Lays one cut sheet: shadow, bright edge, paper.
    pub(crate) fn piece(&mut self, path: &Path, paper: Paper, at: Transform) {
        if !self.in_sight(path, at) {
            return;
        }
        let lift = self.lift;
        self.fill(path, SHADOW, at.post_translate(lift * 0.75, lift));
        let [r, g, b] = paper.rgb().map(|c| c.saturating_add((255 - c) / 3));
        self.fill(path, [r, g, b, 255], at.post_translate(-0.6, -0.8));
        self.sheet(path, paper, at);
    }

    /// Lays paper without shadow or edge: a mark stuck flat on another sheet.
    pub(crate) fn sheet(&mut self, path: &Path, paper: Paper, at: Transform) {
        let scale = (at.sx * at.sx + at.ky * at.ky).sqrt().max(0.01);
        let grain = Transform::from_scale(1.0 / scale, 1.0 / scale);
        let shader = Pattern::new(
            self.papers.tile(paper).as_ref(),
            SpreadMode::Repeat,
            FilterQuality::Nearest,
            1.0,
            grain,
        );
        self.fill_with(path, shader, at);
    }

    /// Fills with one even colour, red green blue and cover.
    pub(crate) fn fill(&mut self, path: &Path, rgba: [u8; 4], at: Transform) {
        let colour = Color::from_rgba8(rgba[0], rgba[1], rgba[2], rgba[3]);
        self.fill_with(path, Shader::SolidColor(colour), at);
    }

    fn fill_with(&mut self, path: &Path, shader: Shader<'_>, at: Transform) {
        let paint = Paint {
            shader,
            ..Paint::default()
        };
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
        let scale = (at.sx * at.sx + at.ky * at.ky).sqrt();
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

    /// Lays a prepared picture with its corner at whole pixels.
    pub(crate) fn lay(&mut self, picture: &Pixmap, x: i32, y: i32) {
        self.pix.draw_pixmap(
            x,
            y,
            picture.as_ref(),
            &PixmapPaint::default(),
            Transform::identity(),
            None,
        );
    }

    /// Whether any of the shape may be seen.
    fn in_sight(&self, path: &Path, at: Transform) -> bool {
        path.bounds().transform(at).is_some_and(|b| {
            b.right() > -8.0
                && b.bottom() > -8.0
                && b.left() < self.pix.width() as f32 + 8.0
                && b.top() < self.pix.height() as f32 + 8.0
        })
    }
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
