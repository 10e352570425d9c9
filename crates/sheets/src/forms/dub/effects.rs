//! The list of effects as a form.

use onestrand_typeset::Printed;

use super::furniture::{admit_missing, dub_form, footage_words, speed_words, time_words};
use super::lists::{Cell, ColumnRecord, ListRecord, print};
use crate::dub::{EffectPlace, EffectRow, EffectsList};
use crate::forms::record::Figure;
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Effects list";

/// Prints a list of effects, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set; so with every form of the dub.
pub fn print_effects_list(list: &EffectsList) -> Result<Printed, SheetError> {
    print(FORM, &record(list))
}

fn record(list: &EffectsList) -> ListRecord {
    let mut form = dub_form(&list.head, FORM, "sounds by their numbers", &["hearing"]);
    let count = u32::try_from(list.rows.len()).unwrap_or(u32::MAX);
    let places = list.rows.iter().map(|row| row.at.len()).sum::<usize>();
    let places = u32::try_from(places).unwrap_or(u32::MAX);
    form.figures = vec![
        Figure::counted(count, "sound", "sounds"),
        Figure::counted(places, "place in the film", "places in the film"),
    ];
    form.foot = vec![
        "Set each tape on its first-sound mark, counter at 000, before the pass; tick it off here."
            .to_owned(),
        "Frames, feet and time are those of the version, from 0 at the first picture.".to_owned(),
    ];
    form.assumptions = vec![time_said(list)];
    let counted = counted(list);
    if counted {
        form.assumptions.push(
            "The tape's counter is that of the timed tape, if tape and film start together; one count is many frames: it says when to look, not when to play."
                .to_owned(),
        );
    }
    let said = list.rows.iter().flat_map(|row| [&row.sound, &row.note]);
    let said: Vec<&str> = said.map(String::as_str).collect();
    admit_missing(&mut form, &said);
    ListRecord {
        form,
        before: Vec::new(),
        columns: columns(counted),
        rows: list.rows.iter().map(|one| row(list, one)).collect(),
        none: "No effect is laid yet.",
        blank: list.blank_rows.min(200),
        boxes: vec![columns(counted).len() - 1],
    }
}

/// Whether a tape's counter was timed, so that it stands beside the frames.
fn counted(list: &EffectsList) -> bool {
    let mut places = list.rows.iter().flat_map(|row| &row.at);
    places.any(|place| place.counter.is_some())
}

fn time_said(list: &EffectsList) -> String {
    let speed = speed_words(list.true_speed);
    match list.true_speed == list.head.speed {
        true => format!("Time is at {speed} frames a second; the projector was not measured."),
        false => format!("Time is at {speed} frames a second, as the projector was measured."),
    }
}

fn columns(counted: bool) -> Vec<ColumnRecord> {
    let mut all = vec![
        ColumnRecord::words("no.", 11.0),
        ColumnRecord::words("sound", 0.0),
        ColumnRecord::words("tape, its counter", 25.0),
        ColumnRecord::figures("length, s", 16.0),
        ColumnRecord::words("first sound", 21.0),
        ColumnRecord::figures("frame", 15.0),
        ColumnRecord::figures("feet", 24.0),
        ColumnRecord::figures("time", 18.0),
    ];
    if counted {
        all.push(ColumnRecord::figures("counter", 16.0));
    }
    all.push(ColumnRecord::words("laid", 9.0));
    all
}

fn row(list: &EffectsList, row: &EffectRow) -> Vec<Cell> {
    let at = |how: &dyn Fn(&EffectPlace) -> String| Cell::Figures {
        lines: row.at.iter().map(how).collect(),
    };
    let counter = match (row.tape.trim(), words::plain(&row.counter).as_str()) {
        // Without a tape there is no counter to write.
        ("", "") => String::new(),
        (_, "") => "at ………".to_owned(),
        (_, counter) => format!("at {counter}"),
    };
    let mut cells = vec![
        Cell::large(words::plain(&row.number)),
        Cell::Words {
            lines: vec![words::plain(&row.sound), words::plain(&row.note)],
        },
        Cell::Words {
            lines: vec![words::plain(&row.tape), counter],
        },
        Cell::figure(row.seconds.map_or(String::new(), |s| format!("{s:.1}"))),
        Cell::words(words::plain(&row.first_sound)),
        at(&|place| words::count(place.frame)),
        at(&|place| footage_words(list.head.gauge, place.frame)),
        at(&|place| time_words(place.frame, list.true_speed)),
    ];
    if counted(list) {
        let said = |place: &EffectPlace| place.counter.map(|count| format!("{count:05.1}"));
        cells.push(at(&|place| said(place).unwrap_or_default()));
    }
    cells.push(Cell::Boxes {
        lines: Vec::new(),
        words: vec![""],
        ticked: None,
    });
    cells
}
