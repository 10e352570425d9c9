//! Parts of the example film, as a scan of it would be measured.

use onestrand_example::{FRAME_BYTES, HEIGHT, RollPainter, WIDTH, takes};
use onestrand_inspect::{PLANE_HEIGHT, PLANE_WIDTH, PlaneRef};
use onestrand_signs::{SignReader, SignRecord};
use std::ops::Range;

/// Some takes of a roll, read as if the roll began with them.
pub(crate) struct ReadPart {
    pub(crate) record: SignRecord,
    /// The roll's frame that is the first here.
    pub(crate) first: u32,
    pub(crate) takes: Vec<Range<u32>>,
    /// Their names.
    pub(crate) names: Vec<String>,
}

impl ReadPart {
    /// Reads all takes of a roll that lie within some frames, without gap.
    pub(crate) fn of(roll: u8, frames: Range<u32>) -> Self {
        let inside = |from: u32, until: u32| from >= frames.start && until <= frames.end;
        let mut of_roll: Vec<_> = takes()
            .iter()
            .filter(|take| take.roll == roll && inside(take.span_in, take.span_out))
            .collect();
        of_roll.sort_by_key(|take| take.span_in);
        let first = of_roll.first().map_or(0, |take| take.span_in);
        let end = of_roll.last().map_or(0, |take| take.span_out);
        let painter = RollPainter::new(roll).expect("a roll of the film");
        let mut reader = SignReader::new();
        let mut picture = vec![0; FRAME_BYTES];
        for number in first..end {
            painter.paint(number, &mut picture).expect("a frame of it");
            let plane = by_area(&picture);
            reader.push(PlaneRef::new(&plane).expect("a plane"));
        }
        Self {
            record: reader.finish(),
            first,
            takes: of_roll
                .iter()
                .map(|take| take.span_in - first..take.span_out - first)
                .collect(),
            names: of_roll.iter().map(|take| take.name()).collect(),
        }
    }

    /// Frames of the roll, as frames here.
    pub(crate) fn here(&self, span: Range<u32>) -> Range<u32> {
        span.start - self.first..span.end - self.first
    }

    /// The take of a name, as frames here.
    pub(crate) fn take(&self, name: &str) -> Range<u32> {
        let place = self.names.iter().position(|own| own == name);
        self.takes[place.expect("it was read")].clone()
    }
}

/// The plane of a picture, each pixel the mean of what it covers.
fn by_area(picture: &[u8]) -> Vec<u8> {
    let grey: Vec<f32> = picture
        .chunks_exact(3)
        .map(|c| 0.299 * f32::from(c[0]) + 0.587 * f32::from(c[1]) + 0.114 * f32::from(c[2]))
        .collect();
    let (wide, high) = (WIDTH as usize, HEIGHT as usize);
    let across = covers(wide, PLANE_WIDTH);
    let down = covers(high, PLANE_HEIGHT);
    let mut narrow = vec![0.0_f32; PLANE_WIDTH * high];
    for y in 0..high {
        for (x, parts) in across.iter().enumerate() {
            let sum = parts.iter().map(|(at, part)| grey[y * wide + at] * part);
            narrow[y * PLANE_WIDTH + x] = sum.sum();
        }
    }
    let mut plane = Vec::with_capacity(PLANE_WIDTH * PLANE_HEIGHT);
    for parts in &down {
        for x in 0..PLANE_WIDTH {
            let sum = parts
                .iter()
                .map(|(at, part)| narrow[at * PLANE_WIDTH + x] * part);
            plane.push(sum.sum::<f32>().round() as u8);
        }
    }
    plane
}

/// Which pixels each pixel of a shorter row covers, and by what part of itself.
fn covers(long: usize, short: usize) -> Vec<Vec<(usize, f32)>> {
    let size = long as f32 / short as f32;
    (0..short)
        .map(|at| {
            let (from, until) = (at as f32 * size, (at + 1) as f32 * size);
            (from as usize..(until.ceil() as usize).min(long))
                .map(|pixel| {
                    let covered = until.min(pixel as f32 + 1.0) - from.max(pixel as f32);
                    (pixel, covered / size)
                })
                .collect()
        })
        .collect()
}
