//! Reel and can labels as a form.

use onestrand_film::RunningTime;
use onestrand_typeset::Printed;
use serde::Serialize;

use super::Press;
use super::proof::proved_words;
use super::record::{Figure, FormRecord, form_record, missing_words};
use crate::reel_labels::{ReelLabels, ReelLies};
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
            title: words::plain(&labels.head.title),
            version: words::plain(&labels.head.version),
            facts: vec![
                labels.head.gauge.spec().name.to_owned(),
                format!("{} f/s", labels.head.speed),
                "camera original, cut".to_owned(),
            ],
            length: words::footage(labels.head.gauge.footage(labels.running)),
            time: format!(
                "{}, {} min",
                words::counted(labels.running.count(), "frame", "frames"),
                RunningTime::of(labels.running, labels.head.speed)
            ),
            joins: joins_words(labels),
            lies: match labels.lies {
                ReelLies::NotSaid => "",
                ReelLies::HeadsOut => "HEADS OUT",
                ReelLies::TailsOut => "TAILS OUT",
            },
            sound: words::plain(&labels.sound),
        })?
        .print()
}

#[derive(Serialize)]
struct LabelsRecord {
    form: FormRecord,
    title: String,
    version: String,
    facts: Vec<String>,
    length: String,
    time: String,
    joins: String,
    /// Empty: boxes to tick.
    lies: &'static str,
    /// Empty: a line to write on.
    sound: String,
}

/// `24 joins, tape and cement`.
fn joins_words(labels: &ReelLabels) -> String {
    let kinds: Vec<String> = labels
        .head
        .joins
        .iter()
        .map(|join| join.kind.word().to_owned())
        .collect();
    let joins = words::counted(labels.joins, "join", "joins");
    format!("{joins}, {}", words::list(&kinds))
}

fn furniture(labels: &ReelLabels) -> FormRecord {
    let head = &labels.head;
    let mut form = form_record(head, FORM, "to be cut apart");
    form.figures = vec![Figure::new("4", "labels: reel, can, head and tail leader")];
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
    let all = [&head.title, &head.version, &labels.sound].map(String::as_str);
    form.assumptions.extend(missing_words(&all.join("\n")));
    form
}
