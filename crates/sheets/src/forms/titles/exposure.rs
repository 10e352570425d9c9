//! The exposure sheet as a form: a row for frames that are exposed alike, a box to tick.

use onestrand_film::{Frames, RunningTime};
use onestrand_typeset::Printed;
use serde::Serialize;

use super::furniture::title_form;
use crate::forms::Press;
use crate::forms::record::{Figure, FormRecord, missing_words};
use crate::plan::PlanHead;
use crate::titles::{TitleExposureRow, TitleExposureSheet};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Exposure sheet";

/// Prints an exposure sheet, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_exposure_sheet(sheet: &TitleExposureSheet) -> Result<Printed, SheetError> {
    let press = Press::new(FORM, "exposure.typ", include_str!("exposure.typ"));
    press.ready(&record(sheet))?.print()
}

#[derive(Serialize)]
struct ExposureRecord {
    form: FormRecord,
    words: String,
    set_up: String,
    warnings: Vec<String>,
    passes: Vec<PassRecord>,
    takes: u32,
}

#[derive(Serialize)]
struct PassRecord {
    name: String,
    rows: Vec<RowRecord>,
}

#[derive(Serialize)]
struct RowRecord {
    frames: String,
    count: String,
    background: String,
    cel_1: String,
    cel_2: String,
    east_west: String,
    north_south: String,
    field: String,
    light: String,
    note: String,
}

fn record(sheet: &TitleExposureSheet) -> ExposureRecord {
    let passes = (1..=sheet.passes).map(|pass| PassRecord {
        name: match sheet.passes {
            1 => String::new(),
            n => format!("Pass {pass} of {n}"),
        },
        rows: sheet
            .rows
            .iter()
            .filter(|row| row.pass == pass)
            .map(row)
            .collect(),
    });
    ExposureRecord {
        form: furniture(sheet),
        words: words::plain(&sheet.words),
        set_up: words::plain(&sheet.set_up),
        warnings: sheet
            .warnings
            .iter()
            .map(|said| words::plain(said))
            .collect(),
        passes: passes.collect(),
        takes: sheet.takes,
    }
}

fn row(row: &TitleExposureRow) -> RowRecord {
    RowRecord {
        frames: match row.last == row.first {
            true => words::count(row.first),
            false => format!("{}–{}", words::count(row.first), words::count(row.last)),
        },
        count: words::count(row.last.saturating_sub(row.first) + 1),
        background: words::plain(&row.background),
        cel_1: words::plain(&row.cel_1),
        cel_2: words::plain(&row.cel_2),
        east_west: words::plain(&row.east_west),
        north_south: words::plain(&row.north_south),
        field: words::plain(&row.field),
        light: words::plain(&row.light),
        note: words::plain(&row.note),
    }
}

/// Frames in the three measures of every counter, as far as they can be counted.
pub(super) fn length_words(head: &PlanHead, frames: u32) -> String {
    let Ok(count) = Frames::new(frames) else {
        return words::counted(frames, "frame", "frames");
    };
    format!(
        "{}, {}, {}",
        words::footage(head.gauge.footage(count)),
        words::counted(frames, "frame", "frames"),
        RunningTime::of(count, head.speed)
    )
}

fn furniture(sheet: &TitleExposureSheet) -> FormRecord {
    let [before, hold, after] = sheet.parts;
    let whole = before.saturating_add(hold).saturating_add(after);
    let said = [&sheet.words, &sheet.head.title].map(|text| text.as_str());
    let mut assumptions: Vec<String> = sheet
        .remarks
        .iter()
        .map(|said| words::plain(said))
        .collect();
    assumptions.extend(missing_words(&said.join("\n")));
    let form = title_form(&sheet.head, FORM, "frame by frame, under the camera", false);
    FormRecord {
        figures: vec![
            Figure::counted(whole, "frame", "frames"),
            Figure::new(words::count(before), "before"),
            Figure::new(words::count(hold), "lettered"),
            Figure::new(words::count(after), "after"),
            Figure::counted(sheet.takes, "take", "takes"),
            Figure::new(words::count(sheet.of_roll), "frames of the roll"),
        ],
        foot: vec![
            "Count aloud, tick the box when its last frame is on film. E and S of the middle are +, \
             W and N are −, in mm on the artwork; the light is against the right exposure."
                .to_owned(),
            "Look for dust on cel and glass before each row: the eye does not see it, the film does."
                .to_owned(),
        ],
        totals: vec![length_words(&sheet.head, whole)],
        assumptions,
        ..form
    }
}
