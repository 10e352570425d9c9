//! The inspection of joins as a form.

use onestrand_film::RunningTime;
use onestrand_typeset::Printed;
use serde::Serialize;

use super::Press;
use super::proof::proved_words;
use super::record::{Figure, FormRecord, bite_words, form_record, length_words, missing_words};
use crate::joins_inspection::{JoinSide, JoinToSee, JoinsInspection};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Inspection of joins";

/// Prints an inspection of joins, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_joins_inspection(sheet: &JoinsInspection) -> Result<Printed, SheetError> {
    let press = Press::new(
        FORM,
        "joins_inspection.typ",
        include_str!("joins_inspection.typ"),
    );
    let joins = (1..).zip(&sheet.joins);
    press
        .ready(&InspectionRecord {
            form: furniture(sheet),
            joins: joins
                .map(|(number, join)| record(sheet, number, join))
                .collect(),
        })?
        .print()
}

#[derive(Serialize)]
struct InspectionRecord {
    form: FormRecord,
    joins: Vec<JoinRecord>,
}

#[derive(Serialize)]
struct JoinRecord {
    number: String,
    between: String,
    kind: &'static str,
    at: String,
    at_under: String,
    before: [String; 2],
    behind: [String; 2],
}

fn record(sheet: &JoinsInspection, number: u32, join: &JoinToSee) -> JoinRecord {
    let position = |side: &Option<JoinSide>| {
        let side = side.as_ref();
        side.map_or_else(|| "leader".to_owned(), |side| words::count(side.position))
    };
    JoinRecord {
        number: words::count(number),
        between: format!("{} | {}", position(&join.before), position(&join.behind)),
        kind: join.kind.word(),
        at: words::footage(sheet.head.gauge.footage(join.at)),
        at_under: format!(
            "{} fr, {}",
            words::count(join.at.count()),
            RunningTime::of(join.at, sheet.head.speed)
        ),
        before: side_words(join.before.as_ref()),
        behind: side_words(join.behind.as_ref()),
    }
}

/// The frame at the join, and how long its piece is.
fn side_words(side: Option<&JoinSide>) -> [String; 2] {
    let Some(side) = side else {
        return ["leader".to_owned(), String::new()];
    };
    let frame = side.frame.as_ref().map(ToString::to_string);
    [
        frame.unwrap_or_else(|| "no roll".to_owned()),
        words::counted(side.frames.count(), "frame", "frames"),
    ]
}

fn furniture(sheet: &JoinsInspection) -> FormRecord {
    let head = &sheet.head;
    let mut form = form_record(head, FORM, "before the first screening");
    let count = u32::try_from(sheet.joins.len()).unwrap_or(u32::MAX);
    form.figures = vec![
        Figure::counted(count, "join", "joins"),
        Figure::new(
            words::footage(head.gauge.footage(sheet.running)),
            "running length",
        ),
    ];
    form.foot = vec![
        "Looks: clean, square, in rack. Holds: bent and pulled by hand.".to_owned(),
        "Runs: through a viewer, with no jump and no loop lost.".to_owned(),
    ];
    form.totals = vec![length_words(head, sheet.running), proved_words(head)];
    form.assumptions = vec![
        "“At” counts from the first frame of the cut without its head leader, as it is planned. \
         Beside the position stand the last frame kept before the join and the first kept behind \
         it, each with the length of its piece."
            .to_owned(),
    ];
    form.assumptions.extend(bite_words(&head.joins));
    let all = [head.title.as_str(), head.version.as_str()].join("\n");
    form.assumptions.extend(missing_words(&all));
    form
}
