//! Sounds, the mix and loudness on the command line.

use std::path::Path;

use onestrand_production::{
    self as acts, Cancel, MixAsked, MixSaid, MixSet, Production, Progress, SoundAdded,
};
use serde_json::json;

use crate::answer::Answer;
use crate::arguments::{MixOut, Sound};
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::words;

pub(crate) fn sound(command: Sound, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    match command {
        Sound::Add { dir, files } => {
            let mut production = open(&dir, cancel, bar)?;
            let mut added = Vec::with_capacity(files.len());
            for file in &files {
                added.push(acts::add_sound(&mut production, file, cancel, bar)?);
            }
            ready(&production, &added, cancel, bar);
            let words = words::sounds_added(&added);
            Ok(Answer::yes(&added, words))
        }
        Sound::List { dir } => {
            let production = open(&dir, cancel, bar)?;
            let sounds = acts::sound_list(&production)?;
            let words = words::sounds(&sounds);
            Ok(Answer::yes(&sounds, words))
        }
        Sound::Listen(given) => crate::hearing::listen(given, cancel, bar),
    }
}

/// Makes new sounds ready, so that nobody waits at the first listening. They are in already:
/// what goes wrong here, or is stopped, is told and made up for when they are heard.
fn ready(production: &Production, added: &[SoundAdded], cancel: &Cancel, bar: &mut Bar) {
    for one in added {
        let file = acts::sound_file(production, one.id);
        if let Err(why) = file.and_then(|file| file.make_ready_telling(cancel, bar)) {
            bar.note(&format!("{}: not made ready yet: {why}", one.sound.name));
        }
    }
}

pub(crate) fn mix(given: MixOut, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let production = open(&given.dir, cancel, bar)?;
    let cut = acts::version_for_sound(&production, given.cut.as_deref())?;
    let asked = MixAsked {
        speed: given.speed,
        leader: given.leader,
        alone: Vec::new(),
    };
    let set = MixSet::of(&production, &cut, &asked)?;
    let said = MixSaid::of(&production, &cut, "");
    let written = acts::write_mix(&set, &said, &given.out, None, cancel, bar)?;
    let mut stems = Vec::new();
    if given.stems {
        for (nth, name) in set.names.iter().enumerate() {
            let out = stem_path(&given.out, nth, name);
            let said = MixSaid::of(&production, &cut, name);
            stems.push(acts::write_mix(&set, &said, &out, Some(nth), cancel, bar)?);
        }
    }
    let words = words::mixed(&written, &stems);
    let mut document = json!(written);
    if given.stems {
        document["stems"] = json!(stems);
    }
    Ok(Answer::yes(&document, words))
}

/// The mix's own name with the column behind it.
fn stem_path(mix: &Path, nth: usize, column: &str) -> std::path::PathBuf {
    let plain = column
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' });
    let stem = mix.file_stem().unwrap_or_default().to_string_lossy();
    let name = format!("{stem}-{}-{}.wav", nth + 1, plain.collect::<String>());
    mix.with_file_name(name)
}

pub(crate) fn loudness(file: &Path, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let found = acts::loudness_of_file(file, cancel, bar)?;
    let words = words::loudness(&found);
    Ok(Answer::yes(&found, words))
}
