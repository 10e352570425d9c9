//! Pin labels as a form.

use onestrand_film::FrameName;
use onestrand_typeset::Printed;
use serde::Serialize;

use super::proof::proved_words;
use super::record::{Figure, FormRecord, FrameRecord, form_record, missing_words};
use super::{Press, Ready};
use crate::pin_labels::{PinLabel, PinLabels};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Pin labels";

/// The most letters of a slate on a label.
const SLATE_MOST: usize = 20;

/// Prints pin labels, with their pages to look at.
///
/// # Errors
/// [`SheetError::Picture`] when a small picture cannot be read;
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_pin_labels(labels: &PinLabels) -> Result<Printed, SheetError> {
    let mut press = Press::new(FORM, "pin_labels.typ", include_str!("pin_labels.typ"));
    let mut records = Vec::with_capacity(labels.labels.len());
    for label in &labels.labels {
        records.push(record(labels, label, &mut press)?);
    }
    ready(labels, records, press)?.print()
}

fn ready(labels: &PinLabels, records: Vec<LabelRecord>, press: Press) -> Result<Ready, SheetError> {
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
    number: String,
    position: String,
    roll: String,
    slate: String,
    picture: FrameRecord,
    span: String,
    length: String,
    length_feet: String,
    off: String,
}

fn record(
    labels: &PinLabels,
    label: &PinLabel,
    press: &mut Press,
) -> Result<LabelRecord, SheetError> {
    let gauge = labels.head.gauge_of(&label.roll);
    let first = FrameName {
        roll: label.roll.clone(),
        frame: label.kept.begin(),
    };
    let kept = label.kept.len();
    let hangs = label.cut.len().count();
    let more = match hangs == kept.count() {
        true => String::new(),
        false => format!(", {} with joins", words::count(hangs)),
    };
    let after = label.off_after.map_or_else(
        || "the head leader".to_owned(),
        |position| format!("shot {position}"),
    );
    Ok(LabelRecord {
        pin: words::count(label.pin),
        number: words::count(label.number),
        position: match label.last_position > label.position {
            true => format!("{} to {}", label.position, label.last_position),
            false => words::count(label.position),
        },
        roll: label.roll.to_string(),
        slate: words::short(&words::plain(&label.slate), SLATE_MOST),
        picture: press.frame("first frame kept", &first, label.picture.as_deref())?,
        span: format!("{} to {}", label.kept.begin(), label.kept.last()),
        length: format!("{}{more}", words::counted(kept.count(), "frame", "frames")),
        length_feet: words::footage(gauge.footage(kept)),
        off: format!("off after {after}, by {}", label.join.word()),
    })
}

fn furniture(labels: &PinLabels) -> FormRecord {
    let head = &labels.head;
    let mut form = form_record(head, FORM, "to be cut apart, one a strip that hangs");
    let mut pins: Vec<u32> = labels.labels.iter().map(|one| one.pin).collect();
    pins.sort_unstable();
    pins.dedup();
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    form.figures = vec![
        Figure::counted(count(labels.labels.len()), "label", "labels"),
        Figure::counted(count(pins.len()), "pin", "pins"),
    ];
    form.foot = vec!["Cut along the dashes. The arrow points to the head of the strip.".to_owned()];
    form.totals = vec![proved_words(head)];
    form.assumptions = vec![
        "The number in the ring is the pin of the trim bin, the large one the position in the cut. \
         A pin that comes free is used again: hang the label with its strip, and take it off \
         together with it. Frame numbers count from the head of the roll as it was scanned, the \
         first frame being 0; both ends are in the strip."
            .to_owned(),
    ];
    let slates = labels.labels.iter().map(|one| one.slate.as_str());
    let all: Vec<&str> = slates
        .chain([head.title.as_str(), head.version.as_str()])
        .collect();
    form.assumptions.extend(missing_words(&all.join("\n")));
    form
}
