//! What is filled in on the spot, with what is planned: on paper and on a phone.

use onestrand_film::Frames;
use onestrand_sheets::{
    CameraPage, CameraReportSheet, CameraReportTake, PlannedSetup, PlannedSound, SoundReportSheet,
    WildSoundLine, WildSoundList,
};

use super::ScriptSheetsToPrint;
use super::scripts::what_happens;
use crate::documents::{SetupDocument, WildSoundWords};

/// Empty lines after what is planned: about a page of each.
const CAMERA_LINES: u32 = 11;
const SOUND_LINES: u32 = 8;
const WILD_LINES: u32 = 12;

/// The highest number of a take of a setup that was shot.
fn highest(gathered: &ScriptSheetsToPrint, setup: &str) -> u32 {
    let takes = gathered.script.takes.iter();
    let of_setup = takes.filter(|take| take.setup == setup);
    of_setup.map(|take| take.take).max().unwrap_or(0)
}

pub(super) fn camera_report(gathered: &ScriptSheetsToPrint) -> CameraReportSheet {
    let takes = gathered.setups().flat_map(|one| {
        let setup = &one.setup;
        let first = highest(gathered, &setup.name);
        let still = u32::from(setup.takes).saturating_sub(one.shot);
        (1..=still).map(move |more| CameraReportTake {
            setup: setup.name.clone(),
            take: (first + more).to_string(),
            action: what_happens(gathered, setup),
        })
    });
    CameraReportSheet {
        head: gathered.head.clone(),
        roll: String::new(),
        batch: String::new(),
        camera: String::new(),
        takes: takes.collect(),
        blank_lines: CAMERA_LINES,
    }
}

pub(super) fn sound_report(gathered: &ScriptSheetsToPrint) -> SoundReportSheet {
    let in_sync = gathered.setups().map(|one| &one.setup);
    let in_sync = in_sync.filter(|setup| !setup.sound.is_empty());
    let in_sync = in_sync.map(|setup| PlannedSound {
        what: format!("{}: {}", setup.name, setup.sound),
        distance: String::new(),
        wild: false,
    });
    let wild = still_wanted(gathered).map(|one| PlannedSound {
        what: one.sound.clone(),
        distance: one.distance.clone(),
        wild: true,
    });
    SoundReportSheet {
        head: gathered.head.clone(),
        sounds: in_sync.chain(wild).collect(),
        blank_lines: SOUND_LINES,
    }
}

/// Wild sounds that are not in the box yet.
fn still_wanted(gathered: &ScriptSheetsToPrint) -> impl Iterator<Item = &WildSoundWords> {
    let all = gathered
        .script
        .wild_sounds
        .iter()
        .map(|one| &one.wild_sound);
    all.filter(|one| !one.got)
}

pub(super) fn wild_sounds(gathered: &ScriptSheetsToPrint) -> WildSoundList {
    let sounds = still_wanted(gathered).map(|one| WildSoundLine {
        sound: one.sound.clone(),
        place: one.place.clone(),
        length: length(&one.seconds),
        distance: one.distance.clone(),
        note: one.note.clone(),
    });
    WildSoundList {
        head: gathered.head.clone(),
        sounds: sounds.collect(),
        blank_lines: WILD_LINES,
    }
}

/// Seconds as one says them: `2 min`, `45 s`.
fn length(seconds: &str) -> String {
    match seconds.parse::<u32>() {
        Ok(0) => String::new(),
        Ok(whole) if whole >= 60 && whole.is_multiple_of(60) => format!("{} min", whole / 60),
        _ if seconds.is_empty() => String::new(),
        _ => format!("{seconds} s"),
    }
}

pub(super) fn camera_page(gathered: &ScriptSheetsToPrint) -> String {
    let head = &gathered.head;
    let setup = |one: &SetupDocument| PlannedSetup {
        name: one.setup.name.clone(),
        action: what_happens(gathered, &one.setup),
        takes: u32::from(one.setup.takes),
        shot: highest(gathered, &one.setup.name),
    };
    // The counter runs over what is lost at the head too.
    let usable = gathered.script.stock.load;
    let whole = head.gauge.spec().load.map_or(usable, |(frames, _)| frames);
    let place = [head.place.as_str(), head.day.as_str()];
    let place: Vec<&str> = place
        .into_iter()
        .filter(|words| !words.is_empty())
        .collect();
    onestrand_sheets::camera_page(&CameraPage {
        id: format!("{} {}", head.title, gathered.created),
        id_before: head.title.clone(),
        title: head.title.clone(),
        place: place.join(", "),
        gauge: head.gauge,
        speed: head.speed,
        roll: String::new(),
        camera: String::new(),
        batch: String::new(),
        load: Frames::new(whole.max(usable))
            .ok()
            .filter(|load| *load > Frames::ZERO),
        setups: gathered.setups().map(setup).collect(),
    })
}
