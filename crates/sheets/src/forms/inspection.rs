//! The inspection sheet as a form.

use onestrand_film::Shrinkage;
use onestrand_typeset::Printed;
use serde::Serialize;

use super::record::{Figure, FormRecord, NAMES_MOST, missing_words, roll_form};
use super::{Press, Ready};
use crate::rolls::{InspectedRoll, InspectionSheet};
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
    let shrinkage = sheet.head.shrinkage(&roll.roll);
    let shrunk = if shrinkage == Shrinkage::NONE {
        String::new()
    } else {
        format!("{shrinkage} %")
    };
    let open = |asked, choices: &[&'static str]| Line {
        asked,
        known: String::new(),
        choices: choices.to_vec(),
    };
    let said = |asked, known: &str| Line {
        asked,
        known: words::plain(known),
        choices: Vec::new(),
    };
    let seen = roll.signs.join(", ");
    RollRecord {
        roll: roll.roll.to_string(),
        length: format!(
            "{}, {}",
            words::footage(sheet.head.gauge.footage(roll.frames)),
            words::counted(roll.frames.count(), "frame", "frames")
        ),
        lines: vec![
            said("can, accession number", ""),
            said("base", &roll.base),
            open("picture", &["colour", "black and white", "toned"]),
            said("length measured", &roll.measured),
            said("wind", &roll.wind),
            open("lies", &["heads out", "tails out"]),
            said("shrinkage of a hundred frames", &shrunk),
            open("acid strip", &["0", "0.5", "1", "1.5", "2", "3"]),
            said("joins: how many, which kind", &roll.joins),
            open("perforations", &["whole", "nicked", "torn", "repaired"]),
            open("scratches", &["none", "base", "emulsion", "both"]),
            open("colour", &["holds", "faded", "turned red"]),
            open("sound", &["none", "magnetic", "optical"]),
            said("seen in the scan", &seen),
            said("fit for", &roll.fit),
            said("inspected by, on", ""),
        ],
    }
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
         measure where the film lies flat and free."
            .to_owned(),
    ];
    let written = sheet.rolls.iter().flat_map(|roll| {
        [&roll.measured, &roll.wind, &roll.fit, &roll.base]
            .into_iter()
            .map(String::as_str)
    });
    let all: Vec<&str> = written.chain([sheet.head.title.as_str()]).collect();
    form.assumptions.extend(missing_words(&all.join("\n")));
    form
}
