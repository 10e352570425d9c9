//! Lists of the dub as CSV: one row a sound, frames of several places with a blank between.

use onestrand_film::Gauge;
use onestrand_sheets::{EffectPlace, EffectsList, MusicList};

use crate::sheet_csv::written;

const EFFECTS: [&str; 11] = [
    "number",
    "sound",
    "tape",
    "counter",
    "seconds",
    "first_sound",
    "at",
    "note",
    "at_footage",
    "at_seconds",
    "at_counter",
];
const MUSIC: [&str; 10] = [
    "title",
    "written_by",
    "played_by",
    "recording",
    "used",
    "work",
    "recorded",
    "agreed",
    "work_holder",
    "recording_holder",
];

/// `at` are running frames of the version, `at_footage` the same as `ft+fr`, `at_seconds` at
/// the speed of the mix, `at_counter` what the timed tape's counter says then.
pub(super) fn effects(list: &EffectsList) -> String {
    let rows = list.rows.iter().map(|row| {
        let at = |how: &dyn Fn(&EffectPlace) -> String| {
            let each: Vec<String> = row.at.iter().map(how).collect();
            each.join(" ")
        };
        let counter = |place: &EffectPlace| place.counter.map(|count| format!("{count:.1}"));
        let counters: Vec<String> = row.at.iter().filter_map(counter).collect();
        [
            row.number.clone(),
            row.sound.clone(),
            row.tape.clone(),
            row.counter.clone(),
            row.seconds.map_or(String::new(), |s| format!("{s:.3}")),
            row.first_sound.clone(),
            at(&|place| place.frame.to_string()),
            row.note.clone(),
            at(&|place| footage(list.head.gauge, place.frame)),
            at(&|place| format!("{:.3}", f64::from(place.frame) / list.true_speed.as_f64())),
            counters.join(" "),
        ]
    });
    written(&EFFECTS, rows.collect())
}

/// A running frame as forms write it: `12+34`.
fn footage(gauge: Gauge, frame: u32) -> String {
    let a_foot = gauge.spec().frames_per_foot;
    format!("{}+{}", frame / a_foot, frame % a_foot)
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
            row.ask_for_work.clone(),
            row.ask_for_recording.clone(),
        ]
    });
    written(&MUSIC, rows.collect())
}
