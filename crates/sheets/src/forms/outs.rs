//! The outs list as a form.

use onestrand_film::{FrameName, FramePos, Frames};
use onestrand_typeset::Printed;
use serde::Serialize;

use super::proof::proved_words;
use super::record::{Figure, FormRecord, FrameRecord, bite_words, form_record, missing_words};
use super::{Press, Ready};
use crate::outs::{Out, OutsList, OutsReel};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Outs list";

/// Prints an outs list, with its pages to look at.
///
/// # Errors
/// [`SheetError::Picture`] when a small picture cannot be read;
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_outs_list(list: &OutsList) -> Result<Printed, SheetError> {
    ready(list)?.print()
}

fn ready(list: &OutsList) -> Result<Ready, SheetError> {
    let mut press = Press::new(FORM, "outs.typ", include_str!("outs.typ"));
    let mut reels = Vec::with_capacity(list.reels.len());
    let mut number = 0;
    for reel in &list.reels {
        let mut outs = Vec::with_capacity(reel.outs.len());
        for out in &reel.outs {
            number += 1;
            outs.push(out_record(list, reel, out, number, &mut press)?);
        }
        reels.push(ReelRecord {
            name: format!("Outs {}", reel.roll),
            words: reel_words(list, reel),
            outs,
        });
    }
    press.ready(&OutsRecord {
        form: furniture(list),
        reels,
    })
}

#[derive(Serialize)]
struct OutsRecord {
    form: FormRecord,
    reels: Vec<ReelRecord>,
}

#[derive(Serialize)]
struct ReelRecord {
    name: String,
    words: String,
    outs: Vec<OutRecord>,
}

#[derive(Serialize)]
struct OutRecord {
    number: String,
    pictures: Vec<FrameRecord>,
    words: String,
    first: String,
    last: String,
    frames: String,
    feet: String,
    starts: String,
}

fn out_record(
    list: &OutsList,
    reel: &OutsReel,
    out: &Out,
    number: u32,
    press: &mut Press,
) -> Result<OutRecord, SheetError> {
    let gauge = list.head.gauge_of(&reel.roll);
    let name = |frame: FramePos| FrameName {
        roll: reel.roll.clone(),
        frame,
    };
    let (first, last) = (name(out.frames.begin()), name(out.frames.last()));
    let length = out.frames.len();
    Ok(OutRecord {
        number: words::count(number),
        pictures: vec![
            press.frame("first frame left", &first, out.first.as_deref())?,
            press.frame("last frame left", &last, out.last.as_deref())?,
        ],
        words: words::plain(&out.words),
        first: first.to_string(),
        last: last.frame.to_string(),
        frames: words::count(length.count()),
        feet: words::footage(gauge.footage(length)),
        starts: words::footage(gauge.footage(out.starts)),
    })
}

fn left(reel: &OutsReel) -> Frames {
    Frames::total(reel.outs.iter().map(|out| out.frames.len()))
}

/// What becomes of the roll: its sum.
fn reel_words(list: &OutsList, reel: &OutsReel) -> String {
    let left = left(reel);
    let footage = list.head.gauge_of(&reel.roll).footage(left);
    format!(
        "{} frames = {} kept + {} for joins + {} left, {}",
        words::count(reel.frames.count()),
        words::count(reel.kept.count()),
        words::count(reel.eaten.count()),
        words::count(left.count()),
        words::footage(footage),
    )
}

fn furniture(list: &OutsList) -> FormRecord {
    let head = &list.head;
    let mut form = form_record(head, FORM, "what is left, and where it is found again");
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let stretches = list.reels.iter().map(|reel| reel.outs.len()).sum();
    let all = Frames::total(list.reels.iter().map(left));
    form.figures = vec![
        Figure::counted(count(list.reels.len()), "outs reel", "outs reels"),
        Figure::counted(count(stretches), "stretch left", "stretches left"),
        Figure::counted(all.count(), "frame left", "frames left"),
        Figure::new(words::footage(head.gauge.footage(all)), "in all"),
    ];
    form.foot =
        vec!["First and last are both on the stretch. Tick what is on its outs reel.".to_owned()];
    form.totals = vec![proved_words(head)];
    form.assumptions = vec![
        "What is left of a roll goes back on that roll's own reel, head to tail as it was shot, \
         each end taped to the next; tape eats no frame. So every frame keeps its name, and “lies \
         at” is feet and frames from the head of the outs reel. Write “outs”, the roll and the \
         version on the reel and on its leader."
            .to_owned(),
        "Frame numbers count from the head of the roll as it was scanned, the first frame being 0."
            .to_owned(),
    ];
    form.assumptions.extend(bite_words(&head.joins));
    let said = list.reels.iter().flat_map(|reel| &reel.outs);
    let said = said.map(|out| out.words.as_str());
    let all: Vec<&str> = said
        .chain([head.title.as_str(), head.version.as_str()])
        .collect();
    form.assumptions.extend(missing_words(&all.join("\n")));
    form
}
