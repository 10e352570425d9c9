//! A loose strip in a photograph: where its frames are.

mod across;
mod beside;
mod blobs;
mod chain;
mod curve;
mod joined;
mod layout;
mod light;
mod line;
mod patch;
mod row;
mod slant;

use onestrand_film::Gauge;

use crate::grey::{GreyOwned, GreyPicture};
use crate::sketch::Sketch;

pub(crate) use patch::MARGIN;

/// What the frames of a strip were found by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FoundBy {
    /// The row of its perforations.
    Perforations,
    /// The outline of the strip, or a picture that is nothing but frames in a row.
    Outline,
}

/// What is seen beyond an end of the frames that were read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Beyond {
    /// The light box, or what else lies around the strip: it ends here.
    #[default]
    Ends,
    /// Something lies there: the strip may go on below it.
    Hidden,
    /// The edge of the photograph: the strip may go on beside it.
    OutOfPicture,
}

/// A frame of a strip in a photograph.
#[derive(Debug, Clone)]
pub struct StripFrame {
    /// Its place along the strip, from 0; numbers may be left out where something lies
    /// over the strip.
    pub place: i32,
    /// The corners of its picture in the photograph, clockwise from where its top left
    /// is when the strip is laid with its holes left. Unit: pixels.
    pub corners: [(f32, f32); 4],
    /// It lies within the row that was found, not beside its end where film may be no
    /// more.
    pub(crate) within: bool,
    /// The picture with a margin of an eighth of its sides all round.
    pub(crate) patch: GreyOwned,
}

impl StripFrame {
    /// The frame's picture with a margin of an eighth of its sides all round, as it is
    /// seen with the holes left: pixels across, pixels down, and a byte a pixel.
    #[must_use]
    pub fn picture(&self) -> (usize, usize, &[u8]) {
        (self.patch.width, self.patch.height, &self.patch.levels)
    }
}

/// Frames that may be a strip: one reading of a photograph.
#[derive(Debug, Clone)]
pub struct FoundStrip {
    /// What it was found by.
    pub by: FoundBy,
    /// Its frames in order.
    pub frames: Vec<StripFrame>,
    /// What is seen before its first frame and behind its last.
    pub beyond: (Beyond, Beyond),
    /// Direction in the photograph in which the top of the frames points, unless they
    /// turn out to lie otherwise. Unit: pixels.
    pub up: (f32, f32),
}

/// The longest side of a picture in which holes are looked for. Unit: pixels.
const LOOKED_AT: usize = 2_000;

/// Finds what may be a strip of film in a photograph: by its perforations where there
/// are any, else by its outline. Several readings may come, the likeliest first;
/// which is right is seen when their frames are looked for. None: there is no film.
///
/// # Examples
/// ```
/// use onestrand_film::Gauge;
/// use onestrand_proof::{GreyPicture, find_strips};
/// let empty = vec![240; 640 * 480];
/// let photo = GreyPicture::new(640, 480, &empty)?;
/// assert!(find_strips(photo, Gauge::Super8).is_empty());
/// # Ok::<(), onestrand_proof::ProofError>(())
/// ```
#[must_use]
pub fn find_strips(photo: GreyPicture<'_>, gauge: Gauge) -> Vec<FoundStrip> {
    let by = photo.width().max(photo.height()).div_ceil(LOOKED_AT).max(1);
    let small = photo.reduced(by);
    let mut found = chain::by_perforations(photo, (small.borrowed(), by), gauge);
    let in_rows = row::by_outline(photo, (small.borrowed(), by), gauge);
    // Where nothing is seen there are no pictures.
    let shows = |frame: &StripFrame| !Sketch::of(frame.patch.borrowed()).is_blank();
    found.extend(
        in_rows
            .into_iter()
            .filter(|strip| strip.frames.iter().any(shows)),
    );
    found
}
