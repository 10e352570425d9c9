//! The furniture that the sheets of the plan share.

use onestrand_film::{Frames, RunningTime};

use crate::cautions::cautions;
use crate::forms::proof::{TITLE_MOST, VERSION_MOST};
use crate::forms::record::{FormRecord, missing_words, paper_word};
use crate::plan::PlanHead;
use crate::words;

/// The most letters of a day in the running head.
const DAY_MOST: usize = 24;

/// The furniture of a sheet; figures, foot and assumptions are the sheet's own.
pub(super) fn plan_form(
    head: &PlanHead,
    form: &'static str,
    kind: &str,
    care: &[&str],
) -> FormRecord {
    FormRecord {
        form,
        kind: kind.to_owned(),
        title: words::short(&words::plain(&head.title), TITLE_MOST),
        version: words::short(&words::plain(&head.place), VERSION_MOST),
        facts: format!("{}, {} f/s", head.gauge.spec().name, head.speed),
        day: words::short(&words::plain(&head.day), DAY_MOST),
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
        in_full: in_full(head),
        cautions: match care {
            [] => Vec::new(),
            care => cautions(care),
        },
    }
}

/// What the running head has no room for.
fn in_full(head: &PlanHead) -> Vec<String> {
    let all = [
        ("title", &head.title, TITLE_MOST),
        ("place", &head.place, VERSION_MOST),
        ("day", &head.day, DAY_MOST),
    ];
    let long = all
        .into_iter()
        .map(|(what, said, most)| (what, words::plain(said), most))
        .filter(|(_, said, most)| said.chars().count() > *most);
    long.map(|(what, said, _)| format!("The {what} in full: {said}"))
        .collect()
}

/// Says so where a letter could not be drawn.
pub(super) fn say_missing<'a>(
    form: &mut FormRecord,
    head: &'a PlanHead,
    said: impl Iterator<Item = &'a str>,
) {
    let own = [&*head.title, &*head.place, &*head.day];
    let all: Vec<&str> = own.into_iter().chain(said).collect();
    form.assumptions.extend(missing_words(&all.join("\n")));
}

/// Film in feet and frames, and how long it runs: `49 ft 24 fr, 3:17.3`.
pub(super) fn film_words(head: &PlanHead, frames: Frames) -> String {
    format!(
        "{}, {}",
        words::footage(head.gauge.footage(frames)),
        RunningTime::of(frames, head.speed)
    )
}

/// A count of things.
pub(super) fn count_of(things: usize) -> u32 {
    u32::try_from(things).unwrap_or(u32::MAX)
}
