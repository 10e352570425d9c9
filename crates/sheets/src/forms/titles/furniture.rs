//! The furniture that forms for titles share.

use crate::cautions::stand_cautions;
use crate::forms::proof::{TITLE_MOST, VERSION_MOST};
use crate::forms::record::{FormRecord, paper_word};
use crate::plan::PlanHead;
use crate::words;

/// The furniture of a form for titles; figures, foot and assumptions are the form's own.
pub(super) fn title_form(
    head: &PlanHead,
    form: &'static str,
    kind: &str,
    has_glass: bool,
) -> FormRecord {
    FormRecord {
        form,
        kind: kind.to_owned(),
        title: words::short(&words::plain(&head.title), TITLE_MOST),
        version: words::short(&words::plain(&head.place), VERSION_MOST),
        facts: format!("{}, {} f/s", head.gauge.spec().name, head.speed),
        day: words::short(&words::plain(&head.day), 24),
        hand: "by",
        manner: "print on one side",
        got: "How these figures were got",
        paper: paper_word(head.paper),
        figures: Vec::new(),
        not_cuttable: Vec::new(),
        not_proved: Vec::new(),
        foot: Vec::new(),
        totals: Vec::new(),
        assumptions: Vec::new(),
        in_full: Vec::new(),
        cautions: stand_cautions(has_glass),
    }
}
