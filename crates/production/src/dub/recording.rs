//! Voice and effects recorded in the room: each second is on the disk as soon as it comes,
//! and what a crash or a full disk leaves is found again.

use std::fs::File;
use std::path::Path;

use onestrand_store::Production;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::changes::{DubChange, DubChangeKind};
use super::kept::Kept;
use super::recording_file::Closed;
use super::recording_place::{BEFORE, Finished, Place, Slip, layout, not_there, numbers};
use super::sounds_of;
use crate::ProductionError;
use crate::documents::{SoundFactsWords, SoundWords};
use crate::error::{file, unfit};

/// What a recording is begun with.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct RecordingWords {
    /// What is recorded: voice, pass 2.
    pub name: String,
    /// Samples a second, as the microphone gives them.
    pub rate: u32,
    /// 1 or 2.
    pub channels: u32,
    /// To which version it was recorded; empty when to none.
    #[serde(default)]
    #[schema(required = true)]
    pub cut: String,
    /// From which running frame on the picture ran.
    #[serde(default)]
    #[schema(required = true)]
    pub at: i64,
}

/// A recording that is being made, or that was left half.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct RecordingDocument {
    /// Its name in addresses.
    pub recording: String,
    /// What it was begun with.
    pub about: RecordingWords,
    /// What is kept of it. Unit: samples of each channel.
    pub samples: u64,
    /// How far into it the frame is heard that it was recorded from; nothing where it broke
    /// off before. Unit: samples of each channel.
    pub offset: Option<u64>,
    /// Some window is recording it at this moment.
    pub runs: bool,
}

/// A recording that has become a sound of the film.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct RecordedDocument {
    /// The number of the sound.
    pub id: i64,
    /// How long it is. Unit: samples of each channel.
    pub samples: u64,
    /// Where in it the first frame is heard that it was recorded to: the `from` of its cue.
    pub from: u64,
    /// Its highest sample. Unit: tenths of a decibel below full scale; nothing: silence.
    pub peak: Option<i32>,
}

/// Begins a recording in the folder of a film.
///
/// # Errors
/// [`ProductionError::Unfit`] for a rate or channels that no microphone has,
/// [`ProductionError::File`] when the disk refuses.
pub fn begin_recording(
    film: &Path,
    about: &RecordingWords,
) -> Result<RecordingDocument, ProductionError> {
    if !(8_000..=192_000).contains(&about.rate) || !(1..=2).contains(&about.channels) {
        return Err(unfit(
            format!(
                "{} samples a second in {} channels cannot be recorded",
                about.rate, about.channels
            ),
            "set the microphone to one channel or two, with 48,000 samples a second",
        ));
    }
    if about.name.trim().is_empty() || about.name.chars().count() > 200 {
        return Err(unfit(
            "a recording needs a name of at most 200 letters".to_owned(),
            "write what is recorded: voice, pass 1",
        ));
    }
    let folder = sounds_of(film);
    std::fs::create_dir_all(&folder).map_err(file("make the folder", &folder))?;
    let mut number = 1 + numbers(&folder).into_iter().max().unwrap_or(0);
    loop {
        let place = Place::named(film, &format!("{BEFORE}{number}"))?;
        match File::create_new(&place.part) {
            // Another window was quicker.
            Err(e) if e.kind() == std::io::ErrorKind::AlreadyExists => number += 1,
            Err(e) => return Err(file("begin the recording", &place.part)(e)),
            Ok(mut out) => {
                let slip = Slip {
                    about: about.clone(),
                    offset: None,
                    finished: None,
                    sound: None,
                };
                let begun = std::io::Write::write_all(&mut out, &layout(about).head(None))
                    .and_then(|()| out.sync_all())
                    .map_err(file("begin the recording", &place.part))
                    .and_then(|()| place.write(&slip));
                if let Err(why) = begun {
                    // Nothing was recorded yet; an empty file helps nobody.
                    let _gone = std::fs::remove_file(&place.part);
                    return Err(why);
                }
                return Ok(place.document(slip));
            }
        }
    }
}

/// Keeps what was recorded from sample `at` on: 32-bit floating point, least byte first,
/// channels in turn. It is on the disk when this returns. `offset` is noted as soon as it is
/// known: how far into the recording the frame is heard that it was recorded from. Gives the
/// samples of each channel that are kept now.
///
/// # Errors
/// [`ProductionError::Unfit`] for a gap; [`ProductionError::File`] when the disk refuses:
/// what it took is kept.
pub fn keep_recorded(
    film: &Path,
    recording: &str,
    at: u64,
    samples: &[u8],
    offset: Option<u64>,
) -> Result<u64, ProductionError> {
    let place = Place::named(film, recording)?;
    let mut slip = place.read()?;
    if slip.finished.is_some() {
        return Err(unfit(
            "this recording is finished".to_owned(),
            "begin another pass",
        ));
    }
    let kept = layout(&slip.about).write(&place.part, at, samples)?;
    if offset.is_some() && offset != slip.offset {
        slip.offset = offset;
        // What cannot be noted now comes again with the next second.
        let _noted = place.write(&slip);
    }
    Ok(kept)
}

/// Recordings that are being made or were left half, in the order they were begun.
#[must_use]
pub fn recordings(film: &Path) -> Vec<RecordingDocument> {
    let all = numbers(&sounds_of(film)).into_iter();
    let half = all.filter_map(|number| {
        let place = Place::named(film, &format!("{BEFORE}{number}")).ok()?;
        let slip = place.read().ok()?;
        let gone = slip.finished.is_none() && !place.part.is_file();
        (slip.sound.is_none() && !gone).then(|| place.document(slip))
    });
    half.collect()
}

/// Closes the file of a recording and gives it its lasting name; the film is not changed
/// yet. Long recordings take a moment: it is read once as a whole.
///
/// # Errors
/// [`ProductionError::Unfit`] when nothing was recorded, [`ProductionError::File`].
pub fn close_recording(film: &Path, recording: &str) -> Result<(), ProductionError> {
    let place = Place::named(film, recording)?;
    let mut slip = place.read()?;
    let finished = if let Some(finished) = slip.finished {
        finished
    } else {
        let lay = layout(&slip.about);
        if lay.moments(&place.part) == 0 {
            return Err(unfit(
                "nothing was recorded".to_owned(),
                "throw it away, see that the microphone is on, and record again",
            ));
        }
        let closed = lay.close(&place.part)?;
        let finished = Finished {
            kept: format!("{}.wav", closed.print),
            facts: facts(&slip.about, lay.moments(&place.part), &closed),
        };
        slip.finished = Some(finished.clone());
        place.write(&slip)?;
        finished
    };
    let kept = place.folder.join(&finished.kept);
    if place.part.is_file() {
        std::fs::rename(&place.part, &kept).map_err(file("finish the recording", &kept))?;
    }
    Ok(())
}

fn facts(about: &RecordingWords, samples: u64, closed: &Closed) -> SoundFactsWords {
    let mut remarks = Vec::new();
    let peak = closed.peak;
    if peak == 0.0 {
        remarks.push("it is silent: the microphone gave nothing".to_owned());
    } else if peak >= 1.0 {
        remarks.push("its highest samples reach full scale: it may be clipped".to_owned());
    }
    SoundFactsWords {
        file: String::new(),
        rate: about.rate,
        channels_found: about.channels,
        channels: about.channels,
        samples,
        coding: "recorded in the room, 32-bit floating point".to_owned(),
        peak: tenths(peak),
        loudness: closed.loudness.map(|lufs| (10.0 * lufs).round() as i32),
        remarks,
    }
}

/// Tenths of a decibel below full scale; nothing for silence.
fn tenths(peak: f32) -> Option<i32> {
    (peak > 0.0).then(|| (200.0 * f64::from(peak).log10()).round() as i32)
}

/// Makes a [closed](close_recording) recording a sound of the film; asked again, it says
/// the same. `offset` is how far into it the frame is heard that it was recorded from:
/// the count-in, and how late the machine is. Unit: samples.
///
/// # Errors
/// [`ProductionError::Unfit`] when it is not closed or shorter than `offset`,
/// [`ProductionError::Store`].
pub fn finish_recording(
    production: &mut Production,
    recording: &str,
    offset: u64,
) -> Result<RecordedDocument, ProductionError> {
    let place = Place::named(production.dir(), recording)?;
    let mut slip = place.read()?;
    let Some(finished) = slip.finished.clone() else {
        return Err(unfit(
            "this recording is still being made".to_owned(),
            "stop it first",
        ));
    };
    if offset >= finished.facts.samples {
        return Err(unfit(
            "the recording was stopped before its first frame was heard".to_owned(),
            "record again, or keep it from its first sample",
        ));
    }
    let id = if let Some(id) = slip.sound {
        id
    } else {
        let id = added(production, &place.name, &slip.about, &finished)?;
        slip.sound = Some(id);
        // The sound is in the film; without this note asking again finds it in the journal.
        let _noted = place.write(&slip);
        id
    };
    Ok(RecordedDocument {
        id,
        samples: finished.facts.samples,
        from: offset,
        peak: finished.facts.peak,
    })
}

fn added(
    production: &mut Production,
    recording: &str,
    about: &RecordingWords,
    finished: &Finished,
) -> Result<i64, ProductionError> {
    let there = |production: &Production| {
        let all = Kept::<SoundWords>::all(production)?;
        let found = all.into_iter().find(|one| one.words.kept == finished.kept);
        Ok::<_, ProductionError>(found.map(|one| one.id))
    };
    if let Some(id) = there(production)? {
        return Ok(id);
    }
    let sound = SoundWords {
        name: about.name.trim().to_owned(),
        number: String::new(),
        kept: finished.kept.clone(),
        facts: finished.facts.clone(),
        play: 1_000_000,
        first_sound: 0,
        round: None,
        beats: None,
        rights: crate::documents::RightsWords::default(),
        note: String::new(),
    };
    let change = DubChange {
        id: None,
        after: None,
        to: DubChangeKind::Sound {
            sound: Box::new(sound),
        },
    };
    let (words, act) = change.act(production)?;
    let key = format!("{recording} {}", finished.kept);
    production.act_once(&key, &words, &act)?;
    there(production)?.ok_or_else(|| not_there(recording))
}

/// Throws a recording away that is not a sound of the film.
///
/// # Errors
/// [`ProductionError::Unfit`] when it is one, [`ProductionError::File`].
pub fn throw_recording_away(film: &Path, recording: &str) -> Result<(), ProductionError> {
    let place = Place::named(film, recording)?;
    let slip = place.read()?;
    if slip.sound.is_some() {
        return Err(unfit(
            "this recording is a sound of the film".to_owned(),
            "take the sound out of the film instead",
        ));
    }
    for path in [&place.part, &place.slip] {
        if path.is_file() {
            std::fs::remove_file(path).map_err(file("throw the recording away", path))?;
        }
    }
    Ok(())
}

/// When a film is opened: slips of recordings that have become sounds go, and so does what
/// was begun and holds nothing, and so do sounds that were half brought in. Everything
/// with a recorded sample in it stays and is offered.
pub fn sweep_recordings(film: &Path) {
    super::kept_sound::sweep(&sounds_of(film));
    for number in numbers(&sounds_of(film)) {
        let Ok(place) = Place::named(film, &format!("{BEFORE}{number}")) else {
            continue;
        };
        let is_over = place.read().map_or(true, |slip| {
            slip.sound.is_some()
                || (slip.finished.is_none() && layout(&slip.about).moments(&place.part) == 0)
        });
        if is_over {
            // What cannot be removed now is swept the next time.
            let _gone = std::fs::remove_file(&place.part);
            let _gone = std::fs::remove_file(&place.slip);
        }
    }
}
