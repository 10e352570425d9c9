//! The file of a kept sound: its outline, and its samples made ready to be heard.

use std::path::{Path, PathBuf};

use onestrand_sound::{Peaks, PlainSound, RATE, kept_outline, make_ready};
use onestrand_store::Production;

use super::kept::Kept;
use super::{ready_folder, sounds_folder};
use crate::documents::SoundWords;
use crate::error::file;
use crate::{Cancel, ProductionError, Progress, Quiet};

/// A kept sound and where it is made ready.
#[derive(Debug, Clone, PartialEq)]
pub struct SoundFile {
    kept: PathBuf,
    outline: PathBuf,
    ready: PathBuf,
    rate: u32,
    /// As it is kept.
    samples: u64,
    play: f64,
    channels: usize,
}

fn outline_of(film: &Path, kept: &str) -> PathBuf {
    let stem = kept.trim_end_matches(".wav");
    ready_folder(film).join(format!("{stem}.outline"))
}

/// Writes the outline of a sound that was just kept in the folder of a film's sounds. It
/// can be read from the sound again: that it cannot be written is no failure.
pub(super) fn keep_outline(folder: &Path, kept: &str, outline: &Peaks) {
    if let Some(film) = folder.parent() {
        let _made = write_outline(&outline_of(film, kept), outline);
    }
}

fn write_outline(path: &Path, outline: &Peaks) -> std::io::Result<()> {
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder)?;
    }
    std::fs::write(path, outline.to_bytes())
}

impl SoundFile {
    pub(crate) fn of(production: &Production, sound: &SoundWords) -> Self {
        let stem = sound.kept.trim_end_matches(".wav");
        let film = production.dir();
        Self {
            kept: sounds_folder(production).join(&sound.kept),
            outline: outline_of(film, &sound.kept),
            ready: ready_folder(film).join(format!("{stem}-{}.f32", sound.play)),
            rate: sound.facts.rate.max(1),
            samples: sound.facts.samples,
            play: f64::from(sound.play) / 1e6,
            channels: sound.facts.channels.clamp(1, 2) as usize,
        }
    }

    /// The outline from one sample to another, as [`Peaks::columns`] has it: in samples at
    /// 48 kHz as it is played. It is there at once, long before the sound is made ready.
    ///
    /// # Errors
    /// [`ProductionError::Sound`] when the kept sound cannot be read.
    pub fn columns(
        &self,
        first: u64,
        count: u64,
        width: usize,
    ) -> Result<Vec<(i8, i8)>, ProductionError> {
        let saved = std::fs::read(&self.outline).ok();
        let outline = match saved.and_then(|bytes| Peaks::from_bytes(&bytes)) {
            Some(outline) => outline,
            None => {
                let outline = kept_outline(&self.kept)?;
                // As in `keep_outline`.
                let _made = write_outline(&self.outline, &outline);
                outline
            }
        };
        let kept = |samples: u64| {
            (samples as f64 * f64::from(self.rate) * self.play / f64::from(RATE)) as u64
        };
        let (from, to) = (kept(first), kept(first + count));
        Ok(outline.columns(from, to - from, width))
    }

    /// Makes it ready to be heard, where it is not.
    ///
    /// # Errors
    /// [`ProductionError::Sound`].
    pub fn make_ready(&self) -> Result<(), ProductionError> {
        self.make_ready_telling(&Cancel::new(), &mut Quiet)
    }

    /// The same, and says how far it is. What is stopped is made ready when it is first
    /// heard.
    ///
    /// # Errors
    /// As [`SoundFile::make_ready`]; [`ProductionError::Stopped`].
    pub fn make_ready_telling(
        &self,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<(), ProductionError> {
        if self.ready.is_file() {
            return Ok(());
        }
        let samples = self.samples as f64 * f64::from(RATE) / (f64::from(self.rate) * self.play);
        progress.begin_in(
            "samples",
            "making it ready to be heard",
            Some(samples as u64),
        );
        if let Some(folder) = self.ready.parent() {
            std::fs::create_dir_all(folder).map_err(file("make the folder", folder))?;
        }
        let mut go_on = |done| {
            progress.at(done);
            !cancel.is_cancelled()
        };
        let made = make_ready(&self.kept, self.play, &self.ready, &mut go_on);
        if cancel.is_cancelled() {
            return Err(ProductionError::Stopped);
        }
        made?;
        Ok(())
    }

    /// A reader of it at 48 kHz.
    ///
    /// # Errors
    /// [`ProductionError::Sound`].
    pub fn reader(&self) -> Result<PlainSound, ProductionError> {
        self.make_ready()?;
        Ok(PlainSound::open(&self.ready, self.channels)?)
    }
}

/// The file of a sound, by its number.
///
/// # Errors
/// [`ProductionError::Store`] when there is none.
pub fn sound_file(production: &Production, id: i64) -> Result<SoundFile, ProductionError> {
    let sound = Kept::<SoundWords>::one(production, id)?.words;
    Ok(SoundFile::of(production, &sound))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_outline_lies_where_the_sound_is_heard_at_its_speed() {
        let dir = tempfile::tempdir().expect("a folder");
        let mut outline = Peaks::default();
        // Two seconds at 25,600 Hz, the second of them loud.
        outline.add(&vec![0.0; 25_600], 1);
        outline.add(&vec![0.5; 25_600], 1);
        outline.finish();
        let file = SoundFile {
            kept: dir.path().join("none.wav"),
            outline: dir.path().join("one.outline"),
            ready: dir.path().join("one.f32"),
            rate: 25_600,
            samples: 51_200,
            play: 2.0,
            channels: 1,
        };
        write_outline(&file.outline, &outline).expect("written");
        // Played twice as fast it lasts one second; its second half is loud.
        let columns = file.columns(0, 48_000, 4).expect("an outline");
        let highs: Vec<i8> = columns.iter().map(|c| c.1).collect();
        assert_eq!(highs, [0, 0, 64, 64]);
        // Past its end there is nothing.
        assert_eq!(file.columns(48_000, 48_000, 1).expect("read"), [(0, 0)]);
    }
}
