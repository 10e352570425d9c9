//! The lined cutting sheet as a form.

use onestrand_film::{Frames, RunningTime};
use onestrand_typeset::Printed;
use serde::Serialize;

use super::proof::proved_words;
use super::record::{Figure, FormRecord, form_record, length_words, missing_words};
use super::refusal::{not_cuttable, refused_in_full};
use super::standing::{StandingRecord, written};
use super::{Press, Ready};
use crate::cautions::handling_cautions;
use crate::lined::{LinedRow, LinedSheet, ScreeningNote};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Lined cutting sheet";
/// Blank lines to write on in every row; the rule below the row is the last.
const BLANK_LINES: usize = 3;
/// Words longer than this may be parted over two pages. Unit: bytes of text.
const LONG: usize = 500;

/// Prints a lined cutting sheet, with its pages to look at.
///
/// # Errors
/// [`SheetError::Picture`] when a small picture cannot be read;
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_lined_sheet(sheet: &LinedSheet) -> Result<Printed, SheetError> {
    ready(sheet)?.print()
}

pub(super) fn ready(sheet: &LinedSheet) -> Result<Ready, SheetError> {
    let mut press = Press::new(FORM, "lined.typ", include_str!("lined.typ"));
    let mut start = Frames::ZERO;
    let mut rows = Vec::with_capacity(sheet.rows.len());
    for (place, row) in sheet.rows.iter().enumerate() {
        rows.push(row_record(sheet, row, place + 1, start, &mut press)?);
        start = Frames::total([start, row.what.frames()]);
    }
    press.ready(&LinedRecord {
        form: furniture(sheet),
        blank_lines: BLANK_LINES,
        rows,
    })
}

#[derive(Serialize)]
struct LinedRecord {
    form: FormRecord,
    blank_lines: usize,
    rows: Vec<RowRecord>,
}

#[derive(Serialize)]
struct RowRecord {
    position: String,
    #[serde(flatten)]
    standing: StandingRecord,
    starts: String,
    clock: String,
    length: String,
    /// The piece's own note.
    note: String,
    writers: Vec<WriterRecord>,
    long: bool,
}

/// All that one writer noted on the frames of a row.
#[derive(Serialize)]
struct WriterRecord {
    writer: String,
    notes: Vec<NoteRecord>,
}

#[derive(Serialize)]
struct NoteRecord {
    place: String,
    words: String,
}

fn row_record(
    sheet: &LinedSheet,
    row: &LinedRow,
    position: usize,
    start: Frames,
    press: &mut Press,
) -> Result<RowRecord, SheetError> {
    let head = &sheet.head;
    let frames = row.what.frames();
    let mut record = RowRecord {
        position: position.to_string(),
        standing: StandingRecord::of(&row.what, press)?,
        starts: words::footage(head.gauge.footage(start)),
        clock: RunningTime::of(start, head.speed).to_string(),
        length: format!(
            "{} fr, {} s",
            words::count(frames.count()),
            seconds(frames, head.speed)
        ),
        note: words::plain(&row.note),
        writers: by_writer(sheet, &row.notes),
        long: false,
    };
    let noted: usize = row.notes.iter().map(|note| note.words.len()).sum();
    record.long = noted + record.note.len() + record.standing.words_long() > LONG;
    Ok(record)
}

/// A length in seconds to a tenth, rounded half up in whole numbers: `6.0`.
fn seconds(frames: Frames, speed: onestrand_film::Fps) -> String {
    let (num, den) = (u64::from(speed.num()), u64::from(speed.den()));
    let tenths = (u64::from(frames.count()) * den * 20 + num) / (2 * num);
    format!("{}.{}", tenths / 10, tenths % 10)
}

/// The notes writer by writer, in the order in which each first speaks.
fn by_writer(sheet: &LinedSheet, notes: &[ScreeningNote]) -> Vec<WriterRecord> {
    let mut writers: Vec<WriterRecord> = Vec::new();
    for note in notes {
        let writer = words::plain(&note.writer);
        let record = NoteRecord {
            place: format!(
                "{} · {}",
                words::footage(sheet.head.gauge.footage(note.at)),
                note.frame
            ),
            words: words::plain(&note.words),
        };
        match writers.iter_mut().find(|one| one.writer == writer) {
            Some(one) => one.notes.push(record),
            None => writers.push(WriterRecord {
                writer,
                notes: vec![record],
            }),
        }
    }
    writers
}

fn furniture(sheet: &LinedSheet) -> FormRecord {
    let head = &sheet.head;
    let running = Frames::total(sheet.rows.iter().map(|row| row.what.frames()));
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let notes: Vec<&ScreeningNote> = sheet.rows.iter().flat_map(|row| &row.notes).collect();
    let mut form = form_record(head, FORM, "for notes at a screening");
    form.figures = vec![
        Figure::new(
            words::footage(head.gauge.footage(running)),
            "running length",
        ),
        Figure::counted(running.count(), "frame", "frames"),
        Figure::new(
            RunningTime::of(running, head.speed).to_string(),
            format!("min at {} f/s", head.speed),
        ),
        Figure::counted(count(sheet.rows.len()), "row", "rows"),
        Figure::counted(count(notes.len()), "note so far", "notes so far"),
    ];
    form.foot =
        vec!["Write to the row that is on the screen; the frame can be found later.".to_owned()];
    form.not_cuttable = not_cuttable(&sheet.not_cuttable);
    form.in_full.extend(refused_in_full(&sheet.not_cuttable));
    form.totals = vec![length_words(head, running), proved_words(head)];
    form.assumptions = vec![
        format!(
            "“Starts at” counts from the first frame of the cut without its head leader: feet and \
             frames at {} frames a foot, then minutes at {} f/s. A projector that runs slower \
             shows it later.",
            head.gauge.spec().frames_per_foot,
            head.speed
        ),
        "A note names the frame of the roll it fell on, and follows it into every later version."
            .to_owned(),
    ];
    form.assumptions.extend(missing_words(&all_words(sheet)));
    form.cautions = handling_cautions();
    form
}

/// Everything on the sheet that a person wrote.
fn all_words(sheet: &LinedSheet) -> String {
    let mut all = vec![sheet.head.title.as_str(), sheet.head.version.as_str()];
    for row in &sheet.rows {
        all.push(&row.note);
        for note in &row.notes {
            all.extend([note.writer.as_str(), note.words.as_str()]);
        }
        all.extend(written(&row.what));
    }
    all.join("\n")
}
