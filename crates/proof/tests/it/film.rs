//! Film to make strips of: planes of 192 × 144, from the example and from real clips.

use std::ops::ControlFlow;
use std::path::Path;
use std::sync::OnceLock;

use onestrand_intake::{Cancel, Ffmpeg, Making, ReadOptions, Source, read};
use onestrand_proof::{GreyPicture, RollSketches, Sketch};

use crate::chance::Chance;

pub(crate) const WIDE: usize = 192;
pub(crate) const HIGH: usize = 144;

/// A roll as planes.
pub(crate) struct Film {
    pub(crate) planes: Vec<Vec<u8>>,
    sketched: OnceLock<Vec<Sketch>>,
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
        Self {
            planes,
            sketched: OnceLock::new(),
        }
    }

    /// Its frames as they are, to tell what moves in it.
    pub(crate) fn sketched(&self) -> &[Sketch] {
        self.sketched.get_or_init(|| {
            let sketch =
                |plane: &Vec<u8>| Sketch::of(GreyPicture::new(WIDE, HIGH, plane).expect("a plane"));
            self.planes.iter().map(sketch).collect()
        })
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
