//! Making a finish: part after part, then the whole.

use std::ops::Range;
use std::path::Path;

use onestrand_intake::{Cancel, Ffmpeg, PixelLayout};

use crate::disk::said_if_full;
use crate::film_writer::{self, Writing};
use crate::parts::{Parts, throw_parts_away};
use crate::put_together::put_together;
use crate::walk::{Bench, parts_at, walk};
use crate::{Container, FilmWriter, FinishError, FinishPlan, FinishScan, PictureForm, Treat};

/// What was made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Made {
    /// Frames of the film in it.
    pub frames: u64,
    /// Frames of the file.
    pub file_frames: u64,
    /// For each place the BLAKE3 of its picture as it was handed to the coder: of an
    /// exact coding, of the very bytes that come out again.
    pub pictures: Vec<blake3::Hash>,
    /// Places that were made before and not made again.
    pub kept: u64,
}

/// Makes the finish. `progress` is told the number of places made.
///
/// What is made stays made: stopped, failed or killed, it goes on behind its last whole
/// part when the same finish is asked for again ([`throw_parts_away`] forgets it). A
/// finish of one part only is written at once under its name.
///
/// # Errors
/// [`FinishError`]; nothing stands under the finish's name then.
pub fn make(
    ffmpeg: &Ffmpeg,
    plan: &FinishPlan,
    treat: Option<&mut dyn Treat>,
    cancel: &Cancel,
    progress: &mut dyn FnMut(u64),
) -> Result<Made, FinishError> {
    if plan.places.is_empty() {
        return Err(FinishError::Empty);
    }
    if !plan.coding.lies_in(Container::of(&plan.path)) {
        return Err(FinishError::WrongContainer {
            coding: plan.coding.name(),
            path: plan.path.clone(),
        });
    }
    keep_off_scans(&plan.path, &plan.scans)?;
    let scan = tagged(plan.common_form()?, plan);
    let fed = if treat.is_some() {
        changed(&scan)
    } else {
        scan.clone()
    };
    let mut desk = Desk {
        ffmpeg,
        plan,
        scan: &scan,
        fed: &fed,
        // For as long as the desk lives, not as long as it was lent.
        treat: treat.map(|t| t as &mut dyn Treat),
        cancel,
        progress,
        made: Made {
            frames: plan.places.len() as u64,
            file_frames: plan.pattern.file_frames(plan.places.len() as u64),
            pictures: Vec::with_capacity(plan.places.len()),
            kept: 0,
        },
    };
    let all = parts_at(&plan.places, plan.part_places);
    if let [only] = all.as_slice() {
        // Of another finish, stopped before.
        throw_parts_away(&plan.path)?;
        desk.code(&plan.path, Kind::Whole, only.clone(), &mut |_| Ok(()))?;
        return Ok(desk.made);
    }
    let parts = Parts::open(plan, &mark(plan, &scan, desk.treat.as_deref(), ffmpeg))
        .map_err(|problem| said_if_full(problem, plan, 0))?;
    for (part, places) in all.iter().enumerate() {
        if let Some(known) = parts.known(part, places.len()) {
            desk.keep(known, places.end);
            continue;
        }
        let mut note = |seen: &[blake3::Hash]| parts.note(part, seen);
        desk.code(&parts.film(part), Kind::Part, places.clone(), &mut note)?;
    }
    let made = desk.made;
    let full = |problem| said_if_full(problem, plan, made.frames);
    let list = parts.list_of_all(&seconds(plan, &all)).map_err(full)?;
    put_together(ffmpeg, plan, &list, made.file_frames, cancel).map_err(full)?;
    throw_parts_away(&plan.path)?;
    Ok(made)
}

/// Whether a film file is all that is asked for, or a part of it.
#[derive(Clone, Copy)]
enum Kind {
    Whole,
    Part,
}

/// Where parts are made.
struct Desk<'a> {
    ffmpeg: &'a Ffmpeg,
    plan: &'a FinishPlan,
    /// The pictures as the scans have them, and as they are handed to the coder.
    scan: &'a PictureForm,
    fed: &'a PictureForm,
    treat: Option<&'a mut dyn Treat>,
    cancel: &'a Cancel,
    progress: &'a mut dyn FnMut(u64),
    made: Made,
}

impl Desk<'_> {
    /// Takes a part over that was made before.
    fn keep(&mut self, known: Vec<blake3::Hash>, end: usize) {
        self.made.kept += known.len() as u64;
        self.made.pictures.extend(known);
        (self.progress)(end as u64);
    }

    /// Codes these places into a film file. `note` is told what they show before the file
    /// gets its name.
    fn code(
        &mut self,
        path: &Path,
        kind: Kind,
        places: Range<usize>,
        note: &mut dyn FnMut(&[blake3::Hash]) -> Result<(), FinishError>,
    ) -> Result<(), FinishError> {
        let plan = self.plan;
        let full = |problem| said_if_full(problem, plan, places.start as u64);
        let (container, made) = match kind {
            Kind::Whole => (
                Container::of(path),
                film_writer::Made::Whole(plan.sound.as_ref()),
            ),
            Kind::Part => (plan.coding.container_of_parts(), film_writer::Made::Part),
        };
        let writing = Writing {
            scan: self.scan,
            speed: plan.pattern.file_rate(),
            coding: plan.coding,
            container,
            title: &plan.title,
            made,
        };
        let mut bench = Bench {
            plan,
            fed: self.fed,
            writer: FilmWriter::begin_as(self.ffmpeg, path, self.fed, writing).map_err(full)?,
            treat: self.treat.as_deref_mut().map(|t| t as &mut dyn Treat),
            seen: Vec::with_capacity(places.len()),
            at: places.start,
            progress: &mut *self.progress,
            cancel: self.cancel,
        };
        walk(self.ffmpeg, &mut bench, places.clone()).map_err(full)?;
        note(&bench.seen).map_err(full)?;
        let (seen, writer) = (bench.seen, bench.writer);
        writer.finish().map_err(full)?;
        self.made.pictures.extend(seen);
        Ok(())
    }
}

/// How long each part is in the file.
fn seconds(plan: &FinishPlan, parts: &[Range<usize>]) -> Vec<f64> {
    let pattern = &plan.pattern;
    let frames = |part: &Range<usize>| {
        pattern.file_frames(part.end as u64) - pattern.file_frames(part.start as u64)
    };
    let rate = pattern.file_rate().as_f64();
    parts
        .iter()
        .map(|part| frames(part) as f64 / rate)
        .collect()
}

/// Red, green and blue of a scan have no matrix. Where they become colour difference for
/// showing, it is that of ITU-R BT.709, and said so.
fn tagged(mut scan: PictureForm, plan: &FinishPlan) -> PictureForm {
    let is_rgb = !scan.layout.name().starts_with("yuv") && !scan.layout.is_gray();
    if is_rgb && !plan.coding.is_exact() {
        scan.colour[1] = Some("bt709".to_owned());
    }
    scan
}

/// How pictures come that are changed on their way.
fn changed(scan: &PictureForm) -> PictureForm {
    PictureForm {
        layout: PixelLayout::nearest("gbrp16le"),
        colour: [
            Some("pc".to_owned()),
            None,
            scan.colour[2].clone(),
            scan.colour[3].clone(),
        ],
        ..scan.clone()
    }
}

/// Words that change whenever a byte of the finish would.
fn mark(
    plan: &FinishPlan,
    scan: &PictureForm,
    treat: Option<&dyn Treat>,
    ffmpeg: &Ffmpeg,
) -> String {
    let mut hasher = blake3::Hasher::new();
    let mut add = |words: &str| {
        hasher.update(&(words.len() as u64).to_le_bytes());
        hasher.update(words.as_bytes());
    };
    add(&format!("{:?} {:?}", plan.coding, plan.pattern));
    add(&format!("{scan:?} {} {:?}", plan.part_places, plan.title));
    add(&format!("{:?}", ffmpeg.version()));
    for one in &plan.scans {
        add(&format!(
            "{:?} {:?}",
            one.source.path(),
            one.source.size_in_bytes().ok()
        ));
    }
    for place in &plan.places {
        add(&format!("{place:?}"));
    }
    for card in &plan.cards {
        add(&card.mark());
    }
    add(&treat.map(Treat::mark).unwrap_or_default());
    hasher.finalize().to_hex().to_string()
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
