//! The river: strips of blue paper with wavy edges, slid to and fro like the
//! waves of a toy theatre. Cut once, moved in every frame.

use tiny_skia::{Path, PathBuilder, Pixmap, Transform};

use crate::WIDTH;
use crate::noise::{signed, unit};
use crate::paper::shape::smooth;
use crate::paper::{Paper, Papers, Stage};

/// Paper beyond either side of the picture, pixels.
const SPARE: i32 = 48;

/// Where a river lies and how it is cut.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Bed {
    pub(crate) top: f32,
    pub(crate) bottom: f32,
    pub(crate) strips: usize,
    /// Size of the waves of the nearest strip, pixels from crest to crest.
    pub(crate) wave: f32,
    pub(crate) seed: u64,
}

/// A river ready to move.
#[derive(Debug)]
pub(crate) struct Water {
    strips: Vec<Strip>,
}

#[derive(Debug)]
struct Strip {
    picture: Pixmap,
    /// Top edge at rest, pixels of the picture.
    edge: f32,
    y: i32,
    sway: f32,
    pace: f32,
    phase: f32,
}

impl Water {
    pub(crate) fn new(papers: &Papers, bed: Bed) -> Self {
        let strips = (0..bed.strips)
            .map(|index| cut_strip(papers, bed, index))
            .collect();
        Self { strips }
    }

    /// Lays the strips behind a thing that floats at `waterline`.
    pub(crate) fn behind(&self, stage: &mut Stage<'_>, time: f32, waterline: f32) {
        for strip in self.strips.iter().filter(|s| s.edge < waterline) {
            strip.lay(stage, time);
        }
    }

    /// Lays the strips before a thing that floats at `waterline`.
    pub(crate) fn before(&self, stage: &mut Stage<'_>, time: f32, waterline: f32) {
        for strip in self.strips.iter().filter(|s| s.edge >= waterline) {
            strip.lay(stage, time);
        }
    }

    /// All strips.
    pub(crate) fn lay_all(&self, stage: &mut Stage<'_>, time: f32) {
        for strip in &self.strips {
            strip.lay(stage, time);
        }
    }
}

impl Strip {
    fn lay(&self, stage: &mut Stage<'_>, time: f32) {
        let turn = time * self.pace + self.phase;
        let x = (turn.sin() * self.sway).round() as i32 - SPARE;
        let y = self.y + ((turn * 1.7).cos() * self.sway * 0.09).round() as i32;
        stage.lay(&self.picture, x, y);
    }
}

/// Depth of the strip's top edge: far strips lie closer together.
fn edge(bed: Bed, index: usize) -> f32 {
    let part = index as f32 / bed.strips as f32;
    bed.top + (bed.bottom - bed.top) * part.powf(1.35)
}

fn cut_strip(papers: &Papers, bed: Bed, index: usize) -> Strip {
    let near = (index as f32 + 0.5) / bed.strips as f32;
    let y = edge(bed, index);
    let below = edge(bed, index + 1) + 26.0;
    let room = 12.0;
    let tall = (below - y + room).max(20.0);
    let wide = WIDTH + 2 * SPARE as u32;
    let mut picture = Pixmap::new(wide, tall as u32).expect("the strip has a size");
    let mut stage = Stage::new(&mut picture, papers);
    let wave = bed.wave * (0.3 + 0.7 * near);
    let height = wave * 0.085;
    let path = waves(
        bed.seed + index as u64,
        wide as f32,
        room,
        tall,
        (wave, height),
    );
    let paper = match (near * 4.0) as u32 {
        0 => Paper::River0,
        1 => Paper::River1,
        2 => Paper::River2,
        _ => Paper::River3,
    };
    // Light from above the far bank: the strip shades the one behind it a little.
    stage.fill(
        &path,
        [30, 50, 70, 46],
        Transform::from_translate(1.0, -2.4),
    );
    stage.fill(
        &path,
        [214, 230, 226, 255],
        Transform::from_translate(0.0, -1.1),
    );
    stage.sheet(&path, paper, Transform::identity());
    glints(
        &mut stage,
        bed.seed * 31 + index as u64,
        (wide as f32, tall),
        near,
    );
    Strip {
        picture,
        edge: y,
        y: (y - room) as i32,
        sway: 7.0 + 17.0 * near,
        pace: 0.052 + 0.02 * unit(bed.seed, index as u64),
        phase: unit(bed.seed ^ 5, index as u64) * 6.3,
    }
}

fn waves(seed: u64, wide: f32, top: f32, bottom: f32, size: (f32, f32)) -> Path {
    let (wave, height) = size;
    let mut builder = PathBuilder::new();
    builder.move_to(-4.0, bottom);
    builder.line_to(-4.0, top);
    let mut x = -4.0 - wave * unit(seed, 900);
    let mut index = 0;
    while x < wide {
        let step = wave * (0.85 + 0.3 * unit(seed, index));
        let dip = height * (1.0 + 0.4 * signed(seed ^ 9, index));
        builder.quad_to(x + step * 0.25, top + dip, x + step * 0.5, top);
        builder.quad_to(x + step * 0.75, top - dip, x + step, top);
        x += step;
        index += 1;
    }
    builder.line_to(wide + 4.0, bottom);
    builder.close();
    builder.finish().expect("waves have a length")
}

/// Slips of light paper stuck on the water.
fn glints(stage: &mut Stage<'_>, seed: u64, size: (f32, f32), near: f32) {
    let count = 3 + (near * 3.0) as u64;
    for index in 0..count {
        let x = unit(seed, index) * size.0;
        let y = 16.0 + unit(seed ^ 3, index) * (size.1 - 34.0).max(2.0);
        let long = (10.0 + 30.0 * near) * (0.6 + 0.8 * unit(seed ^ 4, index));
        let thin = 1.0 + 1.5 * near;
        let slip = smooth(&[
            (x - long, y),
            (x, y - thin),
            (x + long, y + 0.4),
            (x, y + thin),
        ]);
        stage.fill(&slip, [222, 236, 230, 118], Transform::identity());
    }
}

/// A spout of water where something fell, `age` in frames, 1 unit wide a pixel.
pub(crate) fn splash(stage: &mut Stage<'_>, at: Transform, age: f32) {
    if age > 34.0 {
        return;
    }
    let up = (1.0 - age / 20.0).max(0.0);
    for index in 0..9_u64 {
        let side = (index as f32 - 4.0) / 4.0;
        let fly = age * (2.6 - side.abs()) - age * age * 0.115;
        let x = side * (7.0 + age * 2.1) + signed(31, index) * 3.0;
        if fly < -4.0 {
            continue;
        }
        let r = 2.4 + 1.8 * unit(33, index) * up;
        let drop = smooth(&[
            (x, -fly - r * 2.4),
            (x + r, -fly),
            (x, -fly + r),
            (x - r, -fly),
        ]);
        stage.piece(&drop, Paper::Foam, at);
    }
    if age < 14.0 {
        let h = 26.0 * (age / 4.0).min(1.0) * (1.0 - age / 14.0) + 3.0;
        let crown = smooth(&[
            (-17.0, 3.0),
            (-13.0, -h * 0.7),
            (-7.0, -h * 0.3),
            (0.0, -h),
            (6.0, -h * 0.35),
            (13.0, -h * 0.8),
            (17.0, 3.0),
        ]);
        stage.piece(&crown, Paper::Foam, at);
    }
    ring(stage, at, age);
}

fn ring(stage: &mut Stage<'_>, at: Transform, age: f32) {
    let wide = 14.0 + age * 3.2;
    let cover = (200.0 * (1.0 - age / 34.0)) as u8;
    let ring = crate::paper::shape::oval(0.0, 3.0, wide, wide * 0.2);
    stage.line(&ring, 2.0, [230, 238, 228, cover], at);
}
