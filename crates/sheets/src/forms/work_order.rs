//! The work order as a form.

use onestrand_film::{FrameDelta, FrameName, RollId};
use onestrand_typeset::Printed;
use serde::Serialize;

use super::proof::proved_words;
use super::record::{
    Figure, FormRecord, FrameRecord, NAMES_MOST, bite_words, form_record, length_words,
    missing_words, pitch_words, short_bite_words, short_pitch_words,
};
use super::way::{OnRoll, WayRecord, edge_words};
use super::{Press, Ready};
use crate::head::Head;
use crate::pull::{Lies, Pin};
use crate::way::{Edge, StripEnd};
use crate::work_order::{JoinMade, TakenUp, WorkMount, WorkOrderSheet, WorkStrip};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Work order";

/// Prints a work order, with its pages to look at.
///
/// # Errors
/// [`SheetError::Picture`] when a small picture cannot be read;
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_work_order(order: &WorkOrderSheet) -> Result<Printed, SheetError> {
    ready(order)?.print()
}

fn ready(order: &WorkOrderSheet) -> Result<Ready, SheetError> {
    let mut press = Press::new(FORM, "work_order.typ", include_str!("work_order.typ"));
    let mut number = 0;
    let mut mounts = Vec::with_capacity(order.mounts.len());
    for mount in &order.mounts {
        let mut strips = Vec::with_capacity(mount.strips.len());
        for strip in &mount.strips {
            number += 1;
            strips.push(strip_record(
                &order.head,
                &mount.roll,
                strip,
                number,
                &mut press,
            )?);
        }
        mounts.push(MountRecord {
            roll: mount.roll.to_string(),
            words: mount_words(mount),
            strips,
        });
    }
    let mixed = order.head.joins.len() > 1;
    press.ready(&WorkRecord {
        form: furniture(order),
        before: order.before.iter().map(taken_up).collect(),
        mounts,
        joins: order
            .joins
            .iter()
            .map(|join| join_record(join, mixed))
            .collect(),
    })
}

#[derive(Serialize)]
struct WorkRecord {
    form: FormRecord,
    before: Vec<TakenRecord>,
    mounts: Vec<MountRecord>,
    joins: Vec<JoinRecord>,
}

#[derive(Serialize)]
struct MountRecord {
    roll: String,
    words: String,
    strips: Vec<StripRecord>,
}

#[derive(Serialize)]
struct StripRecord {
    number: String,
    picture: FrameRecord,
    wind: &'static str,
    wind_count: String,
    way: Option<WayRecord>,
    near: String,
    /// Why there is nothing to count: the first end is cut already.
    no_count: &'static str,
    /// Which end is cut first, where it is not the head.
    first: &'static str,
    kept_first: String,
    kept_last: String,
    /// Frames cut out.
    out: String,
    out_mm: String,
    /// What is cut out beyond the frames kept; empty with tape.
    extra: String,
    no_second: &'static str,
    pin: String,
    position: String,
    goes: String,
    then: Vec<TakenRecord>,
}

#[derive(Serialize)]
struct TakenRecord {
    pin: String,
    words: String,
    position: String,
}

#[derive(Serialize)]
struct JoinRecord {
    words: String,
    kind: &'static str,
}

fn strip_record(
    head: &Head,
    roll: &RollId,
    strip: &WorkStrip,
    number: u32,
    press: &mut Press,
) -> Result<StripRecord, SheetError> {
    let first = FrameName {
        roll: roll.clone(),
        frame: strip.kept.begin(),
    };
    let on = OnRoll { head, roll };
    let out = strip.cut.end().since(strip.cut.begin());
    let cut = strip.first_edge == Edge::Cut;
    let (pin, goes) = match strip.pin {
        Pin::Number(pin) => (words::count(pin), "hang"),
        Pin::ToBeWritten | Pin::None => (String::new(), "on the reel"),
    };
    let merged = strip.last_position > strip.position;
    Ok(StripRecord {
        number: words::count(number),
        picture: press.frame("first frame kept", &first, strip.picture.as_deref())?,
        wind: wind_word(strip.wind),
        wind_count: words::count(strip.wind.frames().unsigned_abs()),
        way: cut.then(|| on.way(&strip.way, None)).flatten(),
        near: strip
            .near
            .as_ref()
            .filter(|_| cut)
            .map_or_else(String::new, |near| format!("or {}", on.in_a_line(near))),
        no_count: edge_words(strip.first_edge),
        first: match strip.first {
            StripEnd::Head => "",
            StripEnd::Tail => "tail first",
        },
        kept_first: strip.kept.begin().to_string(),
        kept_last: strip.kept.last().to_string(),
        out: words::count(out.frames().unsigned_abs()),
        out_mm: on.mm(out),
        extra: extra_words(strip),
        no_second: edge_words(strip.second_edge),
        pin,
        position: words::count(strip.position),
        goes: match merged {
            true => format!("to {}, {goes}", words::count(strip.last_position)),
            false => goes.to_owned(),
        },
        then: strip.then.iter().map(taken_up).collect(),
    })
}

fn wind_word(wind: FrameDelta) -> &'static str {
    match wind.frames() {
        0 => "stay",
        n if n < 0 => "back",
        _ => "on",
    }
}

/// What of it the joins eat: `incl. 1 at tail`.
fn extra_words(strip: &WorkStrip) -> String {
    let before = strip.kept.begin().since(strip.cut.begin()).frames();
    let after = strip.cut.end().since(strip.kept.end()).frames();
    match (before, after) {
        (0, 0) => String::new(),
        (0, after) => format!("incl. {after} at tail"),
        (before, 0) => format!("incl. {before} at head"),
        (before, after) => format!("incl. {before} and {after}"),
    }
}

fn taken_up(taken: &TakenUp) -> TakenRecord {
    TakenRecord {
        pin: taken.pin.map(words::count).unwrap_or_default(),
        words: words::plain(&taken.words),
        position: words::count(taken.position),
    }
}

/// The heading of a mounting.
fn mount_words(mount: &WorkMount) -> String {
    let lies = match mount.lies {
        Lies::HeadsOut => "mount, heads out",
        Lies::TailsOut => "mount, tails out",
        Lies::AsLeft => "mount again, as it was left",
    };
    let cut: u32 = mount.strips.iter().map(|s| s.kept.len().count()).sum();
    let pieces = u32::try_from(mount.strips.len()).unwrap_or(u32::MAX);
    let through = mount.through.map_or_else(String::new, |end| {
        format!(" Wind it all through to {end} first: it is worked from its tail.")
    });
    format!(
        "{lies}: {}, {} kept.{through}",
        words::counted(pieces, "strip", "strips"),
        words::counted(cut, "frame", "frames"),
    )
}

fn join_record(join: &JoinMade, mixed: bool) -> JoinRecord {
    let side = |position: Option<u32>, leader: &str| {
        position.map_or_else(|| leader.to_owned(), words::count)
    };
    let (after, before) = (
        side(join.after, "head leader"),
        side(join.before, "tail leader"),
    );
    JoinRecord {
        words: format!("{after} | {before}"),
        kind: if mixed { join.kind.word() } else { "" },
    }
}

fn furniture(order: &WorkOrderSheet) -> FormRecord {
    let head = &order.head;
    let mut form = form_record(
        head,
        FORM,
        &format!("pull, hang and join, {}", order.winding),
    );
    form.figures = figures(order);
    let act = if head.is_proved() {
        "cut on"
    } else {
        "meant is"
    };
    form.foot = vec![
        format!("The landmark is frame 0; {act} the line before the count. A minus goes back."),
        short_pitch_words(head),
    ];
    form.foot.extend(short_bite_words(&head.joins));
    form.totals = vec![length_words(head, order.running), proved_words(head)];
    form.assumptions = assumptions(order);
    form
}

fn figures(order: &WorkOrderSheet) -> Vec<Figure> {
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let mut rolls: Vec<&str> = Vec::new();
    for mount in &order.mounts {
        if !rolls.contains(&mount.roll.as_str()) {
            rolls.push(mount.roll.as_str());
        }
    }
    let strips: usize = order.mounts.iter().map(|m| m.strips.len()).sum();
    vec![
        Figure::new(words::row_of_names(&rolls, NAMES_MOST), "order of rolls"),
        Figure::counted(count(strips), "strip", "strips"),
        Figure::counted(order.cuts, "cut", "cuts"),
        Figure::counted(count(order.joins.len()), "join", "joins"),
        Figure::new(format!("{} of {}", order.pins, order.pins_owned), "pins"),
        Figure::counted(
            count(order.mounts.len().saturating_sub(1)),
            "roll change",
            "roll changes",
        ),
        Figure::new(
            format!("{} ft", words::decimal_feet(order.wound, order.head.gauge)),
            "wound",
        ),
        Figure::counted(order.minutes, "minute", "minutes"),
    ]
}

fn assumptions(order: &WorkOrderSheet) -> Vec<String> {
    let head = &order.head;
    let mut lines = vec![
        "Frame numbers count from the head of the roll as it was scanned, the first frame being \
         0. Find the first end, cut, count off the frames to be cut out, cut again: the strip \
         then lies loose. A strip that is next in the cut goes on the reel at once; every other \
         hangs on its pin until the line “then” calls for it."
            .to_owned(),
        format!(
            "Winding is counted from where the roll was left, at first from its head. {} Minutes \
             are a beginner's, common practice, not measured.",
            if order.best {
                "No order with these pins wants fewer roll changes, or as few with less winding."
            } else {
                "It is a good order; that none is better is not proved."
            }
        ),
        pitch_words(head),
    ];
    lines.extend(bite_words(&head.joins));
    let left = words::counted(order.leftovers, "stretch is", "stretches are");
    lines.push(format!(
        "{left} left over: the outs list says where each goes."
    ));
    lines.extend(missing_words(&all_words(order)));
    lines
}

/// Everything on the sheet that a person wrote.
fn all_words(order: &WorkOrderSheet) -> String {
    let mut all = vec![order.head.title.as_str(), order.head.version.as_str()];
    let taken = |list: &'_ [TakenUp]| list.iter().map(|t| t.words.clone()).collect::<Vec<_>>();
    let mut words = taken(&order.before);
    for strip in order.mounts.iter().flat_map(|m| &m.strips) {
        all.extend(
            strip
                .way
                .iter()
                .chain(&strip.near)
                .map(|w| w.words.as_str()),
        );
        words.extend(taken(&strip.then));
    }
    all.extend(words.iter().map(String::as_str));
    all.join("\n")
}
