//! The grading card as a form.

use onestrand_film::Frames;
use onestrand_typeset::Printed;
use serde::Serialize;

use super::proof::proved_words;
use super::record::{Figure, FormRecord, FrameRecord, form_record, missing_words};
use super::{Press, Ready};
use crate::grading::{GradingRow, GradingSheet};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Grading card";

/// Prints a grading card, with its pages to look at.
///
/// # Errors
/// [`SheetError::Picture`] when a small picture cannot be read;
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_grading_card(sheet: &GradingSheet) -> Result<Printed, SheetError> {
    ready(sheet)?.print()
}

fn ready(sheet: &GradingSheet) -> Result<Ready, SheetError> {
    let mut press = Press::new(FORM, "grading.typ", include_str!("grading.typ"));
    let rows = sheet.rows.iter().map(|row| record(sheet, row, &mut press));
    let rows = rows.collect::<Result<_, _>>()?;
    press.ready(&GradingRecord {
        form: furniture(sheet),
        rows,
    })
}

#[derive(Serialize)]
struct GradingRecord {
    form: FormRecord,
    rows: Vec<RowRecord>,
}

#[derive(Serialize)]
struct RowRecord {
    position: String,
    picture: FrameRecord,
    slate: String,
    from: String,
    running: String,
    /// Red, green, blue; empty where the shot has no light of its own.
    points: Vec<String>,
    slopes: Vec<String>,
    reason: String,
}

fn record(
    sheet: &GradingSheet,
    row: &GradingRow,
    press: &mut Press,
) -> Result<RowRecord, SheetError> {
    let gauge = sheet.head.gauge;
    let running = Frames::new(row.running).unwrap_or(Frames::ZERO);
    let points = row.points.iter().flatten().map(|p| points_words(*p));
    let slopes = row.points.iter().flat_map(|_| row.slopes);
    Ok(RowRecord {
        position: words::count(row.position),
        picture: press.frame("first frame", &row.from, row.picture.as_deref())?,
        slate: words::plain(&row.slate),
        from: row.from.to_string(),
        running: words::footage(gauge.footage(running)),
        points: points.collect(),
        slopes: slopes.map(|slope| format!("{slope:.3}")).collect(),
        reason: words::plain(&row.reason),
    })
}

/// With its sign, so that a lost sign is seen; a true minus, which is as wide as the plus.
fn points_words(points: i16) -> String {
    match points {
        0 => "0".to_owned(),
        up if up > 0 => format!("+{up}"),
        down => format!("\u{2212}{}", down.unsigned_abs()),
    }
}

fn furniture(sheet: &GradingSheet) -> FormRecord {
    let head = &sheet.head;
    let mut form = form_record(head, FORM, "red, green and blue light of each shot");
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let given = sheet.rows.iter().filter(|row| row.points.is_some()).count();
    form.figures = vec![
        Figure::counted(count(sheet.rows.len()), "shot", "shots"),
        Figure::counted(
            count(given),
            "with light of its own",
            "with light of their own",
        ),
    ];
    form.foot = vec!["A light holds from its frame on, up to the next row.".to_owned()];
    form.totals = vec![proved_words(head)];
    form.assumptions = vec![
        "A point is 0.025 of log exposure, twelve are a stop; more points make the shot lighter. \
         The slope under it is what linear light is multiplied by: 10 to the power of 0.025 times \
         the points."
            .to_owned(),
        "The points are for the digital finish, measured on scans; a laboratory's printer has its \
         own zero and its own stock. Ask before they are used for a print."
            .to_owned(),
    ];
    let said: Vec<&str> = sheet
        .rows
        .iter()
        .flat_map(|row| [row.slate.as_str(), row.reason.as_str()])
        .chain([head.title.as_str(), head.version.as_str()])
        .collect();
    form.assumptions.extend(missing_words(&said.join("\n")));
    form
}
