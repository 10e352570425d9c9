//! The list of titles as a form.

use onestrand_typeset::Printed;
use serde::Serialize;

use super::exposure::length_words;
use super::furniture::title_form;
use crate::forms::Press;
use crate::forms::record::{Figure, FormRecord, missing_words};
use crate::titles::{TitleList, TitleListRow};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Title list";

/// Prints the list of titles, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_title_list(list: &TitleList) -> Result<Printed, SheetError> {
    let press = Press::new(FORM, "title_list.typ", include_str!("title_list.typ"));
    press.ready(&record(list))?.print()
}

#[derive(Serialize)]
struct ListRecord {
    form: FormRecord,
    set_up: String,
    rows: Vec<RowRecord>,
}

#[derive(Serialize)]
struct RowRecord {
    name: String,
    words: String,
    count: String,
    hold: String,
    whole: String,
    ground: String,
    cel: String,
    comes: String,
    goes: String,
    /// Field, lens, distance and stop, a line each.
    stand: Vec<String>,
}

fn row(row: &TitleListRow) -> RowRecord {
    let stand = [&row.field, &row.lens, &row.distance, &row.stop];
    RowRecord {
        name: words::plain(&row.name),
        words: words::plain(&row.words),
        count: words::count(row.count),
        hold: words::count(row.hold),
        whole: words::count(row.whole),
        ground: words::plain(&row.ground),
        cel: words::plain(&row.cel),
        comes: words::plain(&row.comes),
        goes: words::plain(&row.goes),
        stand: stand.map(|text| words::plain(text)).into(),
    }
}

fn record(list: &TitleList) -> ListRecord {
    let count = u32::try_from(list.rows.len()).unwrap_or(u32::MAX);
    let sum = |of: fn(&TitleListRow) -> u32| list.rows.iter().map(of).fold(0, u32::saturating_add);
    let (whole, of_roll) = (sum(|row| row.whole), sum(|row| row.of_roll));
    let said: Vec<&str> = list.rows.iter().map(|row| row.words.as_str()).collect();
    let mut assumptions = vec![words::plain(&list.rule)];
    assumptions.extend(missing_words(&said.join("\n")));
    let form = FormRecord {
        figures: vec![
            Figure::counted(count, "title", "titles"),
            Figure::new(words::count(whole), "frames on the screen"),
            Figure::new(words::count(of_roll), "frames of the roll"),
        ],
        foot: vec![
            "Read each card aloud, slowly, to somebody who has not seen it, before it is lettered."
                .to_owned(),
            "Frames of the roll count spares and run-up. Tick a title when it is on film."
                .to_owned(),
        ],
        totals: vec![format!("roll: {}", length_words(&list.head, of_roll))],
        assumptions,
        ..title_form(&list.head, FORM, "what is to be lettered and shot", false)
    };
    ListRecord {
        form,
        set_up: words::plain(&list.set_up),
        rows: list.rows.iter().map(row).collect(),
    }
}
