//! The outlines of the sounds, as their cues play them.

use std::collections::BTreeMap;

use onestrand_film::Fps;
use onestrand_store::Production;

use crate::documents::{CueDocument, DubDocument, SoundWords};
use crate::{ProductionError, SoundFile, sound_file};

/// Samples a second that the outlines are counted in.
const RATE: f64 = 48_000.0;
/// Most parts of one cue; paper shows no more.
const MOST_PARTS: u32 = 4_000;

/// The files of the sounds a version plays, by their numbers. What is not there is left out.
pub(super) fn files(
    production: &Production,
    dub: &DubDocument,
) -> Result<BTreeMap<i64, SoundFile>, ProductionError> {
    let there = dub.sounds.iter();
    let there = there.filter(|sound| sound.used > 0 && !sound.missing);
    there
        .map(|sound| Ok((sound.id, sound_file(production, sound.id)?)))
        .collect()
}

/// How loud a cue's sound is in equal parts of the cue, a frame each at the most: 0 to 1,
/// before its level. Empty where its file cannot be read, then the block is drawn even.
pub(super) fn outline(
    file: &SoundFile,
    sound: &SoundWords,
    cue: &CueDocument,
    speed: Fps,
) -> Vec<f32> {
    let parts = cue.frames.clamp(1, MOST_PARTS);
    let part = f64::from(cue.frames) * RATE / speed.as_f64() / f64::from(parts);
    // As it is played: a tape that is played faster has fewer samples.
    let played = |sample: u64| {
        let kept = f64::from(sound.facts.rate.max(1)) * f64::from(sound.play.max(1)) / 1e6;
        sample as f64 * RATE / kept
    };
    let all = (played(sound.facts.samples) / part).ceil().max(1.0) as usize;
    let Ok(whole) = file.columns(0, (all as f64 * part) as u64, all) else {
        return Vec::new();
    };
    let last = played(cue.cue.to.unwrap_or(sound.facts.samples));
    let round = sound.round.filter(|_| cue.cue.looped);
    let round = round.map(|round| (played(round.from), played(round.to)));
    let loud = |nth: u32| {
        let mut at = played(cue.cue.from) + f64::from(nth) * part;
        match round {
            Some((from, to)) if at >= to && to > from => at = from + (at - to) % (to - from),
            None if at >= last => return 0.0,
            _ => {}
        }
        let column = whole.get((at / part) as usize);
        column.map_or(0.0, |(low, high)| {
            f32::from(low.unsigned_abs().max(high.unsigned_abs())) / 127.0
        })
    };
    (0..parts).map(loud).collect()
}
