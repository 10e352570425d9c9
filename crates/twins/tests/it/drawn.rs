//! Drawn takes: figures that go about over ground that stands still.

use crate::retake::{Chance, HEIGHT, Retake, WIDTH};
use onestrand_film::FramePos;
use onestrand_twins::{GreyPicture, MovementReader, TakeMovement};

/// A figure that wanders: two slow waves and a quicker one each way.
struct Figure {
    size: f32,
    tone: f32,
    waves: [[(f32, f32, f32); 3]; 2],
}

impl Figure {
    fn new(chance: &mut Chance) -> Self {
        let mut wave = |reach: f32, slowest: f32| {
            let period = slowest * (0.6 + 0.8 * chance.share());
            (reach, std::f32::consts::TAU / period, 6.3 * chance.share())
        };
        let mut waves = || [wave(45.0, 260.0), wave(22.0, 97.0), wave(7.0, 31.0)];
        let waves = [waves(), waves()];
        Self {
            size: 7.0 + 8.0 * chance.share(),
            tone: 20.0 + 200.0 * chance.share(),
            waves,
        }
    }

    fn at(&self, time: f32) -> (f32, f32) {
        let [right, down] = self.waves.map(|waves| {
            let sum = waves
                .iter()
                .map(|(reach, speed, from)| reach * (speed * time + from).sin());
            sum.sum::<f32>()
        });
        (WIDTH as f32 / 2.0 + right, HEIGHT as f32 / 2.0 + 0.7 * down)
    }
}

/// Ground with things on it that stand still.
fn ground(chance: &mut Chance) -> Vec<f32> {
    let mut ground = vec![0.0; WIDTH * HEIGHT];
    let (tilt, light) = (40.0 * chance.share(), 90.0 + 50.0 * chance.share());
    for (at, level) in ground.iter_mut().enumerate() {
        *level = light + tilt * (at / WIDTH) as f32 / HEIGHT as f32;
    }
    for _ in 0..60 {
        let (x, y) = (
            WIDTH as f32 * chance.share(),
            HEIGHT as f32 * chance.share(),
        );
        let (size, tone) = (2.0 + 9.0 * chance.share(), 40.0 + 150.0 * chance.share());
        disc(&mut ground, (x, y), size, tone);
    }
    ground
}

fn disc(plane: &mut [f32], (x, y): (f32, f32), size: f32, tone: f32) {
    let reach = |middle: f32, pixels: usize| {
        let from = (middle - size - 1.0).clamp(0.0, pixels as f32) as usize;
        from..(middle + size + 2.0).clamp(0.0, pixels as f32) as usize
    };
    for row in reach(y, HEIGHT) {
        for column in reach(x, WIDTH) {
            let off = (column as f32 - x).hypot(row as f32 - y);
            let level = &mut plane[row * WIDTH + column];
            *level += (tone - *level) * (size - off + 0.5).clamp(0.0, 1.0);
        }
    }
}

fn levels(plane: &[f32]) -> Vec<u8> {
    plane
        .iter()
        .map(|level| level.round().clamp(0.0, 255.0) as u8)
        .collect()
}

/// Three figures that go about.
pub(crate) fn walkers(seed: u64, frames: usize) -> Vec<Vec<u8>> {
    let mut chance = Chance(seed);
    let ground = ground(&mut chance);
    let figures: Vec<Figure> = (0..3).map(|_| Figure::new(&mut chance)).collect();
    let frame = |time: usize| {
        let mut plane = ground.clone();
        for figure in &figures {
            disc(&mut plane, figure.at(time as f32), figure.size, figure.tone);
        }
        levels(&plane)
    };
    (0..frames).map(frame).collect()
}

/// The ground alone.
pub(crate) fn still(seed: u64, frames: usize) -> Vec<Vec<u8>> {
    vec![levels(&ground(&mut Chance(seed))); frames]
}

/// Nothing but noise, each frame anew.
pub(crate) fn noise(seed: u64, frames: usize) -> Vec<Vec<u8>> {
    let mut chance = Chance(seed);
    let mut frame = || {
        let level = |_| (128.0 + 40.0 * chance.normal()).clamp(0.0, 255.0) as u8;
        (0..WIDTH * HEIGHT).map(level).collect()
    };
    (0..frames).map(|_| frame()).collect()
}

/// One figure that goes to and fro, the same each time and each way.
pub(crate) fn pendulum(frames: usize) -> Vec<Vec<u8>> {
    let ground = ground(&mut Chance(5));
    let frame = |time: usize| {
        let mut plane = ground.clone();
        let swing = (std::f32::consts::TAU * time as f32 / 24.0).sin();
        disc(&mut plane, (96.0 + 50.0 * swing, 72.0), 12.0, 20.0);
        levels(&plane)
    };
    (0..frames).map(frame).collect()
}

/// A take read from planes, beginning with this frame of its roll.
pub(crate) fn take(first: u32, planes: &[impl AsRef<[u8]>]) -> TakeMovement {
    let mut reader = MovementReader::new(FramePos::new(first).expect("a frame"));
    for plane in planes {
        let picture = GreyPicture::new(WIDTH, HEIGHT, plane.as_ref()).expect("a plane");
        reader.push(picture).expect("all of one size");
    }
    reader.finish().expect("there are frames")
}

/// A retake of planes, read.
pub(crate) fn retaken(source: &[impl AsRef<[u8]>], retake: &Retake, first: u32) -> TakeMovement {
    let source: Vec<&[u8]> = source.iter().map(AsRef::as_ref).collect();
    take(first, &retake.planes(&source, usize::MAX))
}
