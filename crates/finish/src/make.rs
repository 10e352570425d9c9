//! Making a finish: part after part, then the whole.

use std::path::Path;

use onestrand_intake::{Cancel, Ffmpeg, PixelLayout};

use crate::disk::said_if_full;
use crate::film_writer::Writing;
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
/// part when the same finish is asked for again ([`throw_parts_away`] forgets it).
///
/// # Errors
/// [`FinishError`]; nothing stands under the finish's name then.
pub fn make(
    ffmpeg: &Ffmpeg,
    plan: &FinishPlan,
    mut treat: Option<&mut dyn Treat>,
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
    let parts = Parts::open(plan, &mark(plan, &scan, treat.as_deref(), ffmpeg))
        .map_err(|problem| said_if_full(problem, plan, 0))?;
    let mut made = Made {
        frames: plan.places.len() as u64,
        file_frames: plan.pattern.file_frames(plan.places.len() as u64),
        pictures: Vec::with_capacity(plan.places.len()),
        kept: 0,
    };
    let mut seconds = Vec::new();
    for (part, places) in parts_at(&plan.places, plan.part_places)
        .into_iter()
        .enumerate()
    {
        let (begin, end) = (places.start, places.end);
        let frames = plan.pattern.file_frames(end as u64) - plan.pattern.file_frames(begin as u64);
        seconds.push(frames as f64 / plan.pattern.file_rate().as_f64());
        if let Some(known) = parts.known(part, end - begin) {
            made.pictures.extend(known);
            made.kept += (end - begin) as u64;
            progress(end as u64);
            continue;
        }
        let writing = Writing {
            scan: &scan,
            speed: plan.pattern.file_rate(),
            coding: plan.coding,
            container: plan.coding.container_of_parts(),
            title: &plan.title,
        };
        let full = |problem| said_if_full(problem, plan, begin as u64);
        let mut bench = Bench {
            plan,
            fed: &fed,
            writer: FilmWriter::begin_as(ffmpeg, &parts.film(part), &fed, writing).map_err(full)?,
            treat: treat.as_deref_mut().map(|t| t as &mut dyn Treat),
            seen: Vec::with_capacity(end - begin),
            at: begin,
            progress: &mut *progress,
            cancel,
        };
        walk(ffmpeg, &mut bench, begin..end).map_err(full)?;
        parts.note(part, &bench.seen).map_err(full)?;
        made.pictures.extend(bench.seen);
        bench.writer.finish().map_err(full)?;
    }
    let full = |problem| said_if_full(problem, plan, made.frames);
    let list = parts.list_of_all(&seconds).map_err(full)?;
    put_together(ffmpeg, plan, &list, made.file_frames, cancel).map_err(full)?;
    throw_parts_away(&plan.path)?;
    Ok(made)
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
