//! The cutting sheet as a form.

use onestrand_film::{Frames, RunningTime};
use onestrand_typeset::Printed;
use serde::Serialize;

use super::proof::proved_words;
use super::record::{
    Figure, FormRecord, NAMES_MOST, bite_words, form_record, length_words, missing_words,
    short_bite_words,
};
use super::standing::{StandingRecord, written};
use super::{Press, Ready};
use crate::cutting::{After, CuttingRow, CuttingSheet, Standing};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Cutting sheet";
/// Words longer than this may be parted over two pages; shorter rows stay
/// whole. Unit: bytes of text.
const LONG: usize = 400;

/// Prints a cutting sheet.
///
/// Gives the bytes of a PDF file, the same for the same sheet.
///
/// # Errors
/// [`SheetError::Picture`] when a small picture cannot be read;
/// [`SheetError::Form`] when the form cannot be set, for one because it has
/// more pictures than [`onestrand_typeset::MOST_PICTURES`].
///
/// # Examples
/// See the crate's front page.
pub fn cutting_sheet(sheet: &CuttingSheet) -> Result<Vec<u8>, SheetError> {
    Ok(ready(sheet)?.typeset()?.pdf)
}

/// The same, with its pages to look at.
///
/// # Errors
/// As [`cutting_sheet`].
pub fn print_cutting_sheet(sheet: &CuttingSheet) -> Result<Printed, SheetError> {
    ready(sheet)?.print()
}

/// The sheet with its figures and pictures.
pub(super) fn ready(sheet: &CuttingSheet) -> Result<Ready, SheetError> {
    let mut press = Press::new(FORM, "cutting.typ", include_str!("cutting.typ"));
    let rows = row_records(sheet, &mut press)?;
    let record = CuttingRecord {
        form: furniture(sheet),
        head_join: sheet.head_join.map_or("", |join| join.word()),
        tail_leader: matches!(sheet.rows.last().map(|row| row.after), Some(After::Join(_))),
        rows,
    };
    press.ready(&record)
}

#[derive(Serialize)]
struct CuttingRecord {
    form: FormRecord,
    /// The join to the head leader, empty without one.
    head_join: &'static str,
    /// Whether a tail leader follows the last row.
    tail_leader: bool,
    rows: Vec<RowRecord>,
}

#[derive(Serialize)]
struct RowRecord {
    position: String,
    #[serde(flatten)]
    standing: StandingRecord,
    length: String,
    starts: String,
    starts_under: String,
    after: &'static str,
    note: String,
    /// Whether the row may be parted over two pages.
    long: bool,
}

/// Every row with its place in the running cut.
fn row_records(sheet: &CuttingSheet, press: &mut Press) -> Result<Vec<RowRecord>, SheetError> {
    let mut start = Frames::ZERO;
    let mut records = Vec::with_capacity(sheet.rows.len());
    for (place, row) in sheet.rows.iter().enumerate() {
        records.push(row_record(sheet, row, place + 1, start, press)?);
        start = Frames::total([start, row.what.frames()]);
    }
    Ok(records)
}

/// One row.
fn row_record(
    sheet: &CuttingSheet,
    row: &CuttingRow,
    position: usize,
    start: Frames,
    press: &mut Press,
) -> Result<RowRecord, SheetError> {
    let frames = row.what.frames();
    let note = words::plain(&row.note);
    let mut record = RowRecord {
        position: position.to_string(),
        standing: StandingRecord::of(&row.what, press)?,
        length: words::count(frames.count()),
        starts: words::footage(sheet.head.gauge.footage(start)),
        starts_under: format!(
            "{} fr, {}",
            words::count(start.count()),
            RunningTime::of(start, sheet.head.speed)
        ),
        after: after_word(row.after),
        long: false,
        note,
    };
    record.long = record.note.len() + record.standing.words_long() > LONG;
    Ok(record)
}

/// The word, and the name of the mark, for what comes after a row.
fn after_word(after: After) -> &'static str {
    match after {
        After::Join(kind) => kind.word(),
        After::RunsOn => "runs on",
        After::End => "",
    }
}

/// Head, figures, foot and assumptions.
fn furniture(sheet: &CuttingSheet) -> FormRecord {
    let head = &sheet.head;
    let running = Frames::total(sheet.rows.iter().map(|row| row.what.frames()));
    let mut form = form_record(head, FORM, "the cut as it will be seen");
    form.figures = figures(sheet, running);
    form.foot = vec!["First and last kept are both frames that stay.".to_owned()];
    form.foot.extend(short_bite_words(&head.joins));
    form.totals = vec![length_words(head, running), proved_words(head)];
    form.assumptions = assumptions(sheet);
    form
}

/// The framed figures under the title.
fn figures(sheet: &CuttingSheet, running: Frames) -> Vec<Figure> {
    let head = &sheet.head;
    let rows = |wanted: fn(&Standing) -> bool| {
        let found = sheet.rows.iter().filter(|row| wanted(&row.what)).count();
        u32::try_from(found).unwrap_or(u32::MAX)
    };
    let pieces = rows(|what| matches!(what, Standing::Piece(_)));
    let leaders = rows(|what| matches!(what, Standing::Leader { .. }));
    let cards = rows(|what| matches!(what, Standing::Card { .. }));
    let rolls: Vec<&str> = head.rolls.iter().map(|roll| roll.roll.as_str()).collect();
    let mut figures = vec![
        Figure::new(
            words::footage(head.gauge.footage(running)),
            "running length",
        ),
        Figure::counted(running.count(), "frame", "frames"),
        Figure::new(
            RunningTime::of(running, head.speed).to_string(),
            format!("min at {} f/s", head.speed),
        ),
        Figure::counted(pieces, "piece", "pieces"),
        Figure::counted(joins(sheet), "join", "joins"),
    ];
    if leaders > 0 {
        figures.push(Figure::counted(leaders, "leader", "leaders"));
    }
    if cards > 0 {
        figures.push(Figure::counted(cards, "card to shoot", "cards to shoot"));
    }
    if !rolls.is_empty() {
        figures.push(Figure::new(
            words::row_of_names(&rolls, NAMES_MOST),
            "rolls",
        ));
    }
    figures
}

/// All joins of the cut, those to the leaders included.
fn joins(sheet: &CuttingSheet) -> u32 {
    let between = sheet
        .rows
        .iter()
        .filter(|row| matches!(row.after, After::Join(_)))
        .count();
    let all = between + usize::from(sheet.head_join.is_some());
    u32::try_from(all).unwrap_or(u32::MAX)
}

/// Where the figures come from.
fn assumptions(sheet: &CuttingSheet) -> Vec<String> {
    let head = &sheet.head;
    let mut lines = vec![
        "The mark between two rows is their join; the word beside it is its kind. Frame numbers \
         count from the head of the roll as it was scanned; the first is 0."
            .to_owned(),
        format!(
            "“Starts at” counts from the first frame of the cut without its head leader: feet and \
             frames at {} frames a foot, then frames and minutes at {} f/s.",
            head.gauge.spec().frames_per_foot,
            head.speed
        ),
    ];
    lines.extend(bite_words(&head.joins));
    lines.push(
        "What the joins eat lies outside the frames kept and is not in the lengths.".to_owned(),
    );
    lines.extend(missing_words(&all_words(sheet)));
    lines
}

/// Everything on the sheet that a person wrote.
fn all_words(sheet: &CuttingSheet) -> String {
    let mut all = vec![sheet.head.title.as_str(), sheet.head.version.as_str()];
    for row in &sheet.rows {
        all.push(&row.note);
        all.extend(written(&row.what));
    }
    all.join("\n")
}
