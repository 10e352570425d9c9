//! Lists of the dub as CSV: one row a sound, frames of several places with a blank between.

use onestrand_sheets::{EffectsList, MusicList};

use crate::sheet_csv::written;

const EFFECTS: [&str; 8] = [
    "number",
    "sound",
    "tape",
    "counter",
    "seconds",
    "first_sound",
    "at",
    "note",
];
const MUSIC: [&str; 8] = [
    "title",
    "written_by",
    "played_by",
    "recording",
    "used",
    "work",
    "recorded",
    "agreed",
];

/// `at` are running frames of the version.
pub(super) fn effects(list: &EffectsList) -> String {
    let rows = list.rows.iter().map(|row| {
        let at: Vec<String> = row.at.iter().map(u32::to_string).collect();
        [
            row.number.clone(),
            row.sound.clone(),
            row.tape.clone(),
            row.counter.clone(),
            row.seconds.map_or(String::new(), |s| format!("{s:.3}")),
            row.first_sound.clone(),
            at.join(" "),
            row.note.clone(),
        ]
    });
    written(&EFFECTS, rows.collect())
}

/// `used` are running frames: the first, and the first behind.
pub(super) fn music(list: &MusicList) -> String {
    let rows = list.rows.iter().map(|row| {
        let used: Vec<String> = row.used.iter().map(|(a, b)| format!("{a}-{b}")).collect();
        [
            row.title.clone(),
            row.written_by.clone(),
            row.played_by.clone(),
            row.recording.clone(),
            used.join(" "),
            row.work.word().to_owned(),
            row.recorded.word().to_owned(),
            row.agreed.clone(),
        ]
    });
    written(&MUSIC, rows.collect())
}
