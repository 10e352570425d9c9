//! The walk over a cut.

use std::ops::{ControlFlow, Range};
use std::path::{Path, PathBuf};

use onestrand_compose::{FilmForm, FilmPicture, MadeOf, Scan, fetch_film};
use onestrand_film::Fps;
use onestrand_intake::{Cancel, Ffmpeg, FrameIndex, Source};

use crate::{Coding, FilmWriter, FinishError, PictureForm};

/// A scan that frames are taken from.
#[derive(Debug)]
pub struct FinishScan {
    /// The scan, opened read-only.
    pub source: Source,
    /// How its file frames are found.
    pub index: FrameIndex,
}

/// What stands at one place of the finish.
#[derive(Debug, Clone, PartialEq)]
pub enum Place {
    /// A film frame out of a scan.
    Shown {
        /// Which of the scans.
        scan: usize,
        /// Which of its file frames give it.
        made_of: MadeOf,
    },
    /// Leader, a card still to be photographed, or a frame no scan shows: black.
    Black,
}

/// A finish to be made.
#[derive(Debug)]
pub struct FinishPlan {
    /// The scans.
    pub scans: Vec<FinishScan>,
    /// What stands at each place, in order.
    pub places: Vec<Place>,
    /// Frames a second of the finish.
    pub speed: Fps,
    /// Written into the file.
    pub title: String,
    /// Where it goes; the folder must be there.
    pub path: PathBuf,
}

/// Makes the finish. `progress` is told the number of frames made.
///
/// # Errors
/// [`FinishError`]; nothing half-made is left.
pub fn make(
    ffmpeg: &Ffmpeg,
    plan: &FinishPlan,
    cancel: &Cancel,
    progress: &mut dyn FnMut(u64),
) -> Result<u64, FinishError> {
    if plan.places.is_empty() {
        return Err(FinishError::Empty);
    }
    let form = common_form(&plan.scans)?;
    keep_off_scans(&plan.path, &plan.scans)?;
    let mut writer = FilmWriter::begin(
        ffmpeg,
        &plan.path,
        &form,
        plan.speed,
        Coding::Ffv1,
        &plan.title,
    )?;
    let black = black_picture(&form);
    let mut made = 0;
    for run in runs(&plan.places) {
        let wanted = made_of(&plan.places[run.clone()]);
        match &plan.places[run.start] {
            Place::Black => {
                for _ in run {
                    writer.push(&black)?;
                    made += 1;
                    progress(made);
                    stop_if(cancel, made)?;
                }
            }
            Place::Shown { scan, .. } => {
                let walk = Walk {
                    ffmpeg,
                    scan: &plan.scans[*scan],
                    form: &form,
                    cancel,
                };
                walk.copy(&wanted, &mut writer, &mut made, progress)?;
            }
        }
    }
    writer.finish()
}

fn stop_if(cancel: &Cancel, frames: u64) -> Result<(), FinishError> {
    if cancel.is_cancelled() {
        return Err(FinishError::Cancelled { frames });
    }
    Ok(())
}

/// The form that all scans share.
fn common_form(scans: &[FinishScan]) -> Result<PictureForm, FinishError> {
    let mut forms = scans.iter().map(|scan| form_of(&scan.source));
    let first = forms.next().ok_or(FinishError::NoScan)?;
    match forms.find(|form| *form != first) {
        None => Ok(first),
        Some(other) => Err(FinishError::UnlikeScans {
            first: in_words(&first),
            second: in_words(&other),
        }),
    }
}

fn in_words(form: &PictureForm) -> String {
    let (across, down) = form.pixel_aspect;
    let name = form.layout.name();
    format!("{} × {} {name} {across}:{down}", form.width, form.height)
}

fn form_of(source: &Source) -> PictureForm {
    let facts = source.facts();
    PictureForm {
        width: facts.width,
        height: facts.height,
        layout: source.native_layout(),
        pixel_aspect: (facts.pixel_aspect.num, facts.pixel_aspect.den),
        colour: [
            facts.range.clone(),
            facts.matrix.clone(),
            facts.primaries.clone(),
            facts.transfer.clone(),
        ],
    }
}

/// A finish must never be written over a scan.
fn keep_off_scans(path: &Path, scans: &[FinishScan]) -> Result<(), FinishError> {
    let Ok(target) = path.canonicalize() else {
        return Ok(());
    };
    for scan in scans {
        let original = scan.source.path().canonicalize();
        if original.is_ok_and(|original| target.starts_with(original)) {
            return Err(FinishError::WouldReplaceScan {
                path: path.to_owned(),
            });
        }
    }
    Ok(())
}

/// Stretches of places that one fetch can serve: one scan, rising.
fn runs(places: &[Place]) -> Vec<Range<usize>> {
    let mut out: Vec<Range<usize>> = Vec::new();
    for (at, place) in places.iter().enumerate() {
        match out.last_mut() {
            Some(run) if follows(&places[at - 1], place) => run.end = at + 1,
            _ => out.push(at..at + 1),
        }
    }
    out
}

fn follows(before: &Place, after: &Place) -> bool {
    match (before, after) {
        (Place::Black, Place::Black) => true,
        (
            Place::Shown { scan, made_of },
            Place::Shown {
                scan: next_scan,
                made_of: next,
            },
        ) => {
            let (ends, next) = (made_of.ends(), next.ends());
            scan == next_scan && ends.0 <= next.0 && ends.1 <= next.1
        }
        _ => false,
    }
}

fn made_of(places: &[Place]) -> Vec<MadeOf> {
    let one = |place: &Place| match place {
        Place::Shown { made_of, .. } => Some(made_of.clone()),
        Place::Black => None,
    };
    places.iter().filter_map(one).collect()
}

struct Walk<'a> {
    ffmpeg: &'a Ffmpeg,
    scan: &'a FinishScan,
    form: &'a PictureForm,
    cancel: &'a Cancel,
}

impl Walk<'_> {
    fn copy(
        &self,
        wanted: &[MadeOf],
        writer: &mut FilmWriter,
        made: &mut u64,
        progress: &mut dyn FnMut(u64),
    ) -> Result<(), FinishError> {
        let mut problem = None;
        let mut sink = |frame: FilmPicture| {
            if let Err(found) = writer.push(&frame.bytes) {
                problem = Some(found);
                return ControlFlow::Break(());
            }
            *made += 1;
            progress(*made);
            ControlFlow::Continue(())
        };
        let scan = Scan {
            source: &self.scan.source,
            index: &self.scan.index,
        };
        let form = FilmForm::Raw(self.form.layout);
        fetch_film(self.ffmpeg, scan, wanted, form, self.cancel, &mut sink)?;
        match problem {
            Some(found) => Err(found),
            None => stop_if(self.cancel, *made),
        }
    }
}

/// Black in the form's own numbers: level 16 of 219 steps where the range is
/// not tagged full (ITU-R BT.601 and BT.709), neutral colour half way.
fn black_picture(form: &PictureForm) -> Vec<u8> {
    let name = form.layout.name();
    let bytes = usize::try_from(form.bytes()).unwrap_or(0);
    let is_yuv = name.starts_with("yuv");
    let is_full = !is_yuv || name.starts_with("yuvj") || form.colour[0].as_deref() == Some("pc");
    let bits = form.layout.bits();
    let scale = 1_u16 << (bits.clamp(8, 16) - 8).min(8);
    let luma_level = if is_full { 0 } else { 16 * scale };
    let mut out = Vec::with_capacity(bytes);
    let wide = bits > 8;
    let mut fill = |level: u16, upto: usize| {
        while out.len() < upto {
            if wide {
                out.extend_from_slice(&level.to_le_bytes());
            } else {
                out.push(u8::try_from(level).unwrap_or(0));
            }
        }
    };
    if !is_yuv {
        fill(0, bytes);
        return out;
    }
    let luma = form.width as usize * form.height as usize * if wide { 2 } else { 1 };
    fill(luma_level, luma.min(bytes));
    fill(128 * scale, bytes);
    out.truncate(bytes);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(scan: usize, file_frame: u64) -> Place {
        let made_of = MadeOf::One(file_frame);
        Place::Shown { scan, made_of }
    }

    #[test]
    fn places_fall_into_rising_runs_of_one_scan() {
        let places = [
            shown(0, 5),
            shown(0, 6),
            shown(0, 2),
            shown(1, 3),
            Place::Black,
            Place::Black,
            shown(1, 4),
            shown(1, 4),
        ];
        assert_eq!(runs(&places), [0..2, 2..3, 3..4, 4..6, 6..8]);
    }
}
