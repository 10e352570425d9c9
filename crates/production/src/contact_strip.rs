//! Many small pictures in one file: fetched once, shown at many places.

use onestrand_film::FrameRange;
use onestrand_store::Workprints;

use crate::ProductionError;
use crate::small_pictures::{Small, encode, scaled_down, scaled_size};

/// The most pictures on one contact strip.
pub const CONTACT_STRIP_MAX: usize = 480;

/// Pictures in one column.
const COLUMN: u32 = 24;
/// A cell is made of whole squares of the coding, so that no picture shows a
/// trace of its neighbour. Unit: pixels.
const SQUARE: u32 = 8;
/// All the pictures of a strip together: 480 of 320×200. Unit: pixels.
const PIXELS_MAX: u64 = 32_000_000;
/// What stands where there is no picture.
const MID_GREY: u8 = 128;

/// The pictures of some frames of a roll in one JPEG, one under another in
/// columns: the first column from the top, then the next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ContactStrip {
    /// The picture of it all.
    pub jpeg: Vec<u8>,
    /// Width and height of one frame's picture, at the head and left of its
    /// cell. Unit: pixels.
    pub picture: (u32, u32),
    /// Width and height of a cell: the way from one picture to the next. Unit:
    /// pixels.
    pub cell: (u32, u32),
    /// Columns.
    pub columns: u32,
    /// Pictures in a column; the last column may hold fewer.
    pub rows: u32,
}

impl ContactStrip {
    /// Where the picture of the nth frame asked for begins, across and down.
    /// Unit: pixels.
    #[must_use]
    pub const fn place(&self, nth: u32) -> (u32, u32) {
        (nth / self.rows * self.cell.0, nth % self.rows * self.cell.1)
    }
}

/// Makes one JPEG of the pictures of these frames, in the order given, each at
/// least so large (see [`crate::small_picture`]). A frame without a picture is
/// flat mid-grey.
///
/// # Errors
/// [`ProductionError::Unfit`] for no frame, more than [`CONTACT_STRIP_MAX`], or
/// pictures that are too large for so many,
/// [`ProductionError::Picture`], [`ProductionError::Store`].
pub fn contact_strip(
    prints: &mut Workprints,
    roll: &str,
    frames: &[u32],
    at_least: (u16, u16),
) -> Result<ContactStrip, ProductionError> {
    if frames.is_empty() || frames.len() > CONTACT_STRIP_MAX {
        return Err(ProductionError::Unfit {
            message: format!("a contact strip of {} frames", frames.len()),
            hint: format!("ask for 1 to {CONTACT_STRIP_MAX} frames at a time"),
        });
    }
    let jpegs = fetch(prints, roll, frames)?;
    has_room(&jpegs, at_least)?;
    lay_out(&scale_all(&jpegs, at_least)?, at_least)
}

/// Looks before any picture is made whether the strip would become too large;
/// the pictures of a roll are of one size.
fn has_room(jpegs: &[Option<Vec<u8>>], at_least: (u16, u16)) -> Result<(), ProductionError> {
    let (width, height) = match jpegs.iter().flatten().next() {
        Some(jpeg) => scaled_size(jpeg, at_least)?,
        None => (at_least.0.into(), at_least.1.into()),
    };
    let side = |pixels: u32| u64::from(pixels.max(1).next_multiple_of(SQUARE));
    let pixels = side(width) * side(height) * jpegs.len() as u64;
    if pixels <= PIXELS_MAX {
        return Ok(());
    }
    Err(ProductionError::Unfit {
        message: format!("a contact strip of {pixels} pixels"),
        hint: format!("ask for smaller pictures or fewer of them; {PIXELS_MAX} pixels at most"),
    })
}

/// The pictures as the workprint has them, neighbours in one read.
fn fetch(
    prints: &mut Workprints,
    roll: &str,
    frames: &[u32],
) -> Result<Vec<Option<Vec<u8>>>, ProductionError> {
    let mut all = Vec::with_capacity(frames.len());
    for run in frames.chunk_by(|a, b| a.checked_add(1) == Some(*b)) {
        let (first, last) = (run[0], run[run.len() - 1]);
        let range = FrameRange::of(first, last.saturating_add(1))?;
        let mut found = prints.run(roll, range)?;
        found.resize(run.len(), None);
        all.append(&mut found);
    }
    Ok(all)
}

/// Scales them down, on every processor there is.
fn scale_all(
    jpegs: &[Option<Vec<u8>>],
    at_least: (u16, u16),
) -> Result<Vec<Option<Small>>, ProductionError> {
    let hands = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let share = jpegs.len().div_ceil(hands);
    let mut scaled: Vec<_> = jpegs.iter().map(|_| Ok(None)).collect();
    std::thread::scope(|scope| {
        for (jpegs, scaled) in jpegs.chunks(share).zip(scaled.chunks_mut(share)) {
            scope.spawn(move || {
                for (jpeg, place) in jpegs.iter().zip(scaled) {
                    let one = |jpeg: &Vec<u8>| scaled_down(jpeg, at_least);
                    *place = jpeg.as_ref().map(one).transpose();
                }
            });
        }
    });
    scaled.into_iter().collect()
}

fn lay_out(
    pictures: &[Option<Small>],
    at_least: (u16, u16),
) -> Result<ContactStrip, ProductionError> {
    let there = || pictures.iter().flatten();
    let picture = (
        there()
            .map(|p| p.width)
            .max()
            .unwrap_or(at_least.0.max(1).into()),
        there()
            .map(|p| p.height)
            .max()
            .unwrap_or(at_least.1.max(1).into()),
    );
    let cell = (
        picture.0.next_multiple_of(SQUARE),
        picture.1.next_multiple_of(SQUARE),
    );
    let count = u32::try_from(pictures.len()).unwrap_or(u32::MAX);
    let rows = count.min(COLUMN);
    let mut strip = ContactStrip {
        jpeg: Vec::new(),
        picture,
        cell,
        columns: count.div_ceil(rows),
        rows,
    };
    let (width, height) = (strip.columns * cell.0, rows * cell.1);
    let mut sheet = vec![MID_GREY; (width * height * 3) as usize];
    for (nth, small) in (0..).zip(pictures) {
        if let Some(small) = small {
            lay(&mut sheet, width, &strip, strip.place(nth), small);
        }
    }
    strip.jpeg = encode(&sheet, width, height)?;
    Ok(strip)
}

/// Lays one picture into its cell, in the middle where it is smaller than the
/// others. What the cell has beyond the picture repeats the picture's edge:
/// grey there would shine into the last lines through the coding.
fn lay(sheet: &mut [u8], width: u32, strip: &ContactStrip, place: (u32, u32), small: &Small) {
    let left = (strip.picture.0 - small.width) / 2;
    let head = (strip.picture.1 - small.height) / 2;
    for y in 0..strip.cell.1 {
        let from = y.min(strip.picture.1 - 1);
        let Some(line) = from.checked_sub(head).filter(|l| *l < small.height) else {
            continue;
        };
        let source = &small.rgb[(line * small.width * 3) as usize..][..(small.width * 3) as usize];
        let start = ((place.1 + y) * width + place.0 + left) * 3;
        let target = &mut sheet[start as usize..];
        target[..source.len()].copy_from_slice(source);
        if small.width == strip.picture.0 {
            let beyond = ((strip.cell.0 - strip.picture.0) * 3) as usize;
            let edge = &source[source.len() - 3..];
            for (at, byte) in target[source.len()..][..beyond].iter_mut().enumerate() {
                *byte = edge[at % 3];
            }
        }
    }
}
