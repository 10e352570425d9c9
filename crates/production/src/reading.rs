//! What the reading of a roll found.

use onestrand_cadence::{Found, Standing, Transfer};
use onestrand_film::Fps;
use onestrand_inspect::{Finding, takes_from};
use onestrand_signs::SignRecord;

use crate::documents::{
    AnomalyDocument, FileDocument, RollReport, SignDocument, StretchDocument, TakeDocument,
    TransferDocument, WarningDocument,
};
use crate::{changes_seen, signs_seen};

/// What the reading of a roll found.
#[derive(Debug)]
pub(crate) struct Reading {
    pub(crate) frames: u32,
    pub(crate) missing: u32,
    pub(crate) blended: u32,
    pub(crate) counted: u32,
    pub(crate) found: FoundParts,
    /// Where film frames are blended or counted, run by run.
    pub(crate) stretches: Vec<StretchDocument>,
    pub(crate) map: Vec<Option<(u32, u64)>>,
    pub(crate) files: Vec<FileDocument>,
    pub(crate) anomalies: Vec<AnomalyDocument>,
    pub(crate) warnings: Vec<WarningDocument>,
    pub(crate) findings: Vec<Finding>,
    /// What was kept of all frames to see signs in; nothing before the end.
    pub(crate) kept: Option<SignRecord>,
}

/// How the files of a roll show the film.
#[derive(Debug, Default)]
pub(crate) struct FoundParts {
    /// Of the first file that repeats or blends film frames.
    first: Option<Found>,
    repeats: u64,
}

impl FoundParts {
    pub(crate) fn add(&mut self, found: Found) {
        self.repeats += found.repeats;
        let is_plain = found.transfer == Transfer::OneToOne;
        if !is_plain && self.first.is_none() {
            self.first = Some(found);
        }
    }

    /// The film's speed as the cadence says it.
    pub(crate) fn film_speed(&self) -> Option<Fps> {
        self.first.as_ref()?.film_speed
    }

    /// File frames of each film frame over one cycle.
    pub(crate) fn cadence(&self) -> Vec<u32> {
        self.first
            .as_ref()
            .map_or_else(|| vec![1], |found| found.cadence.clone())
    }

    /// File frames more than film frames shown.
    pub(crate) fn repeats(&self) -> u32 {
        u32::try_from(self.repeats).unwrap_or(u32::MAX)
    }

    /// What is taken for granted, in words.
    pub(crate) fn assumption(&self) -> String {
        match &self.first {
            None => "one file frame shows one film frame".to_owned(),
            Some(found) if found.transfer == Transfer::Repeated => {
                "film frames are repeated in the file; each is named once".to_owned()
            }
            Some(_) => "file frames blend film frames; the best file frame shows each".to_owned(),
        }
    }
}

impl Reading {
    pub(crate) fn takes(&self) -> Vec<TakeDocument> {
        takes_from(&self.findings, self.frames)
            .iter()
            .map(|take| TakeDocument {
                first: take.from,
                thrown: take.until,
                begins: take.begins.word(),
                flash_frames: take.flash_frames,
                flash_stops: rounded(take.flash_stops),
                start_speed: None,
            })
            .collect()
    }

    /// A film frame stands as it stands: how many do is counted, and where.
    pub(crate) fn stood(&mut self, standing: Standing) {
        let (count, kind) = match standing {
            Standing::Blended => (&mut self.blended, "blended"),
            Standing::Counted => (&mut self.counted, "counted"),
            Standing::Clean | Standing::Missing => return,
        };
        *count += 1;
        let at = self.frames;
        match self.stretches.last_mut() {
            Some(last) if last.kind == kind && last.thrown == at => last.thrown += 1,
            _ => self.stretches.push(StretchDocument {
                kind: kind.to_owned(),
                first: at,
                thrown: at + 1,
            }),
        }
    }

    /// How the files show the film.
    fn transfer(&self) -> TransferDocument {
        TransferDocument {
            file_frames: self.files.iter().map(|file| file.frames).sum(),
            clean: self.clean(),
            blended: self.blended,
            counted: self.counted,
            repeats: self.found.repeats(),
            cadence: self.found.cadence(),
            speed: self.found.film_speed().map(|speed| speed.to_string()),
            stretches: self.stretches.clone(),
        }
    }

    /// Film frames seen clean.
    pub(crate) fn clean(&self) -> u32 {
        self.frames - self.missing - self.blended - self.counted
    }

    /// What is kept beside the workprint.
    pub(crate) fn report(&self) -> RollReport {
        RollReport {
            signs: self.signs(),
            anomalies: self.anomalies.clone(),
            warnings: self.warnings.clone(),
            transfer: Some(self.transfer()),
            breaks: changes_seen::breaks(&self.findings, &self.takes()),
            gradual: changes_seen::gradual(&self.findings),
        }
    }

    pub(crate) fn signs(&self) -> Vec<SignDocument> {
        let mut signs = changes_seen::signs(&self.findings);
        if let Some(kept) = &self.kept {
            let takes = takes_from(&self.findings, self.frames);
            signs.extend(signs_seen::signs(kept, &takes));
        }
        signs.sort_by_key(|sign| (sign.first, sign.thrown));
        signs
    }
}

/// A measured value to a hundredth: more is noise.
pub(crate) fn rounded(value: f32) -> f64 {
    (f64::from(value) * 100.0).round() / 100.0
}
