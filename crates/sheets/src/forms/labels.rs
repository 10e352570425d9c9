//! The labels of the trim bin as a form.

use onestrand_film::{FrameName, Frames};
use onestrand_typeset::Printed;
use serde::Serialize;

use super::record::{Figure, FormRecord, FrameRecord, NAMES_MOST, missing_words, roll_form};
use super::{Press, Ready};
use crate::rolls::{TrimLabel, TrimLabels};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Trim-bin labels";

/// Prints labels, with their pages to look at.
///
/// # Errors
/// [`SheetError::Picture`] when a small picture cannot be read;
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_trim_labels(labels: &TrimLabels) -> Result<Printed, SheetError> {
    ready(labels)?.print()
}

pub(super) fn ready(labels: &TrimLabels) -> Result<Ready, SheetError> {
    let mut press = Press::new(FORM, "labels.typ", include_str!("labels.typ"));
    let mut records = Vec::with_capacity(labels.labels.len());
    for label in &labels.labels {
        records.push(label_record(labels, label, &mut press)?);
    }
    press.ready(&LabelsRecord {
        form: furniture(labels),
        labels: records,
    })
}

#[derive(Serialize)]
struct LabelsRecord {
    form: FormRecord,
    labels: Vec<LabelRecord>,
}

#[derive(Serialize)]
struct LabelRecord {
    pin: String,
    roll: String,
    slate: String,
    picture: FrameRecord,
    span: String,
    feet: String,
    length: String,
    length_feet: String,
    remark: String,
}

fn label_record(
    labels: &TrimLabels,
    label: &TrimLabel,
    press: &mut Press,
) -> Result<LabelRecord, SheetError> {
    let gauge = labels.head.gauge_of(&label.roll);
    let first = FrameName {
        roll: label.roll.clone(),
        frame: label.span.begin(),
    };
    let feet =
        |frame: u32| words::footage(gauge.footage(Frames::new(frame).unwrap_or(Frames::MAX)));
    let (begin, last) = (label.span.begin(), label.span.last());
    Ok(LabelRecord {
        pin: words::count(label.pin),
        roll: label.roll.to_string(),
        slate: words::plain(&label.slate),
        picture: press.frame("first frame", &first, label.picture.as_deref())?,
        span: format!("{begin} to {last}"),
        feet: format!("{} to {}", feet(begin.index()), feet(last.index())),
        length: words::counted(label.span.len().count(), "frame", "frames"),
        length_feet: words::footage(gauge.footage(label.span.len())),
        remark: words::plain(&label.remark),
    })
}

fn furniture(labels: &TrimLabels) -> FormRecord {
    let mut form = roll_form(&labels.head, FORM, "to be cut apart, one a pin");
    let mut names: Vec<&str> = labels.labels.iter().map(|one| one.roll.as_str()).collect();
    names.dedup();
    let count = u32::try_from(labels.labels.len()).unwrap_or(u32::MAX);
    form.figures = vec![
        Figure::new(words::row_of_names(&names, NAMES_MOST), "rolls"),
        Figure::counted(count, "label", "labels"),
    ];
    form.foot = vec!["Cut along the dashes. The arrow points to the head of the strip.".to_owned()];
    form.assumptions = vec![
        "The number in the ring is the pin of the trim bin. Frame numbers count from the head of \
         the roll as it was scanned, the first frame being 0; both ends are in the strip."
            .to_owned(),
    ];
    let slates = labels.labels.iter().map(|one| one.slate.as_str());
    let all: Vec<&str> = slates.chain([labels.head.title.as_str()]).collect();
    form.assumptions.extend(missing_words(&all.join("\n")));
    form
}
