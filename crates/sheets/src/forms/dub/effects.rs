//! The list of effects as a form.

use onestrand_typeset::Printed;

use super::furniture::{admit_missing, dub_form};
use super::lists::{Cell, ColumnRecord, ListRecord, print};
use crate::dub::{EffectRow, EffectsList};
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
        "Frames are running frames of the version, from 0 at the first picture.".to_owned(),
    ];
    let said = list.rows.iter().flat_map(|row| [&row.sound, &row.note]);
    let said: Vec<&str> = said.map(String::as_str).collect();
    admit_missing(&mut form, &said);
    ListRecord {
        form,
        before: Vec::new(),
        columns: vec![
            ColumnRecord::words("no.", 12.0),
            ColumnRecord::words("sound", 0.0),
            ColumnRecord::words("tape", 28.0),
            ColumnRecord::figures("counter", 17.0),
            ColumnRecord::figures("length, s", 18.0),
            ColumnRecord::words("first sound", 28.0),
            ColumnRecord::words("wanted at", 36.0),
            ColumnRecord::words("laid", 9.0),
        ],
        rows: list.rows.iter().map(row).collect(),
        none: "No effect is laid yet.",
        blank: list.blank_rows.min(200),
        boxes: vec![7],
    }
}

fn row(row: &EffectRow) -> Vec<Cell> {
    let at: Vec<String> = row.at.iter().map(|frame| words::count(*frame)).collect();
    vec![
        Cell::large(words::plain(&row.number)),
        Cell::Words {
            lines: vec![words::plain(&row.sound), words::plain(&row.note)],
        },
        Cell::words(words::plain(&row.tape)),
        Cell::figure(words::plain(&row.counter)),
        Cell::figure(row.seconds.map_or(String::new(), |s| format!("{s:.1}"))),
        Cell::words(words::plain(&row.first_sound)),
        Cell::figure(at.join(" · ")),
        Cell::Boxes {
            words: vec![""],
            ticked: None,
        },
    ]
}
