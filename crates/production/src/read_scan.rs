//! Reading one transfer with no production.

use std::ops::ControlFlow;
use std::path::{Path, PathBuf};

use onestrand_compose::{FilmForm, FilmPicture, MadeOf, Scan, fetch_film};
use onestrand_film::{Fps, Frames, Gauge, Quantity, Shrinkage};
use onestrand_intake::{Cancel, Ffmpeg, FileFrame, FrameIndex, IndexRow, Making, Ratio};

use crate::changes_seen;
use crate::documents::{FilmDocument, ReadDocument};
use crate::error::unfit;
use crate::film_frames::{FilmFrame, FrameSink, Scans, as_stopped, read_film};
use crate::reading::Reading;
use crate::unslit::Unslit;
use crate::{ProductionError, Progress};

/// What is to be read.
#[derive(Debug, Clone)]
pub struct ReadRequest {
    /// The file, a folder of pictures, or several in order.
    pub files: Vec<PathBuf>,
    /// The gauge; Super 8 is taken when not said.
    pub gauge: Option<Gauge>,
    /// The speed the film was run at in the camera; 18 is taken when not said.
    pub film_speed: Option<Fps>,
    /// The length measured on the bench.
    pub measured: Option<Quantity>,
    /// The shrinkage, if measured.
    pub shrinkage: Option<Shrinkage>,
    /// Where the film frames go as PNG, if asked for.
    pub frames_dir: Option<PathBuf>,
    /// Where the scan is of a strip that was not slit: the frames of both halves go
    /// into folders of their own.
    pub unslit: Option<Unslit>,
}

/// Reads a transfer and tells what is on it.
///
/// # Errors
/// [`ProductionError::Intake`], [`ProductionError::GapTooLong`],
/// [`ProductionError::File`], [`ProductionError::Stopped`].
pub fn read_scan(
    request: &ReadRequest,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<ReadDocument, ProductionError> {
    let ffmpeg = Ffmpeg::locate()?;
    let scans = Scans::open(&ffmpeg, &request.files)?;
    let unslit = request.unslit.map(Unslit::check).transpose()?;
    if unslit.is_some() && request.frames_dir.is_none() {
        return Err(unfit(
            "nobody said where the frames of the two halves are to go".to_owned(),
            "name a folder for the frames too",
        ));
    }
    if let Some(dir) = &request.frames_dir {
        empty_folder(dir)?;
        if unslit.is_some() {
            Unslit::make_folders(dir)?;
        }
    }
    let mut kept = Kept::default();
    let reading = read_film(
        &ffmpeg,
        &scans,
        (Making::PlanesOnly, request.film_speed),
        cancel,
        progress,
        &mut kept,
    )
    .map_err(as_stopped)?;
    if let Some(dir) = &request.frames_dir {
        let to = (dir.as_path(), unslit);
        write_frames(&ffmpeg, &scans, &kept, &reading, to, cancel, progress).map_err(as_stopped)?;
    }
    document(request, &reading)
}

/// How every file frame is found again, file by file.
#[derive(Debug, Default)]
struct Kept {
    rows: Vec<IndexRow>,
    /// Each film frame's part and what it is made of, unless nothing shows it.
    films: Vec<Option<(u32, MadeOf)>>,
    parts: Vec<FrameIndex>,
}

impl FrameSink for Kept {
    fn film_frame(&mut self, frame: &FilmFrame<'_>) -> Result<(), ProductionError> {
        let shown = frame.shown_by.map(|(part, file_frame)| {
            let one = MadeOf::One(file_frame);
            (part, frame.made_of.cloned().unwrap_or(one))
        });
        self.films.push(shown);
        Ok(())
    }

    fn file_frame(&mut self, _part: u32, frame: &FileFrame) -> Result<(), ProductionError> {
        self.rows.push(frame.into());
        Ok(())
    }

    fn part(&mut self, _part: u32, time_base: Option<(u64, u64)>) -> Result<(), ProductionError> {
        let rows = std::mem::take(&mut self.rows);
        let base = time_base.map(|(num, den)| Ratio { num, den });
        self.parts.push(FrameIndex::new(rows, base));
        Ok(())
    }
}

fn empty_folder(dir: &Path) -> Result<(), ProductionError> {
    std::fs::create_dir_all(dir).map_err(crate::error::file("make the folder", dir))?;
    let mut entries = std::fs::read_dir(dir).map_err(crate::error::file("look into", dir))?;
    if entries.next().is_some() {
        return Err(ProductionError::Unfit {
            message: format!("the folder for the frames is not empty: {}", dir.display()),
            hint: "name a new or empty folder, so that nothing is written over".to_owned(),
        });
    }
    Ok(())
}

/// Writes the film frames at full size, named by film frame.
fn write_frames(
    ffmpeg: &Ffmpeg,
    scans: &Scans,
    kept: &Kept,
    reading: &Reading,
    (dir, unslit): (&Path, Option<Unslit>),
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<(), ProductionError> {
    progress.begin(
        "writing frames",
        Some(u64::from(reading.frames - reading.missing)),
    );
    let mut written = 0;
    for (part, source) in (0_u32..).zip(&scans.sources) {
        let films = kept.films.iter().enumerate();
        let here = films
            .filter_map(|(film, by)| by.as_ref().filter(|b| b.0 == part).map(|b| (film, &b.1)));
        let (names, wanted): (Vec<usize>, Vec<MadeOf>) =
            here.map(|(film, made_of)| (film, made_of.clone())).unzip();
        let mut problem = None;
        let mut sink = |picture: FilmPicture| {
            let name = names.get(picture.place).copied().unwrap_or_default();
            if let Err(found) = write_frame(dir, unslit, (name, reading.frames), &picture.bytes) {
                problem = Some(found);
                return ControlFlow::Break(());
            }
            written += 1;
            progress.at(written);
            ControlFlow::Continue(())
        };
        let index = &kept.parts[part as usize];
        let scan = Scan { source, index };
        fetch_film(ffmpeg, scan, &wanted, FilmForm::Png, cancel, &mut sink)?;
        if let Some(found) = problem {
            return Err(found);
        }
    }
    Ok(())
}

/// Writes one film frame, or those of both halves that one picture shows.
fn write_frame(
    dir: &Path,
    unslit: Option<Unslit>,
    (name, frames): (usize, u32),
    png: &[u8],
) -> Result<(), ProductionError> {
    if let Some(unslit) = unslit {
        let picture = u32::try_from(name).unwrap_or(u32::MAX);
        return unslit.write(dir, png, (picture, frames));
    }
    let path = dir.join(format!("frame_{name:06}.png"));
    std::fs::write(&path, png).map_err(crate::error::file("write the frame", &path))
}

fn document(request: &ReadRequest, reading: &Reading) -> Result<ReadDocument, ProductionError> {
    let gauge = request.gauge.unwrap_or(Gauge::Super8);
    let seen = reading.found.film_speed();
    let speed = seen.or(request.film_speed).unwrap_or(Fps::EIGHTEEN);
    let shrinkage = request.shrinkage.unwrap_or(Shrinkage::NONE);
    let frames = Frames::new(reading.frames)?;
    let expected = match request.measured {
        Some(measured) => Some(measured.frames(gauge, speed, shrinkage)?.count()),
        None => None,
    };
    let mut assumptions = vec![reading.found.assumption()];
    if request.gauge.is_none() {
        assumptions.push(format!("gauge not given, taken as {}", gauge.spec().name));
    }
    if request.film_speed.is_none() && seen.is_none() {
        assumptions.push("speed of the film not given, taken as 18 f/s".to_owned());
    }
    if expected.is_none() {
        assumptions
            .push("length not measured on the bench, so completeness is not proved".to_owned());
    }
    let file = reading.files.first().cloned();
    Ok(ReadDocument {
        file: file.ok_or_else(|| ProductionError::Unfit {
            message: "no file was given".to_owned(),
            hint: "name a scan".to_owned(),
        })?,
        files: reading.files.clone(),
        gauge: gauge.to_string(),
        film: film_document(reading, gauge, frames, speed, expected),
        map: flat_map(reading),
        takes: changes_seen::with_start_speeds(reading.takes(), speed),
        gradual: changes_seen::gradual(&reading.findings),
        signs: reading.signs(),
        warnings: reading.warnings.clone(),
        assumptions,
    })
}

pub(crate) fn film_document(
    reading: &Reading,
    gauge: Gauge,
    frames: Frames,
    speed: Fps,
    expected: Option<u32>,
) -> FilmDocument {
    FilmDocument {
        frames: reading.frames,
        speed: speed.to_string(),
        clean: reading.clean(),
        blended: reading.blended,
        counted: reading.counted,
        missing: reading.missing,
        cadence: reading.found.cadence(),
        repeats: reading.found.repeats(),
        footage: gauge.footage(frames).into(),
        expected,
        difference: expected.map(|e| i64::from(reading.frames) - i64::from(e)),
        anomalies: reading.anomalies.clone(),
    }
}

/// The map with file frames counted through all files in order.
fn flat_map(reading: &Reading) -> Vec<Option<u64>> {
    let mut begins = Vec::with_capacity(reading.files.len());
    let mut at = 0;
    for file in &reading.files {
        begins.push(at);
        at += file.frames;
    }
    let flat = |by: &Option<(u32, u64)>| by.map(|(part, k)| begins[part as usize] + k);
    reading.map.iter().map(flat).collect()
}
