//! Reel and can labels as a form.

use onestrand_typeset::Printed;
use serde::Serialize;

use super::Press;
use super::proof::proved_words;
use super::record::{Figure, FormRecord, form_record, missing_words};
use crate::reel_labels::{ReelLabel, ReelLabels, ReelLies};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Reel and can labels";

/// Prints reel and can labels, with their pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_reel_labels(labels: &ReelLabels) -> Result<Printed, SheetError> {
    let press = Press::new(FORM, "reel_labels.typ", include_str!("reel_labels.typ"));
    press
        .ready(&LabelsRecord {
            form: furniture(labels),
            reels: labels.reels.iter().map(record).collect(),
        })?
        .print()
}

#[derive(Serialize)]
struct LabelsRecord {
    form: FormRecord,
    reels: Vec<ReelRecord>,
}

/// One reel. What is empty is a line to write on, or boxes to tick.
#[derive(Serialize)]
struct ReelRecord {
    title: String,
    films: String,
    number: String,
    of: String,
    what: String,
    length: String,
    clock: String,
    joins: String,
    lies: &'static str,
    sound: String,
    picture: String,
    owner: String,
    date: String,
    reel: String,
    with_leaders: String,
}

fn record(label: &ReelLabel) -> ReelRecord {
    let (number, of) = match label.number {
        Some((number, of)) => (number.to_string(), of.to_string()),
        None => (String::new(), String::new()),
    };
    ReelRecord {
        title: words::plain(&label.title),
        films: words::plain(&label.films),
        number,
        of,
        what: words::plain(&label.what),
        length: label.length.clone(),
        clock: label.clock.clone(),
        joins: label.joins.clone(),
        lies: match label.lies {
            ReelLies::NotSaid => "",
            ReelLies::HeadsOut => "HEADS OUT",
            ReelLies::TailsOut => "TAILS OUT",
        },
        sound: words::plain(&label.sound),
        picture: words::plain(&label.picture),
        owner: words::plain(&label.owner),
        date: words::plain(&label.date),
        reel: words::plain(&label.reel),
        with_leaders: label.with_leaders.clone(),
    }
}

fn furniture(labels: &ReelLabels) -> FormRecord {
    let head = &labels.head;
    let mut form = form_record(head, FORM, "to be cut apart");
    let count = 4 * labels.reels.len();
    form.figures = vec![Figure::new(
        count.to_string(),
        "labels: reel, can, head and tail leader of each reel",
    )];
    form.foot =
        vec!["Cut along the dashes. What nobody has said is left to be written.".to_owned()];
    form.totals = vec![proved_words(head)];
    form.assumptions = vec![
        "The length is that of the film as it is planned, without leaders. Put it right by hand if \
         the bench found otherwise."
            .to_owned(),
        "Heads or tails out stands here only as it was said. Look before you tick: a wrong label \
         shows the film upside down and backwards."
            .to_owned(),
    ];
    let all = labels.reels.iter().flat_map(|one| {
        let texts = [&one.title, &one.films, &one.sound, &one.picture];
        texts.into_iter().chain([&one.owner, &one.date, &one.reel])
    });
    let all: Vec<&str> = all.map(String::as_str).collect();
    form.assumptions.extend(missing_words(&all.join("\n")));
    form
}
