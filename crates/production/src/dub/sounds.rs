//! Sounds of a film: brought in, kept in its folder, made ready to be mixed.

use std::path::Path;

use onestrand_intake::{Cancel, Ffmpeg, IntakeError, SoundFacts, SoundRead, SoundSink, read_sound};
use onestrand_sound::{KeepSound, KeptFacts, SoundError, decibels};
use onestrand_store::{Act, Production};
use serde::Serialize;

use super::kept::Kept;
use super::kept_sound::under_its_fingerprint;
use super::sound_file::keep_outline;
use super::sounds_folder;
use crate::documents::{CueWords, RightsWords, SoundFactsWords, SoundWords};
use crate::error::{file, unfit};
use crate::list_places::{STEP, anew};
use crate::{ProductionError, Progress};

/// A sound that was brought in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SoundAdded {
    /// Its number.
    pub id: i64,
    /// What is kept of it.
    pub sound: SoundWords,
    /// How many cues waited for it.
    pub cues: usize,
}

/// Reads a sound and keeps it in the film's folder; nothing of the film is changed yet.
/// `called` is the name of the file it came from.
///
/// # Errors
/// [`ProductionError::Intake`] for what is no sound, [`ProductionError::Sound`] of the disk.
pub fn keep_sound(
    folder: &Path,
    path: &Path,
    called: &str,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<SoundWords, ProductionError> {
    std::fs::create_dir_all(folder).map_err(file("make the folder", folder))?;
    let ffmpeg = Ffmpeg::locate()?;
    let half = super::kept_sound::half(folder)?;
    let mut keeping = Keeping {
        place: half.path(),
        progress,
        keep: None,
        wrong: None,
        came: 0,
        channels: 1,
    };
    let read = read_sound(&ffmpeg, path, cancel, &mut keeping);
    if let Some(wrong) = keeping.wrong {
        return Err(wrong.into());
    }
    let read = read?;
    let none = || unfit("no sound came".to_owned(), "try another file");
    let keep = keeping.keep.ok_or_else(none)?;
    let outline = keep.outline();
    let facts = keep.done()?;
    let kept = under_its_fingerprint(half, folder)?;
    keep_outline(folder, &kept, &outline);
    Ok(words(called, kept, &read, &facts))
}

/// A sound on its way into its file.
struct Keeping<'a> {
    place: &'a Path,
    progress: &'a mut dyn Progress,
    keep: Option<KeepSound>,
    /// A failure of ours while FFmpeg is listened to.
    wrong: Option<SoundError>,
    came: u64,
    channels: u64,
}

impl Keeping<'_> {
    /// What went wrong is kept aside, and reading stops.
    fn told<T>(&mut self, made: Result<T, SoundError>) -> Result<T, IntakeError> {
        made.map_err(|why| {
            self.wrong = Some(why);
            IntakeError::Cancelled { frames: 0 }
        })
    }
}

impl SoundSink for Keeping<'_> {
    fn begin(&mut self, facts: &SoundFacts) -> Result<(), IntakeError> {
        let all = facts.promised_s.map(|s| (s * f64::from(facts.rate)) as u64);
        self.progress.begin_in("samples", "reading the sound", all);
        self.channels = u64::from(facts.channels.max(1));
        let made = KeepSound::create(self.place, facts.rate, facts.channels as usize);
        self.keep = Some(self.told(made)?);
        Ok(())
    }

    fn take(&mut self, samples: &[f32]) -> Result<(), IntakeError> {
        let Some(keep) = &mut self.keep else {
            return Ok(());
        };
        let kept = keep.add(samples);
        self.told(kept)?;
        self.came += samples.len() as u64 / self.channels;
        self.progress.at(self.came);
        Ok(())
    }
}

fn tenths(value: f64) -> Option<i32> {
    value.is_finite().then(|| (value * 10.0).round() as i32)
}

/// What is kept of a sound that was read and kept.
pub(super) fn words(called: &str, kept: String, read: &SoundRead, facts: &KeptFacts) -> SoundWords {
    let name = Path::new(called)
        .file_stem()
        .map_or(called.to_owned(), |stem| {
            stem.to_string_lossy().replace(['_'], " ")
        });
    SoundWords {
        name,
        number: String::new(),
        kept,
        facts: SoundFactsWords {
            file: called.to_owned(),
            rate: read.facts.rate,
            channels_found: read.facts.channels_found,
            channels: read.facts.channels,
            samples: facts.samples,
            coding: read.facts.coding.clone(),
            peak: tenths(decibels(facts.peak)),
            loudness: facts.loudness.integrated_lufs.and_then(tenths),
            remarks: remarks(read, facts),
        },
        play: 1_000_000,
        first_sound: 0,
        round: None,
        beats: None,
        rights: RightsWords::default(),
        note: String::new(),
    }
}

/// What a person should know before the sound is used.
fn remarks(read: &SoundRead, facts: &KeptFacts) -> Vec<String> {
    let mut remarks = Vec::new();
    if facts.peak < 1e-5 {
        remarks.push("silent from end to end".to_owned());
    }
    if facts.clipped > 0 {
        let rate = f64::from(read.facts.rate);
        let ms = facts.clipped as f64 / rate * 1000.0;
        remarks.push(format!(
            "clipped: {} samples at full scale, {ms:.1} ms in all",
            facts.clipped
        ));
    }
    if facts.offset > 0.005 {
        let percent = facts.offset * 100.0;
        remarks.push(format!(
            "lies {percent:.1} % off the middle (DC): cut the lows of its column"
        ));
    }
    if read.facts.channels_found > 2 {
        remarks.push(format!(
            "{} channels folded to two: centre and surrounds 3 dB down to both sides",
            read.facts.channels_found
        ));
    }
    if let Some(missing) = read.missing_s() {
        remarks.push(format!(
            "breaks off: {missing:.1} s of what the file promises did not come"
        ));
    }
    remarks
}

/// Brings a sound in. Cues that wait for a sound of its name take it.
///
/// # Errors
/// As [`keep_sound`], and [`ProductionError::Store`].
pub fn add_sound(
    production: &mut Production,
    path: &Path,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<SoundAdded, ProductionError> {
    let called = path
        .file_name()
        .unwrap_or_default()
        .to_string_lossy()
        .into_owned();
    let folder = sounds_folder(production);
    let sound = keep_sound(&folder, path, &called, cancel, progress)?;
    let (id, cues, act) = sound_added(production, &sound)?;
    production.act(&format!("sound {}", sound.name), &act)?;
    Ok(SoundAdded { id, sound, cues })
}

/// The act that adds a kept sound, its number, and how many cues waited for it.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn sound_added(
    production: &Production,
    sound: &SoundWords,
) -> Result<(i64, usize, Act), ProductionError> {
    let id = production.next_dub_id()?;
    let last = Kept::<SoundWords>::all(production)?
        .last()
        .map(|kept| kept.place);
    let place = last.map_or(anew(0), |last| last + STEP);
    let words = sound.clone();
    let mut acts = vec![Kept { id, place, words }.put()?];
    for mut kept in Kept::<CueWords>::all(production)? {
        if kept.words.sound.is_none() && kept.words.name.eq_ignore_ascii_case(&sound.name) {
            kept.words.sound = Some(id);
            acts.push(kept.put()?);
        }
    }
    let cues = acts.len() - 1;
    Ok((id, cues, Act::All { acts }))
}
