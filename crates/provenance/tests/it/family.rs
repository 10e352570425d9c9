//! A family's cameras and rolls, drawn: gates with burrs, hairs that grow, stocks, fog.

use onestrand_provenance::ScanPicture;

use crate::chance::Chance;
use crate::scene::Scene;

/// Size of the drawn scans.
pub(crate) const SIZE: (usize, usize) = (640, 480);
/// The picture on it, before a camera's own gate.
const PICTURE: [f32; 4] = [70.0, 570.0, 62.0, 417.0];

/// One side of a gate: a slant, long waves, and burrs, in pixels.
struct Edge {
    slant: f32,
    waves: [(f32, f32, f32); 3],
    burrs: Vec<(f32, f32, f32)>,
}

impl Edge {
    fn new(chance: &mut Chance, rough: f32) -> Self {
        let wave = |chance: &mut Chance| {
            (
                chance.between(1.0, 9.0),
                chance.between(0.0, 6.3),
                chance.between(-0.5, 0.5) * rough,
            )
        };
        let burr = |chance: &mut Chance| {
            (
                chance.share(),
                chance.between(0.006, 0.03),
                chance.between(-2.5, 2.5) * rough,
            )
        };
        Self {
            slant: chance.between(-1.5, 1.5) * rough,
            waves: [0; 3].map(|_| wave(chance)),
            burrs: (0..chance.below(4)).map(|_| burr(chance)).collect(),
        }
    }

    /// How far the gate reaches into the picture at a share of the side.
    fn at(&self, share: f32) -> f32 {
        let waves: f32 = self
            .waves
            .iter()
            .map(|&(f, p, a)| (f * share * 6.3 + p).sin() * a)
            .sum();
        let burr = |&(at, wide, high): &(f32, f32, f32)| {
            let off = (share - at) / wide;
            high * (-off * off).exp()
        };
        self.slant * (share - 0.5) + waves + self.burrs.iter().map(burr).sum::<f32>()
    }
}

/// A camera's gate.
pub(crate) struct Camera {
    edges: [Edge; 4],
    sides: [f32; 4],
    radius: f32,
}

impl Camera {
    /// `rough` is how much gates differ: 1 is usual, half of it are two cameras of a maker.
    pub(crate) fn new(chance: &mut Chance, rough: f32) -> Self {
        Self {
            edges: [0; 4].map(|_| Edge::new(chance, rough)),
            sides: PICTURE.map(|p| p + chance.between(-2.0, 2.0) * rough),
            radius: chance.between(3.0, 15.0),
        }
    }

    /// How far inside the gate a place lies, in pixels; below 0 it is outside.
    fn inside(&self, x: f32, y: f32) -> f32 {
        let [left, right, top, bottom] = self.sides;
        let (u, v) = ((x - left) / (right - left), (y - top) / (bottom - top));
        let depth = [
            x - left - self.edges[0].at(v),
            right - x - self.edges[1].at(v),
            y - top - self.edges[2].at(u),
            bottom - y - self.edges[3].at(u),
        ];
        let (near_x, near_y) = (depth[0].min(depth[1]), depth[2].min(depth[3]));
        let r = self.radius;
        if near_x < r && near_y < r {
            let (a, b) = (r - near_x, r - near_y);
            return r - (a * a + b * b).sqrt();
        }
        near_x.min(near_y)
    }
}

/// A hair in the gate: side, share along it, and how it bends.
#[derive(Clone, Copy)]
pub(crate) struct Hair {
    pub(crate) side: usize,
    pub(crate) at: f32,
    pub(crate) bend: f32,
    pub(crate) length: f32,
}

impl Hair {
    pub(crate) fn new(chance: &mut Chance) -> Self {
        Self {
            side: chance.below(4),
            at: chance.between(0.12, 0.88),
            bend: chance.between(-0.012, 0.012),
            length: chance.between(8.0, 20.0),
        }
    }

    /// How much of the light it lets through at a place.
    fn through(&self, camera: &Camera, x: f32, y: f32) -> f32 {
        let [left, right, top, bottom] = camera.sides;
        let (depth, along) = match self.side {
            0 => (x - left, y - top - self.at * (bottom - top)),
            1 => (right - x, y - top - self.at * (bottom - top)),
            2 => (y - top, x - left - self.at * (right - left)),
            _ => (bottom - y, x - left - self.at * (right - left)),
        };
        if depth > self.length || depth < -4.0 {
            return 1.0;
        }
        let off = (along - self.bend * depth * depth).abs();
        ((off - 1.0) / 1.5).clamp(0.1, 1.0)
    }
}

/// A stock: tone of its unexposed border and strength of its grain.
#[derive(Clone, Copy)]
pub(crate) struct Stock {
    pub(crate) border: [f32; 3],
    pub(crate) grain: f32,
}

impl Stock {
    pub(crate) fn new(chance: &mut Chance) -> Self {
        let dark = chance.between(8.0, 24.0);
        Self {
            border: [0, 1, 2].map(|_| dark + chance.between(-6.0, 6.0)),
            grain: chance.between(2.0, 7.0),
        }
    }
}

/// One shot as it is to be drawn.
pub(crate) struct Shot<'a> {
    pub(crate) camera: &'a Camera,
    pub(crate) stock: Stock,
    pub(crate) hairs: Vec<Hair>,
    /// Fog at the first and at the last frame, in levels.
    pub(crate) fog: (f32, f32),
}

/// So many frames of each shot are drawn, spread over it.
const FRAMES: usize = 10;

/// Draws frames of a shot: a scene of its own, with weave, grain and what the gate holds.
pub(crate) fn draw(shot: &Shot<'_>, chance: &mut Chance) -> Vec<ScanPicture> {
    let scene = Scene::new(chance);
    let set = (chance.between(-6.0, 6.0), chance.between(-6.0, 6.0));
    let exposure = chance.between(0.55, 1.15);
    let frame = |n: usize| {
        let weave = (set.0 + 0.8 * chance.normal(), set.1 + 0.8 * chance.normal());
        let share = n as f32 / (FRAMES - 1) as f32;
        // Fog ends within the first or last tenth of the shot.
        let fog = shot.fog.0 * (1.0 - share * 10.0).max(0.0)
            + shot.fog.1 * (1.0 - (1.0 - share) * 10.0).max(0.0);
        let time = n as f32 * 4.0;
        let light =
            |x: f32, y: f32| one(shot, &scene, (x - weave.0, y - weave.1), (time, exposure));
        drawn(&light, shot.stock, fog, chance)
    };
    (0..FRAMES).map(frame).collect()
}

/// The light of a place of the film, its border and gate included.
fn one(
    shot: &Shot<'_>,
    scene: &Scene,
    (x, y): (f32, f32),
    (time, exposure): (f32, f32),
) -> [f32; 3] {
    let inside = shot.camera.inside(x, y);
    let open = (inside / 1.6 + 0.5).clamp(0.0, 1.0);
    if open <= 0.0 {
        return shot.stock.border;
    }
    let [left, right, top, bottom] = PICTURE;
    let hairs: f32 = shot
        .hairs
        .iter()
        .map(|hair| hair.through(shot.camera, x, y))
        .product();
    let light = scene.light(
        (x - left) / (right - left),
        (y - top) / (bottom - top),
        time,
    );
    let mut out = shot.stock.border;
    out.iter_mut()
        .zip(light)
        .for_each(|(o, l)| *o += (l * exposure - *o).max(0.0) * open * hairs);
    out
}

fn drawn(
    light: &dyn Fn(f32, f32) -> [f32; 3],
    stock: Stock,
    fog: f32,
    chance: &mut Chance,
) -> ScanPicture {
    let (width, height) = SIZE;
    let mut rgb = Vec::with_capacity(width * height * 3);
    for y in 0..height {
        for x in 0..width {
            let tone = light(x as f32, y as f32);
            // Grain is strongest in the middle tones and hardly there in the border.
            let strong = stock.grain * (tone[1] / 90.0).clamp(0.15, 1.0);
            let grain = chance.normal() * strong;
            let near = (width - x).min(x) as f32 / width as f32;
            let fogged = fog * (1.0 - 3.0 * near).max(0.0);
            rgb.extend(tone.map(|t| (t + grain + fogged).clamp(0.0, 255.0) as u8));
        }
    }
    ScanPicture::new(width, height, rgb).expect("a drawn picture")
}
