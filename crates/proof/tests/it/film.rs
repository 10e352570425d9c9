//! Film to make strips of: planes of 192 × 144, from the example and from real clips.

use std::ops::ControlFlow;
use std::path::Path;

use onestrand_example::{FRAME_BYTES, HEIGHT, RollPainter, WIDTH};
use onestrand_intake::{Cancel, Ffmpeg, Making, ReadOptions, Source, read};
use onestrand_proof::{GreyPicture, RollSketches, Sketch};

use crate::chance::Chance;

pub(crate) const WIDE: usize = 192;
pub(crate) const HIGH: usize = 144;

/// A roll as planes.
pub(crate) struct Film {
    pub(crate) planes: Vec<Vec<u8>>,
}

impl Film {
    /// A film of the folder of test media.
    pub(crate) fn clip(name: &str) -> Self {
        let path = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../../tests/media/video")
            .join(name);
        let ffmpeg = Ffmpeg::locate().expect("FFmpeg is here");
        let (source, _) = Source::open(&ffmpeg, &[path]).expect("a film");
        let options = ReadOptions {
            making: Making::PlanesOnly,
            decode_threads: 1,
            ..ReadOptions::default()
        };
        let mut planes = Vec::new();
        let mut sink = |frame: onestrand_intake::FileFrame| {
            planes.push(frame.plane.into_bytes());
            ControlFlow::Continue(())
        };
        read(&ffmpeg, &source, &options, &Cancel::new(), &mut sink).expect("it can be read");
        Self { planes }
    }

    /// Frames of a roll of the example.
    pub(crate) fn example(roll: u8, frames: std::ops::Range<u32>) -> Self {
        let painter = RollPainter::new(roll).expect("a roll of the example");
        let mut rgb = vec![0; FRAME_BYTES];
        let planes = frames.map(|frame| {
            painter.paint(frame, &mut rgb).expect("a frame of the roll");
            scaled(&rgb)
        });
        Self {
            planes: planes.collect(),
        }
    }

    /// Its sketches as another scanner would have seen it: a little less of each frame,
    /// noise of its own.
    pub(crate) fn sketches(&self, seed: u64) -> RollSketches {
        let mut chance = Chance::new(seed);
        let mut roll = RollSketches::new();
        for plane in &self.planes {
            let noisy: Vec<u8> = plane
                .iter()
                .map(|&v| (f32::from(v) + 2.5 * chance.normal()).clamp(0.0, 255.0) as u8)
                .collect();
            let sketch = Sketch::of(GreyPicture::new(WIDE, HIGH, &noisy).expect("a plane"));
            roll.push(Some(&sketch));
        }
        roll
    }
}

/// The example's frame in grey, made a plane.
fn scaled(rgb: &[u8]) -> Vec<u8> {
    let (w, h) = (WIDTH as usize, HEIGHT as usize);
    let mut sums = vec![(0_u32, 0_u32); WIDE * HIGH];
    for (at, pixel) in rgb.chunks_exact(3).enumerate() {
        let (x, y) = (at % w * WIDE / w, at / w * HIGH / h);
        let [r, g, b] = [pixel[0], pixel[1], pixel[2]].map(u32::from);
        let sum = &mut sums[y * WIDE + x];
        *sum = (sum.0 + (299 * r + 587 * g + 114 * b) / 1000, sum.1 + 1);
    }
    sums.iter()
        .map(|&(sum, n)| (sum / n.max(1)) as u8)
        .collect()
}
