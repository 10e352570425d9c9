//! The list of wild sounds, brought in.

use onestrand_plan::WildSound;
use onestrand_store::{Act, ScriptPart, WildSoundRecord};

use super::at_work::put_at;
use super::import::said;
use super::kept::KeptScript;
use crate::list_places::STEP;

/// The acts that put sounds behind those there are; one that is there already under the
/// same words and place is not put twice.
pub(super) fn wild_acts(kept: &KeptScript, next: i64, sounds: Vec<WildSound>) -> Vec<Act> {
    let highest = kept.wild_sounds.iter().map(|s| s.place).max();
    let first = highest.map_or(0, |place| place.saturating_add(STEP));
    let there = |sound: &WildSound| {
        let mut kept = kept.wild_sounds.iter();
        kept.any(|k| k.it.sound == sound.sound && k.it.place == sound.place)
    };
    let new = sounds.into_iter().filter(|sound| !there(sound));
    new.zip(0_i64..)
        .map(|(sound, nth)| {
            let seconds = said(sound.seconds);
            let record = WildSoundRecord {
                sound: sound.sound,
                place: sound.place,
                seconds,
                distance: sound.distance,
                got: false,
                note: sound.note,
            };
            let place = first.saturating_add(nth.saturating_mul(STEP));
            put_at(next + nth, place, ScriptPart::WildSound(record))
        })
        .collect()
}
