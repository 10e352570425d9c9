//! Drawn originals and prints of them: softer, harder, cropped, with the dirt of what they
//! were printed from and dirt of their own.

use onestrand_provenance::ScanPicture;

use crate::chance::Chance;
use crate::scene::Scene;

/// Size of a drawn film picture.
const FILM: (usize, usize) = (520, 380);
/// Dark film about it on the scan.
const BORDER: usize = 44;

/// One frame of a film: light, row by row.
#[derive(Clone)]
pub(crate) struct Frame(Vec<f32>);

/// Frames of a film: some places, three neighbouring frames each.
#[derive(Clone)]
pub(crate) struct Film(pub(crate) Vec<[Frame; 3]>);

/// How a print is made.
#[derive(Debug)]
pub(crate) struct Printer {
    /// How often the light is spread over three pixels.
    soft: usize,
    contrast: f32,
    /// How much of the picture its window hides on each side, in pixels.
    crop: [f32; 4],
    grain: f32,
}

impl Printer {
    pub(crate) fn new(chance: &mut Chance) -> Self {
        let crops = chance.below(4) > 0;
        let crop = |chance: &mut Chance| {
            if crops {
                chance.between(2.0, 18.0)
            } else {
                0.0
            }
        };
        Self {
            soft: chance.below(2) + 1,
            contrast: chance.between(0.95, 1.35),
            crop: [0; 4].map(|_| crop(chance)),
            grain: chance.between(1.5, 4.0),
        }
    }
}

fn each(mut light: impl FnMut(usize, usize) -> f32) -> Frame {
    let mut frame = Vec::with_capacity(FILM.0 * FILM.1);
    for y in 0..FILM.1 {
        frame.extend((0..FILM.0).map(|x| light(x, y)));
    }
    Frame(frame)
}

/// A film as it came out of the camera, clean.
pub(crate) fn original(places: usize, chance: &mut Chance) -> Film {
    let grain = chance.between(1.0, 3.0);
    let place = |chance: &mut Chance| {
        let scene = Scene::new(chance);
        [0, 1, 2].map(|time| {
            let (w, h) = (FILM.0 as f32, FILM.1 as f32);
            let light =
                |x: usize, y: usize| scene.light(x as f32 / w, y as f32 / h, time as f32 * 0.3)[1];
            let mut frame = each(light);
            frame
                .0
                .iter_mut()
                .for_each(|l| *l += chance.normal() * grain);
            frame
        })
    };
    Film((0..places).map(|_| place(chance)).collect())
}

/// Dirt falls on a film: about so many specks a frame, dark and now and then light ones.
pub(crate) fn dirty(film: &mut Film, specks: f32, chance: &mut Chance) {
    for frame in film.0.iter_mut().flatten() {
        let many = (specks * chance.between(0.5, 1.5)) as usize;
        (0..many).for_each(|_| speck(frame, chance));
    }
}

fn speck(frame: &mut Frame, chance: &mut Chance) {
    let at = (
        chance.between(20.0, FILM.0 as f32 - 20.0),
        chance.between(20.0, FILM.1 as f32 - 20.0),
    );
    let size = (chance.between(1.2, 4.5), chance.between(1.2, 4.5));
    let tone = if chance.below(6) == 0 { 235.0 } else { 12.0 };
    for y in at.1 as usize - 8..at.1 as usize + 9 {
        for x in at.0 as usize - 8..at.0 as usize + 9 {
            let (dx, dy) = ((x as f32 - at.0) / size.0, (y as f32 - at.1) / size.1);
            let cover =
                ((1.0 - (dx * dx + dy * dy).sqrt()) * size.0.min(size.1) + 0.5).clamp(0.0, 1.0);
            let light = &mut frame.0[y * FILM.0 + x];
            *light += (tone - *light) * cover;
        }
    }
}

fn between(frame: &Frame, x: f32, y: f32) -> f32 {
    let (x, y) = (
        x.clamp(0.0, FILM.0 as f32 - 1.01),
        y.clamp(0.0, FILM.1 as f32 - 1.01),
    );
    let (i, j) = (x as usize, y as usize);
    let (fx, fy) = (x - i as f32, y - j as f32);
    let at = |x: usize, y: usize| frame.0[y * FILM.0 + x];
    let top = at(i, j) * (1.0 - fx) + at(i + 1, j) * fx;
    top * (1.0 - fy) + (at(i, j + 1) * (1.0 - fx) + at(i + 1, j + 1) * fx) * fy
}

fn softened(frame: &Frame) -> Frame {
    each(|x, y| {
        let mut sum = 0.0;
        for (dy, v) in [(0, 1.0), (1, 2.0), (2, 1.0)] {
            for (dx, u) in [(0, 1.0), (1, 2.0), (2, 1.0)] {
                let (x, y) = ((x + dx).saturating_sub(1), (y + dy).saturating_sub(1));
                sum += u * v * frame.0[y.min(FILM.1 - 1) * FILM.0 + x.min(FILM.0 - 1)];
            }
        }
        sum / 16.0
    })
}

/// Prints a film, dirt and all.
pub(crate) fn print(film: &Film, printer: &Printer, chance: &mut Chance) -> Film {
    let frame = |frame: &Frame, chance: &mut Chance| {
        let weave = (0.4 * chance.normal(), 0.4 * chance.normal());
        let mut soft = each(|x, y| between(frame, x as f32 + weave.0, y as f32 + weave.1));
        (0..printer.soft).for_each(|_| soft = softened(&soft));
        each(|x, y| {
            let level = 110.0 + (soft.0[y * FILM.0 + x] - 110.0) * printer.contrast;
            let [left, right, top, bottom] = printer.crop;
            let (x, y) = (x as f32, y as f32);
            let inside = (x - left)
                .min(FILM.0 as f32 - right - x)
                .min(y - top)
                .min(FILM.1 as f32 - bottom - y);
            let open = (inside / 1.5 + 0.5).clamp(0.0, 1.0);
            12.0 + (level.clamp(12.0, 250.0) + printer.grain * chance.normal() - 12.0) * open
        })
    };
    Film(
        film.0
            .iter()
            .map(|place| [0, 1, 2].map(|i| frame(&place[i], chance)))
            .collect(),
    )
}

/// Scans a film: its border about it, the scanner's own size, place, focus, setting, noise.
pub(crate) fn scan(film: &Film, chance: &mut Chance) -> Vec<[ScanPicture; 3]> {
    let size = chance.between(0.95, 1.06);
    let place = (chance.between(-4.0, 4.0), chance.between(-4.0, 4.0));
    let focus = chance.between(0.0, 0.6);
    let gain = chance.between(0.85, 1.1);
    let frame = |frame: &Frame, chance: &mut Chance| {
        let weave = (
            place.0 + 0.4 * chance.normal(),
            place.1 + 0.4 * chance.normal(),
        );
        let soft = softened(frame);
        let mut rgb = Vec::new();
        let (width, height) = (FILM.0 + 2 * BORDER, FILM.1 + 2 * BORDER);
        for y in 0..height {
            for x in 0..width {
                let middle = |long: usize| long as f32 / 2.0;
                let u = (x as f32 - middle(width) - weave.0) / size + middle(FILM.0);
                let v = (y as f32 - middle(height) - weave.1) / size + middle(FILM.1);
                let inside = u.min(FILM.0 as f32 - u).min(v).min(FILM.1 as f32 - v);
                let open = (inside / 1.5 + 0.5).clamp(0.0, 1.0);
                let film = between(frame, u, v) * (1.0 - focus) + between(&soft, u, v) * focus;
                let level = (12.0 + (film - 12.0) * open) * gain + chance.normal();
                rgb.extend([level.clamp(0.0, 255.0) as u8; 3]);
            }
        }
        ScanPicture::new(width, height, rgb).expect("a scan")
    };
    film.0
        .iter()
        .map(|place| [0, 1, 2].map(|i| frame(&place[i], chance)))
        .collect()
}
