//! Reading a roll into its workprint, for the first time or again.

use std::path::{Path, PathBuf};

use onestrand_film::{Fps, RollId};
use onestrand_intake::{Cancel, Ffmpeg, FileFrame, Fingerprint, IntakeError, Making};
use onestrand_store::{
    FileFrameRow, NewFrame, Production, RollRecord, ScanFacts, ScanRecord, WorkprintWriter,
    Workprints,
};

use crate::film_frames::{FilmFrame, FrameSink, Scans, as_stopped, path_text, read_film};
use crate::film_view::not_kept;
use crate::moved::whereabouts;
use crate::reading::Reading;
use crate::{ProductionError, Progress};

/// A roll read, its workprint written but not yet finished.
#[derive(Debug)]
pub(crate) struct ReadRoll {
    pub(crate) reading: Reading,
    pub(crate) scans: Vec<ScanRecord>,
    pub(crate) report: String,
    pub(crate) writer: WorkprintWriter,
}

impl ReadRoll {
    /// Completes the workprint, with the hash of each scan it was made from.
    pub(crate) fn finish(self) -> Result<(), ProductionError> {
        let hashes: Vec<&str> = self.scans.iter().map(|s| s.blake3.as_str()).collect();
        self.writer.finish(&hashes.join(" "), &self.report)?;
        Ok(())
    }
}

/// Scans that have been opened, and the program to read them with: asked for
/// once, since every start of FFmpeg costs a tenth of a second.
#[derive(Debug)]
pub(crate) struct Opened {
    ffmpeg: Ffmpeg,
    scans: Scans,
}

impl Opened {
    /// Opens scans; what cannot be read at all is told here.
    pub(crate) fn of(files: &[PathBuf]) -> Result<Self, ProductionError> {
        let ffmpeg = Ffmpeg::locate()?;
        let scans = Scans::open(&ffmpeg, files)?;
        Ok(Self { ffmpeg, scans })
    }

    /// The scans in order along the roll.
    pub(crate) fn sources(&self) -> &[onestrand_intake::Source] {
        &self.scans.sources
    }
}

pub(crate) fn read_and_print(
    dir: &Path,
    name: &str,
    opened: &Opened,
    film_speed: Option<Fps>,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<ReadRoll, ProductionError> {
    let Opened { ffmpeg, scans } = opened;
    let mut printing = Printing {
        writer: WorkprintWriter::begin(dir, name)?,
    };
    let (reading, prints) = std::thread::scope(|scope| {
        // The hash needs the disk, the decode the processor: side by side.
        let given_up = Cancel::new();
        let stop = given_up.clone();
        let hashing = scope.spawn(move || fingerprints(scans, &stop));
        let making = Making::PicturesAndPlanes;
        let reading = read_film(
            ffmpeg,
            scans,
            (making, film_speed),
            cancel,
            progress,
            &mut printing,
        );
        if reading.is_err() {
            given_up.cancel();
        }
        let stopped = Err(IntakeError::Cancelled { frames: 0 });
        (reading, hashing.join().unwrap_or(stopped))
    });
    let reading = reading?;
    // Here nobody waits yet; later the production is held.
    if let Some(record) = &reading.kept {
        printing.writer.keep_signs(&record.to_bytes())?;
    }
    printing.writer.settle()?;
    Ok(ReadRoll {
        scans: scan_records(&reading, scans, &prints?),
        report: serde_json::to_string(&reading.report()).unwrap_or_default(),
        reading,
        writer: printing.writer,
    })
}

/// Makes the workprints of these rolls again where they have been thrown away.
/// What was decided about a roll stays; its scans must still be what was read.
///
/// # Errors
/// [`ProductionError::ScanChanged`], [`ProductionError::Intake`] and others.
pub(crate) fn ready_workprints(
    production: &Production,
    rolls: &[RollId],
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<(), ProductionError> {
    for id in rolls {
        let Some(lost) = LostWorkprint::of(production, id.as_str())? else {
            continue;
        };
        progress.note(&format!(
            "the workprint of {id} is not there; its scan is read again"
        ));
        lost.make_again(cancel, progress)?;
    }
    Ok(())
}

/// A roll whose workprint has been thrown away and can be made again from its
/// scans, without the production.
#[derive(Debug)]
pub struct LostWorkprint {
    dir: PathBuf,
    roll: RollRecord,
    files: Vec<PathBuf>,
}

impl LostWorkprint {
    /// What is needed to make a roll's workprint again; nothing when it is there,
    /// or when the roll is known on paper only.
    ///
    /// # Errors
    /// [`ProductionError::Store`].
    pub fn of(production: &Production, name: &str) -> Result<Option<Self>, ProductionError> {
        let roll = production.roll(name)?;
        let prints = Workprints::open(production.dir())?;
        if roll.scans.is_empty() || prints.info(&roll.name)?.is_some() {
            return Ok(None);
        }
        Ok(Some(Self::made_of(production, roll)))
    }

    /// The same, and also where the workprint is there and an older program that made
    /// it did not keep what this one does.
    ///
    /// # Errors
    /// [`ProductionError::Store`].
    pub fn or_older(production: &Production, name: &str) -> Result<Option<Self>, ProductionError> {
        let lost = Self::of(production, name)?;
        let roll = production.roll(name)?;
        let prints = Workprints::open(production.dir())?;
        let is_whole = roll.scans.is_empty() || not_kept(&prints, name)?.is_empty();
        Ok(lost.or_else(|| (!is_whole).then(|| Self::made_of(production, roll))))
    }

    fn made_of(production: &Production, roll: RollRecord) -> Self {
        let here = |scan| whereabouts(scan, production.dir());
        Self {
            dir: production.dir().to_owned(),
            files: roll.scans.iter().flat_map(here).collect(),
            roll,
        }
    }

    /// Reads the scans again. They must still be what was read.
    ///
    /// # Errors
    /// [`ProductionError::ScanChanged`], [`ProductionError::Intake`] and others;
    /// nothing half-made is left then.
    pub fn make_again(
        &self,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<(), ProductionError> {
        let opened = Opened::of(&self.files)?;
        // What helped to find the film frames the first time must help again.
        let speed = self.roll.film_speed.parse().ok();
        let name = &self.roll.name;
        let read = read_and_print(&self.dir, name, &opened, speed, cancel, progress)
            .map_err(as_stopped)?;
        let same = |pair: (&ScanRecord, &ScanRecord)| pair.0.blake3 == pair.1.blake3;
        let scans = &self.roll.scans;
        let is_same = read.scans.iter().zip(scans).all(same);
        if is_same && read.reading.frames != self.roll.frames {
            return Err(self.counted_otherwise(read.reading.frames));
        }
        if !is_same {
            return Err(ProductionError::ScanChanged {
                roll: self.roll.name.clone(),
                found: format!(
                    "{} frames, {} when it was read",
                    read.reading.frames, self.roll.frames
                ),
                path: self.files.first().cloned().unwrap_or_default(),
            });
        }
        read.finish()
    }
}

impl LostWorkprint {
    /// The scan is the same to the bit, and this program counts it otherwise than the
    /// one that read it first.
    fn counted_otherwise(&self, now: u32) -> ProductionError {
        ProductionError::Unfit {
            message: format!(
                "the scan of {} is counted otherwise now: {now} film frames, {} when it was read",
                self.roll.name, self.roll.frames
            ),
            hint: "nothing was changed, since its takes and cuts stand on the count of then; bring the scan in as another roll to have the new one".to_owned(),
        }
    }
}

fn fingerprints(scans: &Scans, cancel: &Cancel) -> Result<Vec<Fingerprint>, IntakeError> {
    let one = |source: &onestrand_intake::Source| source.fingerprint(&mut |_| {}, cancel);
    scans.sources.iter().map(one).collect()
}

/// The sink that makes the workprint.
struct Printing {
    writer: WorkprintWriter,
}

impl FrameSink for Printing {
    fn film_frame(&mut self, frame: &FilmFrame<'_>) -> Result<(), ProductionError> {
        let measures = &frame.measures;
        self.writer.push(&NewFrame {
            jpeg: frame.jpeg,
            shown_by: frame.shown_by,
            made_of: frame.made_of.map(ToString::to_string),
            level: f64::from(measures.mean),
            sharpness: f64::from(measures.sharpness),
            change: f64::from(measures.change),
        })?;
        Ok(())
    }

    fn file_frame(&mut self, part: u32, frame: &FileFrame) -> Result<(), ProductionError> {
        let row = FileFrameRow {
            pts: frame.pts,
            key: frame.key,
            number: frame.number,
            byte_pos: frame.byte_pos,
            plane: frame.plane.hash().to_bits(),
        };
        Ok(self.writer.push_file_frame(part, frame.index, row)?)
    }

    fn part(&mut self, part: u32, time_base: Option<(u64, u64)>) -> Result<(), ProductionError> {
        Ok(self.writer.push_part(part, time_base)?)
    }
}

fn scan_records(reading: &Reading, scans: &Scans, prints: &[Fingerprint]) -> Vec<ScanRecord> {
    let paths = |source: &onestrand_intake::Source| match source.sequence() {
        None => vec![path_text(source.path())],
        Some(run) => run.pictures().iter().map(|p| path_text(&p.path)).collect(),
    };
    scans
        .sources
        .iter()
        .zip(prints)
        .zip(&reading.files)
        .map(|((source, print), file)| ScanRecord {
            paths: paths(source),
            bytes: print.size,
            blake3: print.hex(),
            facts: ScanFacts {
                frames: file.frames,
                rate: file.rate.clone(),
                width: file.width,
                height: file.height,
                coding: file.coding.clone(),
            },
        })
        .collect()
}
