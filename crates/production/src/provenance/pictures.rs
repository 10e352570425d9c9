//! Frames out of the scans, at the size at which a gate's edge is measured.

use std::collections::BTreeMap;
use std::ops::ControlFlow;

use onestrand_compose::{FilmForm, FilmPicture, MadeOf, Scan, fetch_film};
use onestrand_film::FrameRange;
use onestrand_intake::{Cancel, Ffmpeg, PixelLayout, Source};
use onestrand_provenance::ScanPicture;
use onestrand_store::Workprints;

use super::reels::Reel;
use crate::ProductionError;
use crate::error::unfit;
use crate::finish::{frame_index, reopen};

/// Wider pictures are made smaller by whole numbers: an edge is found to a part of a pixel.
/// Unit: pixels.
const WIDEST: usize = 1_400;

/// Fetches frames of a reel, which rise, and hands each on with its place among them. A
/// frame that no scan shows is left out.
///
/// # Errors
/// [`ProductionError::Compose`] and [`ProductionError::Intake`] of the scan,
/// [`ProductionError::ScanChanged`], [`ProductionError::Store`].
pub(super) fn fetch(
    reel: &Reel,
    wanted: &[u32],
    cancel: &Cancel,
    sink: &mut dyn FnMut(usize, ScanPicture) -> Result<(), ProductionError>,
) -> Result<(), ProductionError> {
    let ffmpeg = Ffmpeg::locate()?;
    let mut prints = Workprints::open(&reel.dir)?;
    for (part, frames) in by_part(reel, wanted, &mut prints)? {
        let source = reopen(&reel.dir, &reel.record, part, &ffmpeg, cancel)?;
        let index = frame_index(&prints.part_index(&reel.record.name, part)?);
        let (names, made_of): (Vec<usize>, Vec<MadeOf>) = frames.into_iter().unzip();
        let mut problem = None;
        let mut take = |picture: FilmPicture| {
            let name = names.get(picture.place).copied().unwrap_or_default();
            let handed = small(&source, &picture.bytes).and_then(|p| sink(name, p));
            match handed {
                Ok(()) => ControlFlow::Continue(()),
                Err(found) => {
                    problem = Some(found);
                    ControlFlow::Break(())
                }
            }
        };
        let scan = Scan {
            source: &source,
            index: &index,
        };
        let form = FilmForm::Raw(PixelLayout::nearest("rgb24"));
        fetch_film(&ffmpeg, scan, &made_of, form, cancel, &mut take)?;
        if let Some(found) = problem {
            return Err(found);
        }
    }
    Ok(())
}

/// Places among the frames wanted, with what each is made of, by scan.
type ByPart = BTreeMap<u32, Vec<(usize, MadeOf)>>;

fn by_part(
    reel: &Reel,
    wanted: &[u32],
    prints: &mut Workprints,
) -> Result<ByPart, ProductionError> {
    let mut parts = ByPart::new();
    for (place, &frame) in wanted.iter().enumerate() {
        let range = FrameRange::of(frame, frame + 1)?;
        for row in prints.rows(&reel.record.name, range)? {
            if let Some((part, file_frame)) = row.shown_by {
                let put_together = row.made_of.as_deref().and_then(MadeOf::parse);
                let made_of = put_together.unwrap_or(MadeOf::One(file_frame));
                parts.entry(part).or_default().push((place, made_of));
            }
        }
    }
    Ok(parts)
}

/// The picture, smaller by a whole number where it is very wide.
fn small(source: &Source, rgb: &[u8]) -> Result<ScanPicture, ProductionError> {
    let facts = source.facts();
    let (width, height) = (facts.width as usize, facts.height as usize);
    if rgb.len() != width * height * 3 {
        return Err(unfit(
            "the scan gives pictures of another size than it says".to_owned(),
            "read the roll again",
        ));
    }
    let by = width.div_ceil(WIDEST);
    if by == 1 {
        return Ok(ScanPicture::new(width, height, rgb.to_vec())?);
    }
    let (w, h) = (width / by, height / by);
    let mut out = Vec::with_capacity(w * h * 3);
    for y in 0..h {
        for x in 0..w {
            for channel in 0..3 {
                out.push(mean(rgb, width, (x * by, y * by), by, channel));
            }
        }
    }
    Ok(ScanPicture::new(w, h, out)?)
}

/// The mean of one channel over some pixels.
fn mean(rgb: &[u8], width: usize, (x, y): (usize, usize), by: usize, channel: usize) -> u8 {
    let mut sum = 0_usize;
    for row in y..y + by {
        for column in x..x + by {
            sum += usize::from(rgb[(row * width + column) * 3 + channel]);
        }
    }
    u8::try_from(sum / (by * by)).unwrap_or(u8::MAX)
}
