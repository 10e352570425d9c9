//! What every form finds in `data.json` besides its own rows: words and
//! figures ready for the eye. A form places them and decides nothing.

use onestrand_film::{Frames, RunningTime, Shrinkage};
use onestrand_typeset::missing_letters;
use serde::Serialize;

use super::proof::{BLAMED_MOST, TITLE_MOST, VERSION_MOST, in_full, not_proved};
use crate::cautions::{Caution, bench_cautions, handling_cautions};
use crate::head::{Head, JoinBite, Paper, RollState};
use crate::words;

/// The most letters of roll names among the framed figures.
pub(super) const NAMES_MOST: usize = 24;
/// The furniture of a form.
#[derive(Serialize)]
pub(super) struct FormRecord {
    /// The name of the form: `Pull list`.
    pub(super) form: &'static str,
    /// What kind of it: `in cut order`.
    pub(super) kind: String,
    pub(super) title: String,
    pub(super) version: String,
    /// Gauge, speed and joins in words.
    pub(super) facts: String,
    /// The day it is for; empty leaves a line to write it on.
    pub(super) day: String,
    /// Who fills it in, and how it is held.
    pub(super) hand: &'static str,
    pub(super) manner: &'static str,
    /// The heading over the assumptions.
    pub(super) got: &'static str,
    /// The paper by the name the engine knows.
    pub(super) paper: &'static str,
    /// The framed figures under the title.
    pub(super) figures: Vec<Figure>,
    /// Why the version cannot be cut, a line a reason; empty where it can.
    pub(super) not_cuttable: Vec<String>,
    /// Why the sheet is not proved, a line a roll; empty when it is.
    pub(super) not_proved: Vec<String>,
    /// The foot of every page, left and right.
    pub(super) foot: Vec<String>,
    pub(super) totals: Vec<String>,
    /// Where the figures come from, on the last page.
    pub(super) assumptions: Vec<String>,
    /// What the running head had to shorten, in full.
    pub(super) in_full: Vec<String>,
    /// Cautions, on the last page.
    pub(super) cautions: Vec<Caution>,
}

/// One framed figure.
#[derive(Serialize)]
pub(super) struct Figure {
    pub(super) value: String,
    pub(super) label: String,
}

impl Figure {
    /// A figure with its unit in words.
    pub(super) fn new(value: impl Into<String>, label: impl Into<String>) -> Self {
        Self {
            value: value.into(),
            label: label.into(),
        }
    }
}

impl Figure {
    /// A count with its word in the singular or the plural.
    pub(super) fn counted(number: u32, one: &str, many: &str) -> Self {
        Self::new(words::count(number), if number == 1 { one } else { many })
    }
}

/// A picture, or the empty frame that stands for it.
#[derive(Serialize)]
pub(super) struct FrameRecord {
    /// The file of the picture, nothing for an empty frame.
    pub(super) file: Option<String>,
    /// Width over height.
    pub(super) aspect: f64,
    /// The number in an empty frame.
    pub(super) number: String,
    /// What it shows, for whoever has the sheet read out.
    pub(super) alt: String,
}

/// The furniture of a form from the head all sheets share. Figures, foot and
/// the form's own assumptions are filled in by the form.
pub(super) fn form_record(head: &Head, form: &'static str, kind: &str) -> FormRecord {
    FormRecord {
        form,
        kind: kind.to_owned(),
        title: words::short(&words::plain(&head.title), TITLE_MOST),
        version: words::short(&words::plain(&head.version), VERSION_MOST),
        facts: facts(head),
        day: String::new(),
        hand: "hand",
        manner: "gloves on, print on one side",
        got: "How these figures were got",
        paper: paper_word(head.paper),
        figures: Vec::new(),
        not_cuttable: Vec::new(),
        not_proved: not_proved(head),
        foot: Vec::new(),
        totals: Vec::new(),
        assumptions: Vec::new(),
        in_full: in_full(head),
        cautions: bench_cautions(&head.joins),
    }
}

/// A paper by the name the engine knows.
pub(super) const fn paper_word(paper: Paper) -> &'static str {
    match paper {
        Paper::A4 => "a4",
        Paper::Letter => "us-letter",
    }
}

/// The furniture of a form about rolls: nothing is cut by it, but film is handled.
pub(super) fn roll_form(head: &Head, form: &'static str, kind: &str) -> FormRecord {
    FormRecord {
        cautions: handling_cautions(),
        totals: vec![super::proof::proved_words(head)],
        ..form_record(head, form, kind)
    }
}

/// Gauge, speed and joins: `Super 8, 18 f/s, tape joins`.
fn facts(head: &Head) -> String {
    let mut facts = format!("{}, {} f/s", head.gauge.spec().name, head.speed);
    let kinds: Vec<String> = head
        .joins
        .iter()
        .map(|join| join.kind.word().to_owned())
        .collect();
    if !kinds.is_empty() {
        facts.push_str(&format!(", {} joins", words::list(&kinds)));
    }
    facts
}

/// The length of the cut in all three measures: `37 ft 60 fr, 2,724 frames,
/// 2:31.3`.
pub(super) fn length_words(head: &Head, frames: Frames) -> String {
    format!(
        "{}, {}, {}",
        words::footage(head.gauge.footage(frames)),
        words::counted(frames.count(), "frame", "frames"),
        RunningTime::of(frames, head.speed),
    )
}

/// How lengths in mm are reckoned, pitch and shrinkage: for the assumptions.
pub(super) fn pitch_words(head: &Head) -> String {
    let um = head.gauge.spec().pitch_um;
    let mut line = format!(
        "Lengths in mm are frames × {}.{:03} mm, the pitch of new {} film",
        um / 1000,
        um % 1000,
        head.gauge.spec().name
    );
    let measured: Vec<String> = head.rolls.iter().filter_map(shrinkage_words).collect();
    let unmeasured: Vec<String> = head
        .rolls
        .iter()
        .filter(|roll| roll.shrinkage.is_none())
        .map(|roll| roll.roll.to_string())
        .collect();
    if !measured.is_empty() {
        line.push_str(&format!(", less its shrinkage: {}", words::list(&measured)));
    }
    if !unmeasured.is_empty() {
        let names = if measured.is_empty() {
            "any roll".to_owned()
        } else {
            words::list(&unmeasured)
        };
        line.push_str(&format!(
            "; shrinkage not measured on {names}, taken as none"
        ));
    }
    line.push('.');
    line
}

/// The same in a few words, for the foot of every page.
pub(super) fn short_pitch_words(head: &Head) -> String {
    let um = head.gauge.spec().pitch_um;
    let short = |roll: &RollState| Some(format!("{} {} %", roll.roll, roll.shrinkage?));
    let measured: Vec<String> = head.rolls.iter().filter_map(short).collect();
    let shrinkage = if measured.is_empty() {
        "shrinkage not measured".to_owned()
    } else if measured.len() > BLAMED_MOST {
        "less shrinkage as the last sheet says".to_owned()
    } else if measured.len() < head.rolls.len() {
        format!(
            "shrinkage {}, of the others not measured",
            words::list(&measured)
        )
    } else {
        format!("shrinkage {}", words::list(&measured))
    };
    format!("mm = frames × {}.{:03}, {shrinkage}.", um / 1000, um % 1000)
}

/// A roll's shrinkage, when measured: `R1 0.31 %`.
fn shrinkage_words(roll: &RollState) -> Option<String> {
    let shrinkage: Shrinkage = roll.shrinkage?;
    let by = words::plain(&roll.measured_by);
    Some(match by.is_empty() {
        true => format!("{} {shrinkage} %", roll.roll),
        false => format!("{} {shrinkage} %, measured by {by}", roll.roll),
    })
}

/// What the joins used eat: for the assumptions.
pub(super) fn bite_words(joins: &[JoinBite]) -> Option<String> {
    if joins.is_empty() {
        return None;
    }
    let each: Vec<String> = joins
        .iter()
        .map(|join| {
            format!(
                "{} eats {} of the outgoing and {} of the incoming piece",
                join.kind.word(),
                words::counted(join.out_tail.count(), "frame", "frames"),
                words::count(join.in_head.count()),
            )
        })
        .collect();
    Some(format!(
        "A join of {}. Try your own splicer on numbered leader.",
        each.join("; ")
    ))
}

/// The same in a few words, for the foot of every page.
pub(super) fn short_bite_words(joins: &[JoinBite]) -> Option<String> {
    let each: Vec<String> = joins
        .iter()
        .map(|join| format!("{} {} + {}", join.kind.word(), join.out_tail, join.in_head))
        .collect();
    (!each.is_empty()).then(|| format!("Frames a join eats, out + in: {}.", each.join(", ")))
}

/// A line for the letters that could not be drawn, if there are any.
pub(super) fn missing_words(all_words: &str) -> Option<String> {
    let missing = missing_letters(all_words).len();
    (missing > 0).then(|| {
        let signs = words::counted(missing as u32, "sign", "signs");
        format!(
            "An empty box stands for a letter or sign the typefaces of this sheet do not have \
             ({signs} in its words)."
        )
    })
}
