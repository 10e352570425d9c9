//! The sounds of the example film, kept and laid, so that it is a film with sound.

use std::path::Path;

use onestrand_example::{self as example, ExampleColumn, ExampleCue, ExampleSound, Hold};
use onestrand_intake::{Cancel, SoundFacts, SoundRead};
use onestrand_sound::{KeepSound, SoundError};
use onestrand_store::{Act, Production};

use super::kept::{Kept, Part};
use super::kept_sound::under_its_fingerprint;
use super::laid::Laying;
use super::mix_kept::{mix_of, speed_of};
use super::sounds_folder;
use super::version::Version;
use crate::documents::{
    AnchorWords, ColumnWords, CueWords, DuckedWords, FadeWords, HoldsToWord, LaidWords,
    LevelPointWords, LoopWords, RightStateWord, RightsWords, SoundWords,
};
use crate::list_places::anew;
use crate::{ProductionError, Progress};

/// The version its sounds are laid to.
const CUT: &str = "v1";

/// Keeps the sounds of the example and lays them to its first cut, as one step, unless the
/// film has sounds, columns or cues. Gives whether it did.
///
/// # Errors
/// [`ProductionError`]; nothing of the film is changed then.
pub fn lay_example_sound(
    production: &mut Production,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<bool, ProductionError> {
    if production.next_dub_id()? != first_id() || production.cut(CUT).is_err() {
        return Ok(false);
    }
    let sounds = sounds(&sounds_folder(production), cancel, progress)?;
    let columns = columns(after(&sounds));
    let cues = cues(production, &sounds, &columns)?;
    let mut acts = Vec::new();
    put(&mut acts, &sounds)?;
    put(&mut acts, &columns)?;
    put(&mut acts, &cues)?;
    production.act("lay the sounds", &Act::All { acts })?;
    Ok(true)
}

/// The number of the first part there can be.
const fn first_id() -> i64 {
    1
}

/// The number behind those of some parts.
fn after<T>(parts: &[Kept<T>]) -> i64 {
    parts.last().map_or(first_id(), |last| last.id + 1)
}

fn put<T: Part>(acts: &mut Vec<Act>, parts: &[Kept<T>]) -> Result<(), ProductionError> {
    for part in parts {
        acts.push(part.put()?);
    }
    Ok(())
}

/// Parts with their numbers, in their order.
fn numbered<T>(first: i64, words: impl IntoIterator<Item = T>) -> Vec<Kept<T>> {
    let one = |((nth, id), words)| Kept {
        id,
        place: anew(nth),
        words,
    };
    (0..).zip(first..).zip(words).map(one).collect()
}

fn sounds(
    folder: &Path,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<Vec<Kept<SoundWords>>, ProductionError> {
    std::fs::create_dir_all(folder).map_err(crate::error::file("make the folder", folder))?;
    let all = example::sounds();
    progress.begin("making its sounds", Some(all.len() as u64));
    let mut kept = Vec::with_capacity(all.len());
    for (done, sound) in all.iter().enumerate() {
        if cancel.is_cancelled() {
            return Err(SoundError::Stopped.into());
        }
        kept.push(keep(folder, sound, done + 1)?);
        progress.at(done as u64 + 1);
    }
    Ok(numbered(first_id(), kept))
}

fn keep(folder: &Path, sound: &ExampleSound, nth: usize) -> Result<SoundWords, ProductionError> {
    let half = super::kept_sound::half(folder)?;
    let mut keeping = KeepSound::create(half.path(), example::SOUND_RATE, 1)?;
    keeping.add(&sound.samples())?;
    let facts = keeping.done()?;
    let kept = under_its_fingerprint(half, folder)?;
    let read = SoundRead {
        facts: SoundFacts {
            rate: example::SOUND_RATE,
            channels_found: 1,
            channels: 1,
            coding: "pcm_f32le".to_owned(),
            promised_s: None,
        },
        samples: facts.samples,
        complaint: None,
    };
    let mut words = super::sounds::words(sound.name, kept, &read, &facts);
    // It came from no file.
    "made by the program".clone_into(&mut words.facts.file);
    sound.name.clone_into(&mut words.name);
    sound.words.clone_into(&mut words.note);
    words.number = nth.to_string();
    let round = example::goes_round(sound.name);
    words.round = round.map(|(from, to, crossed)| LoopWords { from, to, crossed });
    words.rights = RightsWords {
        author: "the program".to_owned(),
        performer: "the program".to_owned(),
        work: RightStateWord::NotNeeded,
        recorded: RightStateWord::NotNeeded,
        licence: "our own: MIT or Apache-2.0, as the program is".to_owned(),
        cleared: true,
        ..RightsWords::default()
    };
    Ok(words)
}

fn columns(first: i64) -> Vec<Kept<ColumnWords>> {
    let all = example::columns();
    let number = |name: &str| {
        let place = all.iter().position(|known| known.name == name);
        place.and_then(|place| i64::try_from(place).ok())
    };
    let words = |column: &ExampleColumn| ColumnWords {
        name: column.name.to_owned(),
        ducked: column.ducked.and_then(|(under, by)| {
            let under = first + number(under)?;
            Some(DuckedWords { under, by })
        }),
        ..ColumnWords::default()
    };
    numbered(first, all.iter().map(words))
}

fn cues(
    production: &Production,
    sounds: &[Kept<SoundWords>],
    columns: &[Kept<ColumnWords>],
) -> Result<Vec<Kept<CueWords>>, ProductionError> {
    let version = Version::of(production, CUT)?;
    let laying = Laying {
        version: &version,
        sounds,
        speed: speed_of(production, &mix_of(production)?)?,
        lead: None,
        joins: Vec::new(),
        marks: Vec::new(),
    };
    let one = |cue: &ExampleCue| {
        let column = columns.iter().find(|known| known.words.name == cue.column);
        let sound = sounds.iter().find(|known| known.words.name == cue.sound);
        let mut words = CueWords {
            column: column.map_or(0, |known| known.id),
            sound: sound.map(|known| known.id),
            ..words(cue)
        };
        words.laid = laying.place(&words).map(|laid| LaidWords {
            cut: CUT.to_owned(),
            at: laid.at,
            frames: laid.frames,
        });
        words
    };
    // The numbers go on; cues stand where they are heard and need no places.
    let mut cues = numbered(after(columns), example::cues().iter().map(one));
    for cue in &mut cues {
        cue.place = 0;
    }
    Ok(cues)
}

fn words(cue: &ExampleCue) -> CueWords {
    let fade = |frames: u32| FadeWords {
        frames,
        ..FadeWords::default()
    };
    CueWords {
        name: cue.name.to_owned(),
        speech: cue.caption.to_owned(),
        start: anchor(cue.start),
        end: cue.end.map(anchor),
        to: cue.to,
        looped: cue.is_round,
        level: cue.level,
        line: cue
            .line
            .iter()
            .map(|&(at, level)| LevelPointWords { at, level })
            .collect(),
        fade_in: fade(cue.fades.0),
        fade_out: fade(cue.fades.1),
        stroke: cue.is_stroke,
        note: cue.note.to_owned(),
        ..CueWords::default()
    }
}

fn anchor(place: example::Place) -> AnchorWords {
    let (to, roll, frame) = match place.hold {
        Hold::Frame { roll, frame } => (HoldsToWord::Frame, roll, frame),
        Hold::Join { roll, frame } => (HoldsToWord::Join, roll, frame),
    };
    AnchorWords {
        to,
        roll: format!("R{roll}"),
        frame,
        offset: place.later,
    }
}
