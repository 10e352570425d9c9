//! The pull list as a form.

use onestrand_film::{FrameDelta, FrameName, FramePos, RollId};
use onestrand_typeset::Printed;
use serde::Serialize;

use super::proof::proved_words;
use super::record::{
    Figure, FormRecord, FrameRecord, NAMES_MOST, bite_words, form_record, length_words,
    missing_words, pitch_words, short_bite_words, short_pitch_words,
};
use super::ruler::{CountRecord, Ruler};
use super::{Press, Ready};
use crate::pull::{Lies, Mount, Pin, PullList, PullOrder, Strip};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Pull list";

/// Prints a pull list.
///
/// Gives the bytes of a PDF file, the same for the same list.
///
/// # Errors
/// [`SheetError::Picture`] when a small picture cannot be read;
/// [`SheetError::Form`] when the form cannot be set, for one because it has
/// more pictures than [`onestrand_typeset::MOST_PICTURES`].
///
/// # Examples
/// See the crate's front page.
pub fn pull_list(list: &PullList) -> Result<Vec<u8>, SheetError> {
    Ok(ready(list)?.typeset()?.pdf)
}

/// The same, with its pages to look at.
///
/// # Errors
/// As [`pull_list`].
pub fn print_pull_list(list: &PullList) -> Result<Printed, SheetError> {
    ready(list)?.print()
}

/// The list with its figures and pictures.
pub(super) fn ready(list: &PullList) -> Result<Ready, SheetError> {
    let mut press = Press::new(FORM, "pull.typ", include_str!("pull.typ"));
    let mounts = mount_records(list, &mut press)?;
    let record = PullRecord {
        form: furniture(list),
        mounts,
    };
    press.ready(&record)
}

#[derive(Serialize)]
struct PullRecord {
    form: FormRecord,
    mounts: Vec<MountRecord>,
}

#[derive(Serialize)]
struct MountRecord {
    roll: String,
    words: String,
    strips: Vec<StripRecord>,
}

#[derive(Serialize)]
struct StripRecord {
    number: usize,
    picture: FrameRecord,
    wind: String,
    wind_count: String,
    find: String,
    at: String,
    first: CountRecord,
    last: CountRecord,
    first_kept: String,
    last_kept: String,
    length: String,
    /// What the joins take beyond the length, in words; empty with tape.
    extra: String,
    pin: String,
    pin_box: bool,
    position: String,
    then: String,
    goes: &'static str,
}

/// Every mounting, with the strips numbered through.
fn mount_records(list: &PullList, press: &mut Press) -> Result<Vec<MountRecord>, SheetError> {
    let mut number = 0;
    let mut mounts = Vec::with_capacity(list.mounts.len());
    for mount in &list.mounts {
        let mut strips = Vec::with_capacity(mount.strips.len());
        for strip in &mount.strips {
            number += 1;
            strips.push(strip_record(list, &mount.roll, strip, number, press)?);
        }
        mounts.push(MountRecord {
            roll: mount.roll.to_string(),
            words: mount_words(mount),
            strips,
        });
    }
    Ok(mounts)
}

/// The heading of a mounting: `mount, heads out: 8 pieces, 1,143 frames`.
fn mount_words(mount: &Mount) -> String {
    let lies = match mount.lies {
        Lies::HeadsOut => "heads out",
        Lies::TailsOut => "tails out",
        Lies::AsLeft => "as it was left",
    };
    let frames: u32 = mount
        .strips
        .iter()
        .map(|strip| strip.kept.len().count())
        .sum();
    let pieces = u32::try_from(mount.strips.len()).unwrap_or(u32::MAX);
    format!(
        "mount, {lies}: {}, {}",
        words::counted(pieces, "piece", "pieces"),
        words::counted(frames, "frame", "frames"),
    )
}

/// One strip as a row.
fn strip_record(
    list: &PullList,
    roll: &RollId,
    strip: &Strip,
    number: usize,
    press: &mut Press,
) -> Result<StripRecord, SheetError> {
    let name = |frame: FramePos| FrameName {
        roll: roll.clone(),
        frame,
    };
    let first = name(strip.kept.begin());
    let picture = press.frame("first frame kept", &first, strip.picture.as_deref())?;
    let ruler = Ruler {
        gauge: list.head.gauge,
        shrinkage: list.head.shrinkage(roll),
        from: strip.landmark.at,
    };
    let (pin, pin_box, goes) = pin_words(strip.pin);
    Ok(StripRecord {
        number,
        picture,
        wind: wind_word(strip.wind).to_owned(),
        wind_count: words::count(strip.wind.frames().unsigned_abs()),
        find: words::plain(&strip.landmark.words),
        at: name(strip.landmark.at).to_string(),
        first: ruler.count_with_feet(strip.cut.begin()),
        last: ruler.count(strip.cut.end()),
        first_kept: strip.kept.begin().to_string(),
        last_kept: strip.kept.last().to_string(),
        length: words::count(strip.kept.len().count()),
        extra: extra_words(strip),
        pin,
        pin_box,
        position: words::count(strip.position),
        then: then_words(strip),
        goes,
    })
}

/// Which way to wind.
fn wind_word(wind: FrameDelta) -> &'static str {
    match wind.frames() {
        0 => "stay",
        n if n < 0 => "back",
        _ => "on",
    }
}

/// The pin's number, whether a box is drawn for one, and how the strip goes.
fn pin_words(pin: Pin) -> (String, bool, &'static str) {
    match pin {
        Pin::ToBeWritten => (String::new(), true, ""),
        Pin::Number(number) => (words::count(number), false, "hang"),
        Pin::None => (String::new(), false, "on the reel"),
    }
}

/// What the cut-out strip holds beyond the frames kept: `1 + 1 for joins`.
fn extra_words(strip: &Strip) -> String {
    let before = strip.kept.begin().since(strip.cut.begin()).frames();
    let after = strip.cut.end().since(strip.kept.end()).frames();
    match (before, after) {
        (0, 0) => String::new(),
        (0, after) => format!("+ {after} at tail"),
        (before, 0) => format!("+ {before} at head"),
        (before, after) => format!("+ {before} and {after}"),
    }
}

/// The further positions of a merged strip: `to 6`.
fn then_words(strip: &Strip) -> String {
    if strip.last_position > strip.position {
        format!("to {}", words::count(strip.last_position))
    } else {
        String::new()
    }
}

/// Head, figures, foot and assumptions.
fn furniture(list: &PullList) -> FormRecord {
    let head = &list.head;
    let kind = match list.order {
        PullOrder::Cut => "in the order of the cut",
    };
    let mut form = form_record(head, FORM, kind);
    form.figures = figures(list);
    form.foot = count_words(list);
    form.foot.push(short_pitch_words(head));
    form.foot.extend(short_bite_words(&head.joins));
    form.totals = vec![length_words(head, list.running), proved_words(head)];
    form.assumptions = assumptions(list);
    form
}

/// How to count. Before the scans are proved the sheet does not say "cut".
fn count_words(list: &PullList) -> Vec<String> {
    let act = if list.head.is_proved() {
        "cut on"
    } else {
        "meant is"
    };
    let mut lines = vec![format!(
        "The landmark is frame 0; {act} the line before the count."
    )];
    let back = |strip: &Strip| strip.cut.begin() < strip.landmark.at;
    if list.mounts.iter().flat_map(|mount| &mount.strips).any(back) {
        lines.push("A count with a minus goes back, towards the head.".to_owned());
    }
    lines
}

/// The framed figures under the title.
fn figures(list: &PullList) -> Vec<Figure> {
    let strips: usize = list.mounts.iter().map(|mount| mount.strips.len()).sum();
    let strips = u32::try_from(strips).unwrap_or(u32::MAX);
    let changes = u32::try_from(list.mounts.len().saturating_sub(1)).unwrap_or(u32::MAX);
    vec![
        Figure::new(roll_order(list), "order of rolls"),
        Figure::counted(strips, "piece", "pieces"),
        Figure::counted(list.cuts, "cut", "cuts"),
        Figure::counted(list.joins, "join", "joins"),
        Figure::counted(list.leftovers, "left over", "left over"),
        Figure::counted(changes, "roll change", "roll changes"),
        Figure::new(
            format!("{} ft", words::decimal_feet(list.wound, list.head.gauge)),
            "wound",
        ),
    ]
}

/// The rolls as they are mounted; a long order is cut short, since every
/// mounting has its heading on the list.
fn roll_order(list: &PullList) -> String {
    let rolls: Vec<&str> = list
        .mounts
        .iter()
        .map(|mount| mount.roll.as_str())
        .collect();
    if rolls.is_empty() {
        return "none".to_owned();
    }
    words::row_of_names(&rolls, NAMES_MOST)
}

/// Where the figures come from.
fn assumptions(list: &PullList) -> Vec<String> {
    let head = &list.head;
    let mut lines = vec![
        "Frame numbers count from the head of the roll as it was scanned, the first frame being \
         0. “First kept, last kept” are the frames that stay in the cut; “length” counts both."
            .to_owned(),
        pitch_words(head),
    ];
    lines.extend(bite_words(&head.joins));
    lines.push(
        "Winding is counted from where the last cut in that roll was made, or from its head. \
         Pieces follow one another as in the cut, so none need hang; the box under “pin” is there \
         to write in."
            .to_owned(),
    );
    let left = words::counted(list.leftovers, "stretch is", "stretches are");
    lines.push(format!(
        "{left} left over between the cuts: make them up into an outs reel."
    ));
    lines.extend(missing_words(&all_words(list)));
    lines
}

/// Everything on the sheet that a person wrote.
fn all_words(list: &PullList) -> String {
    let mut all = format!("{}\n{}", list.head.title, list.head.version);
    for strip in list.mounts.iter().flat_map(|mount| &mount.strips) {
        all.push('\n');
        all.push_str(&strip.landmark.words);
    }
    all
}
