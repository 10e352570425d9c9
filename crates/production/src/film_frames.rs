//! From scans to the film frames of a roll: the one walk that reading with
//! and without a production shares.

use std::ops::ControlFlow;
use std::path::{Path, PathBuf};

use onestrand_compose::MadeOf;
use onestrand_film::Fps;
use onestrand_inspect::{BreakFinder, BreakSettings, FrameMeasures, PlaneRef};
use onestrand_intake::{
    Cancel, Ffmpeg, FileFrame, IntakeError, Making, Plane, ReadOptions, Source, read,
};
use onestrand_signs::SignReader;

use crate::documents::{AnomalyDocument, FileDocument, WarningDocument};
use crate::overlap::{SEAM, Tail, overlap_warning};
use crate::reading::{FoundParts, Reading};
use crate::true_frames::{Told, TrueFrames, anomalies, fields_warning};
use crate::{ProductionError, Progress};

/// The longest gap in the numbers of a sequence that is taken for missing
/// frames of one roll: over four minutes of film at 18 frames a second.
const LONGEST_GAP: u64 = 5_000;

/// From one picture to the next that is shown while a roll is read: two seconds of
/// most files. Unit: file frames.
const WATCHED_EVERY: u64 = 36;

/// Endings of picture files, to tell a run of pictures from films in order.
const PICTURES: [&str; 7] = ["dpx", "tif", "tiff", "png", "jpg", "jpeg", "cin"];

/// The scans of one roll, in order along it.
#[derive(Debug)]
pub(crate) struct Scans {
    pub(crate) sources: Vec<Source>,
    pub(crate) warnings: Vec<WarningDocument>,
}

impl Scans {
    /// Opens what the user pointed at: one run of pictures, or films in order.
    pub(crate) fn open(ffmpeg: &Ffmpeg, paths: &[PathBuf]) -> Result<Self, ProductionError> {
        let is_picture = |path: &PathBuf| {
            let ending = path.extension().and_then(|e| e.to_str()).unwrap_or("");
            PICTURES.contains(&ending.to_ascii_lowercase().as_str())
        };
        let mut all = Self {
            sources: Vec::new(),
            warnings: Vec::new(),
        };
        if paths.iter().all(is_picture) {
            all.add(ffmpeg, paths)?;
            return Ok(all);
        }
        for path in paths {
            all.add(ffmpeg, std::slice::from_ref(path))?;
        }
        Ok(all)
    }

    fn add(&mut self, ffmpeg: &Ffmpeg, paths: &[PathBuf]) -> Result<(), ProductionError> {
        let (source, warnings) = Source::open(ffmpeg, paths)?;
        self.sources.push(source);
        self.warnings.extend(warnings.iter().map(warning));
        Ok(())
    }

    /// Frames that all files promise, if each says so.
    fn promised(&self) -> Option<u64> {
        self.sources.iter().map(Source::frames_promised).sum()
    }
}

fn warning(found: &onestrand_intake::Warning) -> WarningDocument {
    WarningDocument {
        code: found.code().to_owned(),
        message: found.to_string(),
        hint: found.hint().to_owned(),
    }
}

/// Who takes the frames as they come.
pub(crate) trait FrameSink {
    /// A film frame; without a picture when no scan shows it.
    fn film_frame(&mut self, frame: &FilmFrame<'_>) -> Result<(), ProductionError>;
    /// A file frame, before the film frame that it shows.
    fn file_frame(&mut self, part: u32, frame: &FileFrame) -> Result<(), ProductionError>;
    /// The end of a file.
    fn part(&mut self, part: u32, time_base: Option<(u64, u64)>) -> Result<(), ProductionError>;
}

/// One film frame of the roll.
#[derive(Debug)]
pub(crate) struct FilmFrame<'a> {
    pub(crate) shown_by: Option<(u32, u64)>,
    /// What it is made of, where it is not that file frame alone.
    pub(crate) made_of: Option<&'a MadeOf>,
    pub(crate) jpeg: Option<&'a [u8]>,
    pub(crate) measures: FrameMeasures,
}

/// Reads all scans of a roll, in order, into a sink.
pub(crate) fn read_film(
    ffmpeg: &Ffmpeg,
    scans: &Scans,
    (making, film_speed): (Making, Option<Fps>),
    cancel: &Cancel,
    progress: &mut dyn Progress,
    sink: &mut dyn FrameSink,
) -> Result<Reading, ProductionError> {
    progress.begin("reading", scans.promised());
    let mut walk = Walk {
        reading: Reading {
            frames: 0,
            missing: 0,
            blended: 0,
            counted: 0,
            found: FoundParts::default(),
            stretches: Vec::new(),
            map: Vec::new(),
            files: Vec::new(),
            anomalies: Vec::new(),
            warnings: scans.warnings.clone(),
            findings: Vec::new(),
            kept: None,
        },
        signs: SignReader::new(),
        finder: BreakFinder::new(BreakSettings::default()),
        last: None,
        tail: Tail::default(),
        sink,
        progress,
        read: 0,
        film_speed,
    };
    let options = ReadOptions {
        making,
        ..ReadOptions::default()
    };
    for (part, source) in (0_u32..).zip(&scans.sources) {
        walk.part(ffmpeg, source, part, &options, cancel)?;
    }
    let rest = walk.finder.finish();
    walk.reading.findings.extend(rest);
    walk.reading.kept = Some(walk.signs.finish());
    Ok(walk.reading)
}

struct Walk<'a> {
    reading: Reading,
    finder: BreakFinder,
    signs: SignReader,
    last: Option<Plane>,
    tail: Tail,
    sink: &'a mut dyn FrameSink,
    progress: &'a mut dyn Progress,
    read: u64,
    film_speed: Option<Fps>,
}

impl Walk<'_> {
    fn part(
        &mut self,
        ffmpeg: &Ffmpeg,
        source: &Source,
        part: u32,
        options: &ReadOptions,
        cancel: &Cancel,
    ) -> Result<(), ProductionError> {
        let mut seam = Seam {
            part,
            begins_at: u64::from(self.reading.frames),
            first_number: source.sequence().map_or(0, |s| s.first_number()),
            held: Vec::new(),
            // Frames of the first part have nothing before them to repeat.
            settled: part == 0,
        };
        let mut problem = None;
        self.reading.warnings.extend(fields_warning(source, part));
        let mut frames = TrueFrames::of(source, self.film_speed);
        let mut take = |frame: FileFrame| match self.file_frame(&mut seam, &mut frames, frame) {
            Ok(()) => ControlFlow::Continue(()),
            Err(found) => {
                problem = Some(found);
                ControlFlow::Break(())
            }
        };
        let end = read(ffmpeg, source, options, cancel, &mut take)?;
        if let Some(found) = problem {
            return Err(found);
        }
        let (rest, found) = frames.finish();
        for told in rest {
            self.seam(&mut seam, told)?;
        }
        self.settle(&mut seam)?;
        let begins_at = seam.begins_at;
        if let Some(found) = found {
            self.reading.anomalies.extend(anomalies(begins_at, &found));
            self.reading.found.add(found);
        }
        if source.sequence().is_some() {
            let places = source.expected_places().unwrap_or(0);
            self.missing_up_to(begins_at + places)?;
        }
        let time_base = end.time_base.map(|b| (b.num, b.den));
        self.sink.part(part, time_base)?;
        self.reading
            .warnings
            .extend(end.warnings.iter().map(warning));
        self.reading.files.push(file_document(source, end.frames));
        Ok(())
    }

    /// Takes a frame of the file, and the film frames that are certain with it.
    fn file_frame(
        &mut self,
        seam: &mut Seam,
        frames: &mut TrueFrames,
        frame: FileFrame,
    ) -> Result<(), ProductionError> {
        self.sink.file_frame(seam.part, &frame)?;
        // Film frames may be told much later: what is watched are the file's own.
        if self.read.is_multiple_of(WATCHED_EVERY) && !frame.jpeg.is_empty() {
            self.progress.picture(self.read, &frame.jpeg);
        }
        self.read += 1;
        for told in frames.push(frame) {
            self.seam(seam, told)?;
        }
        self.progress.at(self.read);
        Ok(())
    }

    /// Holds the first film frames of a further part until it is known which of
    /// them the part before has shown already.
    fn seam(&mut self, seam: &mut Seam, told: Told) -> Result<(), ProductionError> {
        if seam.settled {
            return self.told(seam, told);
        }
        seam.held.push(told);
        if seam.held.len() == SEAM {
            self.settle(seam)?;
        }
        Ok(())
    }

    /// A picture scanned twice gets one number: the first scan shows it.
    fn settle(&mut self, seam: &mut Seam) -> Result<(), ProductionError> {
        if std::mem::replace(&mut seam.settled, true) {
            return Ok(());
        }
        let held = std::mem::take(&mut seam.held);
        // One that no file frame shows cannot be known again.
        let seen = held.iter().map_while(|told| told.plane.clone());
        let head: Vec<Plane> = seen.collect();
        let again = self.tail.overlap(&head);
        if again > 0 {
            self.reading
                .warnings
                .push(overlap_warning(seam.part, again));
            seam.begins_at = seam.begins_at.saturating_sub(again as u64);
        }
        for told in held.into_iter().skip(again) {
            self.told(seam, told)?;
        }
        Ok(())
    }

    fn told(&mut self, seam: &Seam, told: Told) -> Result<(), ProductionError> {
        if let Some(number) = told.number {
            self.missing_up_to(seam.begins_at + (number - seam.first_number))?;
        }
        let Some(plane) = told.plane else {
            return self.missing();
        };
        self.reading.stood(told.standing);
        self.signs.push(measured(&plane));
        let measures = self.measure(&plane);
        let shown_by = told.shown_by.map(|k| (seam.part, k));
        let jpeg = (!told.jpeg.is_empty()).then_some(told.jpeg.as_slice());
        self.film_frame(&FilmFrame {
            shown_by,
            made_of: told.made_of.as_ref(),
            jpeg,
            measures,
        })?;
        self.tail.push(&plane);
        self.last = Some(plane);
        Ok(())
    }

    fn measure(&mut self, plane: &Plane) -> FrameMeasures {
        let seen = self.finder.push(measured(plane));
        self.reading.findings.extend(seen.findings);
        seen.measures
    }

    fn film_frame(&mut self, frame: &FilmFrame<'_>) -> Result<(), ProductionError> {
        self.reading.map.push(frame.shown_by);
        self.reading.frames += 1;
        self.sink.film_frame(frame)
    }

    /// Names frames that no scan shows, up to a film frame. Each is measured
    /// as the one before it, so that no break is seen where nothing is.
    fn missing_up_to(&mut self, film_frame: u64) -> Result<(), ProductionError> {
        let missing = film_frame.saturating_sub(u64::from(self.reading.frames));
        if missing == 0 {
            return Ok(());
        }
        if missing > LONGEST_GAP {
            return Err(ProductionError::GapTooLong {
                missing,
                most: LONGEST_GAP,
            });
        }
        let count = u32::try_from(missing).unwrap_or(u32::MAX);
        self.reading.anomalies.push(AnomalyDocument {
            at: self.reading.frames,
            kind: "skip".to_owned(),
            frames: count,
            frames_low: count,
            frames_high: count,
        });
        for _ in 0..count {
            self.missing()?;
        }
        Ok(())
    }

    /// Names one frame that no scan shows.
    fn missing(&mut self) -> Result<(), ProductionError> {
        self.reading.missing += 1;
        self.signs.push_missing();
        let measures = match self.last.take() {
            Some(plane) => {
                let measures = self.measure(&plane);
                self.last = Some(plane);
                measures
            }
            None => FrameMeasures::default(),
        };
        self.film_frame(&FilmFrame {
            shown_by: None,
            made_of: None,
            jpeg: None,
            measures,
        })
    }
}

/// A plane of intake is a plane of inspect: both are 192 by 144 bytes.
fn measured(plane: &Plane) -> PlaneRef<'_> {
    PlaneRef::new(plane.bytes()).expect("a plane has the size of a plane")
}

/// Where one part of a roll begins.
struct Seam {
    part: u32,
    begins_at: u64,
    first_number: u64,
    held: Vec<Told>,
    settled: bool,
}

fn file_document(source: &Source, frames: u64) -> FileDocument {
    let facts = source.facts();
    let rate = facts.rate.and_then(|r| r.as_fps());
    FileDocument {
        path: path_text(source.path()),
        frames,
        rate: rate.map_or_else(|| "pictures".to_owned(), |r| r.to_string()),
        width: facts.width,
        height: facts.height,
        coding: format!("{} {}", facts.codec, facts.pix_fmt),
    }
}

/// A path as text for documents; what is no UTF-8 is shown as such.
pub(crate) fn path_text(path: &Path) -> String {
    path.to_string_lossy().into_owned()
}

/// A cancelled reading, as this crate says it.
pub(crate) fn as_stopped(problem: ProductionError) -> ProductionError {
    match problem {
        ProductionError::Intake(IntakeError::Cancelled { .. }) => ProductionError::Stopped,
        other => other,
    }
}
