//! The forms that are filled in on the spot.

use serde::Serialize;

use super::furniture::{plan_form, say_missing};
use crate::forms::record::FormRecord;
use crate::plan::{CameraReportSheet, SoundReportSheet, WildSoundList};
use crate::words;

/// What the forms call themselves.
pub(super) const CAMERA_REPORT: &str = "Camera report";
pub(super) const SOUND_REPORT: &str = "Sound report";
pub(super) const WILD_SOUNDS: &str = "Wild sounds";
/// The heading over what is said of the columns.
const HOW: &str = "How to fill it in";
/// No form has more empty lines than a ream has room for.
const MOST_BLANK: u32 = 2_000;

#[derive(Serialize)]
pub(super) struct CameraRecord {
    pub(super) form: FormRecord,
    roll: String,
    batch: String,
    camera: String,
    takes: Vec<TakeRecord>,
    blank: u32,
}

#[derive(Serialize)]
struct TakeRecord {
    setup: String,
    take: String,
    action: String,
}

pub(super) fn camera_report(report: &CameraReportSheet) -> CameraRecord {
    let head = &report.head;
    let planned = !report.takes.is_empty();
    let kind = if planned {
        "with what is planned"
    } else {
        "to fill in"
    };
    let mut form = plan_form(head, CAMERA_REPORT, kind, &[]);
    form.got = HOW;
    form.foot = vec![
        "The counter as it stands before and after the take: what has run, not what is left. Ring \
         the take you like best."
            .to_owned(),
    ];
    form.assumptions = vec![
        "“Start” and “end” are the counter, in feet and frames or in frames; say which once. End \
         less start is the take, and the next take starts where the last one ended. Hold: kept in \
         reserve. NG: no good."
            .to_owned(),
    ];
    let said = report.takes.iter().map(|take| &*take.action);
    let own = [&*report.roll, &*report.batch, &*report.camera];
    say_missing(&mut form, head, said.chain(own));
    CameraRecord {
        form,
        roll: words::plain(&report.roll),
        batch: words::plain(&report.batch),
        camera: words::plain(&report.camera),
        takes: report
            .takes
            .iter()
            .map(|take| TakeRecord {
                setup: words::plain(&take.setup),
                take: words::plain(&take.take),
                action: words::plain(&take.action),
            })
            .collect(),
        blank: report.blank_lines.min(MOST_BLANK),
    }
}

#[derive(Serialize)]
pub(super) struct SoundRecord {
    pub(super) form: FormRecord,
    sounds: Vec<SoundLineRecord>,
    blank: u32,
}

#[derive(Serialize)]
struct SoundLineRecord {
    what: String,
    distance: String,
    wild: bool,
}

pub(super) fn sound_report(report: &SoundReportSheet) -> SoundRecord {
    let head = &report.head;
    let mut form = plan_form(head, SOUND_REPORT, "one tape, one sheet", &["hearing"]);
    form.got = HOW;
    form.hand = "sound";
    form.foot = vec![
        "Record the tone first, then the quiet of the place. A cut is one piece of the tape."
            .to_owned(),
    ];
    form.assumptions = vec![
        "Wild: without the camera. Sync: while the camera ran; then say which take. Without a tone \
         of known pitch nobody can tell later how fast the tape ran."
            .to_owned(),
    ];
    let said = report
        .sounds
        .iter()
        .flat_map(|sound| [&*sound.what, &*sound.distance]);
    say_missing(&mut form, head, said);
    SoundRecord {
        form,
        sounds: report
            .sounds
            .iter()
            .map(|sound| SoundLineRecord {
                what: words::plain(&sound.what),
                distance: words::plain(&sound.distance),
                wild: sound.wild,
            })
            .collect(),
        blank: report.blank_lines.min(MOST_BLANK),
    }
}

#[derive(Serialize)]
pub(super) struct WildRecord {
    pub(super) form: FormRecord,
    sounds: Vec<WildLineRecord>,
    blank: u32,
}

#[derive(Serialize)]
struct WildLineRecord {
    sound: String,
    place: String,
    length: String,
    distance: String,
    note: String,
}

pub(super) fn wild_sounds(list: &WildSoundList) -> WildRecord {
    let head = &list.head;
    let mut form = plan_form(head, WILD_SOUNDS, "to be got without the camera", &[]);
    form.got = HOW;
    form.foot = vec!["Tick what is on the tape and stands on the sound report.".to_owned()];
    form.assumptions = vec![
        "Get each sound longer than you need it, and the quiet of every place for a minute: what \
         lies under the others."
            .to_owned(),
    ];
    let said = list
        .sounds
        .iter()
        .flat_map(|one| [&*one.sound, &*one.place, &*one.distance, &*one.note]);
    say_missing(&mut form, head, said);
    WildRecord {
        form,
        sounds: list
            .sounds
            .iter()
            .map(|one| WildLineRecord {
                sound: words::plain(&one.sound),
                place: words::plain(&one.place),
                length: words::plain(&one.length),
                distance: words::plain(&one.distance),
                note: words::plain(&one.note),
            })
            .collect(),
        blank: list.blank_lines.min(MOST_BLANK),
    }
}
