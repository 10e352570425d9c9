//! Where a recording lies while it is being made: its file, and the slip beside it that says
//! what it is.

use std::fs::File;
use std::path::{Path, PathBuf};
use std::time::Duration;

use onestrand_store::StoreError;
use serde::{Deserialize, Serialize};

use super::recording::{RecordingDocument, RecordingWords};
use super::recording_file::Layout;
use super::sounds_of;
use crate::ProductionError;
use crate::documents::SoundFactsWords;
use crate::error::file;

/// What stands beside a recording on the disk.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub(super) struct Slip {
    pub(super) about: RecordingWords,
    /// How far into it the frame is heard that it was recorded from, once it is known.
    /// Unit: samples.
    #[serde(default)]
    pub(super) offset: Option<u64>,
    /// Set before the file gets its lasting name.
    pub(super) finished: Option<Finished>,
    /// The sound it has become.
    pub(super) sound: Option<i64>,
}

#[derive(Debug, Clone, Serialize, Deserialize)]
pub(super) struct Finished {
    pub(super) kept: String,
    pub(super) facts: SoundFactsWords,
}

/// The files of one recording.
pub(super) struct Place {
    pub(super) part: PathBuf,
    pub(super) slip: PathBuf,
    pub(super) folder: PathBuf,
    pub(super) name: String,
}

pub(super) const BEFORE: &str = "recording-";

impl Place {
    /// The place of a recording by its name in addresses.
    pub(super) fn named(film: &Path, name: &str) -> Result<Self, ProductionError> {
        let number = name.strip_prefix(BEFORE).unwrap_or_default();
        if number.is_empty() || number.len() > 9 || !number.bytes().all(|b| b.is_ascii_digit()) {
            return Err(not_there(name));
        }
        let folder = sounds_of(film);
        Ok(Self {
            part: folder.join(format!("{name}.wav.part")),
            slip: folder.join(format!("{name}.json")),
            folder,
            name: name.to_owned(),
        })
    }

    /// Its slip; one made from the head of the file where a crash came before it was
    /// written.
    pub(super) fn read(&self) -> Result<Slip, ProductionError> {
        let written = std::fs::read(&self.slip).ok();
        if let Some(slip) = written.and_then(|bytes| serde_json::from_slice(&bytes).ok()) {
            return Ok(slip);
        }
        let Layout { rate, channels } =
            Layout::read(&self.part).ok_or_else(|| not_there(&self.name))?;
        Ok(Slip {
            about: RecordingWords {
                name: self.name.clone(),
                rate,
                channels,
                cut: String::new(),
                at: 0,
            },
            offset: None,
            finished: None,
            sound: None,
        })
    }

    pub(super) fn write(&self, slip: &Slip) -> Result<(), ProductionError> {
        let half = self.slip.with_extension("json.part");
        let failed = || file("write the slip of the recording", &self.slip);
        let words = serde_json::to_vec(slip).map_err(StoreError::from)?;
        std::fs::write(&half, words).map_err(failed())?;
        File::open(&half)
            .and_then(|f| f.sync_all())
            .map_err(failed())?;
        std::fs::rename(&half, &self.slip).map_err(failed())
    }

    /// Whether the last of it came within the last five seconds, five times as long as a
    /// recorder waits: some window is recording it.
    fn was_just_written(&self) -> bool {
        let written = std::fs::metadata(&self.part).and_then(|about| about.modified());
        let age = written.ok().and_then(|at| at.elapsed().ok());
        age.is_some_and(|age| age < Duration::from_secs(5))
    }

    pub(super) fn document(&self, slip: Slip) -> RecordingDocument {
        let samples = match &slip.finished {
            Some(finished) => finished.facts.samples,
            None => layout(&slip.about).moments(&self.part),
        };
        RecordingDocument {
            recording: self.name.clone(),
            offset: slip.offset.filter(|offset| *offset < samples),
            about: slip.about,
            samples,
            runs: slip.finished.is_none() && self.was_just_written(),
        }
    }
}

pub(super) fn layout(about: &RecordingWords) -> Layout {
    Layout {
        rate: about.rate,
        channels: about.channels,
    }
}

pub(super) fn not_there(name: &str) -> ProductionError {
    let name = name.to_owned();
    let what = "recording";
    StoreError::NotFound { what, name }.into()
}

/// The numbers of all recordings that have left a file.
pub(super) fn numbers(folder: &Path) -> Vec<u32> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let names = entries.filter_map(|entry| entry.file_name().into_string().ok());
    let number = |name: String| {
        let plain = name
            .strip_suffix(".wav.part")
            .or(name.strip_suffix(".json"))?;
        plain.strip_prefix(BEFORE)?.parse().ok()
    };
    let mut all: Vec<u32> = names.filter_map(number).collect();
    all.sort_unstable();
    all.dedup();
    all
}
