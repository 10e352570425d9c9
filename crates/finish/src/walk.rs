//! The walk over the places of a part.

use std::ops::{ControlFlow, Range};

use onestrand_compose::{FilmForm, FilmPicture, MadeOf, Scan, fetch_film};
use onestrand_intake::{Cancel, Ffmpeg};

use crate::coding::is_full;
use crate::drawn::draw;
use crate::{FilmWriter, FinishError, FinishPlan, PictureForm, Place, Treat};

/// Where pictures go: changed if they are to be, noted, and coded as often as the file
/// has them.
pub(crate) struct Bench<'a> {
    pub(crate) plan: &'a FinishPlan,
    pub(crate) fed: &'a PictureForm,
    pub(crate) writer: FilmWriter,
    pub(crate) treat: Option<&'a mut dyn Treat>,
    /// What each place shows, as the hash of its picture.
    pub(crate) seen: Vec<blake3::Hash>,
    /// The place that comes next.
    pub(crate) at: usize,
    pub(crate) progress: &'a mut dyn FnMut(u64),
    pub(crate) cancel: &'a Cancel,
}

impl Bench<'_> {
    fn push(&mut self, picture: &mut [u8], is_of_a_scan: bool) -> Result<(), FinishError> {
        let place = self.at as u64;
        let size = (self.fed.width, self.fed.height);
        if let Some(treat) = self.treat.as_deref_mut().filter(|_| is_of_a_scan) {
            treat.treat(place, picture, size)?;
        }
        self.seen.push(blake3::hash(picture));
        for _ in 0..self.plan.pattern.times(place) {
            self.writer.push(picture)?;
        }
        self.at += 1;
        (self.progress)(self.at as u64);
        stop_if(self.cancel, self.at as u64)
    }
}

/// Goes over these places, in order.
///
/// # Errors
/// [`FinishError`].
pub(crate) fn walk(
    ffmpeg: &Ffmpeg,
    bench: &mut Bench<'_>,
    places: Range<usize>,
) -> Result<(), FinishError> {
    let plan = bench.plan;
    for run in runs(&plan.places[places.clone()]) {
        let run = &plan.places[places.start + run.start..places.start + run.end];
        match &run[0] {
            Place::Black => {
                let mut black = black_picture(bench.fed);
                for _ in run {
                    bench.push(&mut black, false)?;
                }
            }
            Place::Card { card, .. } => {
                let film = plan.cards[*card].as_ref();
                draw(ffmpeg, film, &frames_of(run), bench.fed, &mut |picture| {
                    bench.push(picture, false)
                })?;
            }
            Place::Shown { scan, .. } => copy(ffmpeg, bench, *scan, &made_of(run))?,
        }
    }
    Ok(())
}

fn stop_if(cancel: &Cancel, frames: u64) -> Result<(), FinishError> {
    if cancel.is_cancelled() {
        return Err(FinishError::Cancelled { frames });
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

/// Places in parts of so many; a part whose end would fall into a run that ends soon
/// goes on to that end, and so does one that would leave only a few for the last part.
pub(crate) fn parts_at(places: &[Place], many: usize) -> Vec<Range<usize>> {
    let many = many.max(1);
    let ends: Vec<usize> = runs(places).into_iter().map(|run| run.end).collect();
    let mut out: Vec<Range<usize>> = Vec::new();
    let mut begin = 0;
    while begin < places.len() {
        let (least, most) = (begin + many, begin + many + many / 2);
        let end = match ends.iter().find(|end| **end >= least) {
            _ if places.len() <= most => places.len(),
            Some(end) if *end <= most => *end,
            _ => least,
        };
        out.push(begin..end);
        begin = end;
    }
    out
}

fn follows(before: &Place, after: &Place) -> bool {
    match (before, after) {
        (Place::Black, Place::Black) => true,
        (Place::Card { card, .. }, Place::Card { card: next, .. }) => card == next,
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
        Place::Black | Place::Card { .. } => None,
    };
    places.iter().filter_map(one).collect()
}

fn frames_of(places: &[Place]) -> Vec<u32> {
    let one = |place: &Place| match place {
        Place::Card { frame, .. } => Some(*frame),
        _ => None,
    };
    places.iter().filter_map(one).collect()
}

fn copy(
    ffmpeg: &Ffmpeg,
    bench: &mut Bench<'_>,
    scan: usize,
    wanted: &[MadeOf],
) -> Result<(), FinishError> {
    let scan = &bench.plan.scans[scan];
    let form = FilmForm::Raw(bench.fed.layout);
    let cancel = bench.cancel;
    let mut problem = None;
    let mut sink = |mut frame: FilmPicture| match bench.push(&mut frame.bytes, true) {
        Ok(()) => ControlFlow::Continue(()),
        Err(found) => {
            problem = Some(found);
            ControlFlow::Break(())
        }
    };
    let source = Scan {
        source: &scan.source,
        index: &scan.index,
    };
    fetch_film(ffmpeg, source, wanted, form, cancel, &mut sink)?;
    problem.map_or(Ok(()), Err)
}

/// Black in the form's own numbers: level 16 of 219 steps where the range is
/// not tagged full (ITU-R BT.601 and BT.709), neutral colour half way.
pub(crate) fn black_picture(form: &PictureForm) -> Vec<u8> {
    let name = form.layout.name();
    let bytes = usize::try_from(form.bytes()).unwrap_or(0);
    let is_yuv = name.starts_with("yuv");
    let is_full = is_full(form);
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

    #[test]
    fn parts_end_with_pieces_where_these_end_soon() {
        let long: Vec<Place> = (0..30).map(|n| shown(0, n)).collect();
        assert_eq!(parts_at(&long, 10), [0..10, 10..20, 20..30]);
        assert_eq!(parts_at(&long, 12), [0..12, 12..30]);
        // Pieces of 12 and 18: the first part goes on to the end of its piece.
        let pieces: Vec<Place> = (0..30).map(|n| shown(usize::from(n >= 12), n)).collect();
        assert_eq!(parts_at(&pieces, 10), [0..12, 12..22, 22..30]);
        assert_eq!(parts_at(&[], 10), []);
    }
}
