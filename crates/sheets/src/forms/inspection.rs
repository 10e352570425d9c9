//! The inspection sheet as a form.

use onestrand_film::{Frames, Shrinkage};
use onestrand_typeset::Printed;
use serde::Serialize;

use super::record::{Figure, FormRecord, NAMES_MOST, missing_words, roll_form};
use super::{Press, Ready};
use crate::rolls::{FoundJoin, InspectedRoll, InspectionSheet};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Inspection sheet";

/// Prints an inspection sheet, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_inspection_sheet(sheet: &InspectionSheet) -> Result<Printed, SheetError> {
    ready(sheet)?.print()
}

pub(super) fn ready(sheet: &InspectionSheet) -> Result<Ready, SheetError> {
    let press = Press::new(FORM, "inspection.typ", include_str!("inspection.typ"));
    let rolls = sheet.rolls.iter().map(|roll| record(sheet, roll)).collect();
    press.ready(&InspectionRecord {
        form: furniture(sheet),
        rolls,
    })
}

#[derive(Serialize)]
struct InspectionRecord {
    form: FormRecord,
    rolls: Vec<RollRecord>,
}

#[derive(Serialize)]
struct RollRecord {
    roll: String,
    length: String,
    /// The questions in their order, with what is known.
    lines: Vec<Line>,
    /// What needs the whole width.
    below: Vec<Below>,
    cautions: Vec<String>,
}

/// Something said over the whole width of the sheet.
#[derive(Serialize)]
struct Below {
    asked: &'static str,
    words: String,
}

/// One question and its answer; empty is a line to write on.
#[derive(Serialize)]
struct Line {
    asked: &'static str,
    known: String,
    /// Words to ring, where the answer is one of few.
    choices: Vec<&'static str>,
}

fn record(sheet: &InspectionSheet, roll: &InspectedRoll) -> RollRecord {
    RollRecord {
        roll: roll.roll.to_string(),
        length: format!(
            "{}, {}",
            words::footage(sheet.head.gauge_of(&roll.roll).footage(roll.frames)),
            words::counted(roll.frames.count(), "frame", "frames")
        ),
        lines: lines(sheet, roll),
        below: below(sheet, roll),
        cautions: roll.cautions.iter().map(|c| words::plain(c)).collect(),
    }
}

/// The questions in their order, each with what is known or with words to ring.
fn lines(sheet: &InspectionSheet, roll: &InspectedRoll) -> Vec<Line> {
    let line = |asked, known: &str, choices: &[&'static str]| Line {
        asked,
        known: words::plain(known),
        choices: choices.to_vec(),
    };
    let shrinkage = sheet.head.shrinkage(&roll.roll);
    let shrunk = match (shrinkage == Shrinkage::NONE, roll.hundred.as_str()) {
        (true, "") => String::new(),
        (_, "") => format!("{shrinkage} %"),
        (_, hundred) => format!("{shrinkage} % ({hundred})"),
    };
    let found = &roll.found;
    vec![
        line("reel or can, accession number", &roll.kept, &[]),
        line("base", &roll.base, &["triacetate", "polyester"]),
        line(
            "picture",
            &found.picture,
            &["colour", "black and white", "toned"],
        ),
        line("length measured", &roll.measured, &[]),
        line("length by the ruler, on the reel", &roll.wound, &[]),
        line("wind", &roll.wind, &["A", "B"]),
        line("lies", &found.lies, &["heads out", "tails out"]),
        line("shrinkage of a hundred frames", &shrunk, &[]),
        line(
            "acid strip",
            &found.acid,
            &["0", "0.5", "1", "1.5", "2", "3"],
        ),
        line(
            "smell of vinegar",
            &found.vinegar,
            &["none", "slight", "strong"],
        ),
        line(
            "lies flat?",
            &found.warping,
            &["flat", "cupped", "curled", "twisted"],
        ),
        line("joins: how many, which kind", &roll.joins, &[]),
        line(
            "perforations",
            &found.perforations,
            &["whole", "nicked", "torn", "repaired"],
        ),
        line(
            "scratches",
            &found.scratches,
            &["none", "base", "emulsion", "both"],
        ),
        line("colour", &found.fading, &["holds", "faded", "turned red"]),
        line("sound", &found.sound, &["none", "magnetic", "optical"]),
        line("fit for", &roll.fit, &["projecting", "scanning", "keeping"]),
        line("inspected by, on", &found.by, &[]),
    ]
}

/// What needs the whole width: the half of a strip, the joins one by one, what was
/// seen in the scan, and the note.
fn below(sheet: &InspectionSheet, roll: &InspectedRoll) -> Vec<Below> {
    let mut all = Vec::new();
    if !roll.half.is_empty() {
        all.push(Below {
            asked: "double-run strip",
            words: words::plain(&roll.half),
        });
    }
    let join = |join: &FoundJoin| {
        let frames = Frames::new(join.frame.index()).unwrap_or(Frames::MAX);
        let at = words::footage(sheet.head.gauge_of(&roll.roll).footage(frames));
        let note = match words::plain(&join.note) {
            note if note.is_empty() => note,
            note => format!(", {note}"),
        };
        format!(
            "before {} ({at}): {}{note}",
            join.frame,
            words::plain(&join.kind)
        )
    };
    if !roll.joins_found.is_empty() {
        let joins: Vec<String> = roll.joins_found.iter().map(join).collect();
        all.push(Below {
            asked: "joins found",
            words: format!("{}.", joins.join("; ")),
        });
    }
    if !roll.signs.is_empty() {
        all.push(Below {
            asked: "seen in the scan",
            words: words::plain(&roll.signs.join("; ")),
        });
    }
    // Empty is a line to write on.
    all.push(Below {
        asked: "note",
        words: words::plain(&roll.found.note),
    });
    all
}

fn furniture(sheet: &InspectionSheet) -> FormRecord {
    let mut form = roll_form(&sheet.head, FORM, "the film itself, on the bench");
    let names: Vec<&str> = sheet.rolls.iter().map(|roll| roll.roll.as_str()).collect();
    form.figures = vec![Figure::new(
        words::row_of_names(&names, NAMES_MOST),
        "rolls",
    )];
    form.foot = vec!["Ring the word that holds; write on the lines.".to_owned()];
    form.assumptions = vec![
        "What is filled in was said before or read from the scan; the rest is found with the film \
         in the hand. Acid strips are read by the colours on their own packet."
            .to_owned(),
        "Shrinkage is (new length − length) / new length over a hundred frames, in per cent: \
         measure where the film lies flat and free. A length by the ruler on the reel is as good \
         as the thickness of the film is known: between two figures, never a proof."
            .to_owned(),
    ];
    form.assumptions.extend(missing_words(&all_words(sheet)));
    form
}

/// Everything on the sheet that a person wrote.
fn all_words(sheet: &InspectionSheet) -> String {
    let mut all = sheet.head.title.clone();
    for roll in &sheet.rolls {
        let found = &roll.found;
        let notes = roll.joins_found.iter().map(|join| &join.note);
        for words in [
            &roll.measured,
            &roll.kept,
            &roll.half,
            &found.picture,
            &found.warping,
            &found.perforations,
            &found.scratches,
            &found.fading,
            &found.sound,
            &found.by,
            &found.note,
        ]
        .into_iter()
        .chain(notes)
        {
            all.push('\n');
            all.push_str(words);
        }
    }
    all
}
