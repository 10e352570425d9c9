//! The table of a tape's counter as a form.

use onestrand_typeset::Printed;

use super::furniture::{admit_missing, dub_form, seconds_words, speed_words};
use super::lists::{Cell, ColumnRecord, ListRecord, print};
use crate::dub::{TapeCount, TapeTable};
use crate::forms::record::Figure;
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Tape counter";

/// Prints a table of a tape's counter, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_tape_table(table: &TapeTable) -> Result<Printed, SheetError> {
    print(FORM, &record(table))
}

fn record(table: &TapeTable) -> ListRecord {
    let mut form = dub_form(
        &table.head,
        FORM,
        "what it means in time and frames",
        &["hearing", "mains"],
    );
    let (a, b) = table.law;
    form.figures = vec![
        Figure::new(speed_words(table.true_speed), "frames a second"),
        Figure::new(format!("{a:.6}"), "a, s a count"),
        Figure::new(format!("{b:.8}"), "b, s a count²"),
    ];
    form.foot = vec![
        "Set the counter to 000 on the first-sound mark and wind forward only: a counter slips when it turns back."
            .to_owned(),
        "The table is of this machine with this thickness of tape; another needs its own three timings."
            .to_owned(),
    ];
    let timings = table
        .timings
        .iter()
        .map(|(count, seconds)| format!("{count} at {seconds} s"));
    let timings: Vec<String> = timings.collect();
    form.assumptions = vec![
        "Time on the tape is a·C + b·C² for the counter C, since the counter counts turns of a reel whose winding thins evenly."
            .to_owned(),
        match timings.is_empty() {
            true => "Timings were not said.".to_owned(),
            false => format!("Fitted to these timings: {}.", words::list(&timings)),
        },
        "Frames are those of the film when tape and film start together.".to_owned(),
    ];
    let said: Vec<&str> = table.rows.iter().map(|row| row.cue.as_str()).collect();
    admit_missing(&mut form, &said);
    let tape = words::plain(&table.tape);
    ListRecord {
        form,
        before: if tape.is_empty() {
            Vec::new()
        } else {
            vec![tape]
        },
        columns: vec![
            ColumnRecord::figures("counter", 26.0),
            ColumnRecord::figures("time on tape", 32.0),
            ColumnRecord::figures("running frame", 32.0),
            ColumnRecord::figures("frames a count", 28.0),
            ColumnRecord::words("cue", 0.0),
        ],
        rows: table.rows.iter().map(row).collect(),
        none: "There are no rows: say how far the tape runs.",
        blank: 0,
        boxes: Vec::new(),
    }
}

fn row(row: &TapeCount) -> Vec<Cell> {
    let whole = (row.count - row.count.round()).abs() < 0.05;
    let count = match whole {
        true => format!("{:03.0}", row.count.round()),
        false => format!("{:05.1}", row.count),
    };
    vec![
        Cell::large(count),
        Cell::figure(seconds_words(row.seconds)),
        Cell::figure(row.frame.map_or("–".to_owned(), words::count)),
        Cell::figure(format!("{:.1}", row.frames_a_count)),
        Cell::words(words::plain(&row.cue)),
    ]
}
