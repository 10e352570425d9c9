//! The log sheet as a form.

use onestrand_film::{FrameName, Frames};
use onestrand_typeset::Printed;
use serde::Serialize;

use super::record::{Figure, FormRecord, FrameRecord, NAMES_MOST, missing_words, roll_form};
use super::{Press, Ready};
use crate::rolls::{Chosen, LogSheet, LoggedRoll, LoggedTake};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Log sheet";

/// Prints a log sheet, with its pages to look at.
///
/// # Errors
/// [`SheetError::Picture`] when a small picture cannot be read;
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_log_sheet(sheet: &LogSheet) -> Result<Printed, SheetError> {
    ready(sheet)?.print()
}

pub(super) fn ready(sheet: &LogSheet) -> Result<Ready, SheetError> {
    let mut press = Press::new(FORM, "log.typ", include_str!("log.typ"));
    let mut rolls = Vec::with_capacity(sheet.rolls.len());
    for roll in &sheet.rolls {
        let mut takes = Vec::with_capacity(roll.takes.len());
        for take in &roll.takes {
            takes.push(take_record(sheet, roll, take, &mut press)?);
        }
        rolls.push(RollRecord {
            roll: roll.roll.to_string(),
            words: roll_words(sheet, roll),
            takes,
        });
    }
    press.ready(&LogRecord {
        form: furniture(sheet),
        rolls,
    })
}

#[derive(Serialize)]
struct LogRecord {
    form: FormRecord,
    rolls: Vec<RollRecord>,
}

#[derive(Serialize)]
struct RollRecord {
    roll: String,
    words: String,
    takes: Vec<TakeRecord>,
}

#[derive(Serialize)]
struct TakeRecord {
    picture: FrameRecord,
    slate: String,
    circled: bool,
    first: String,
    first_feet: String,
    last: String,
    last_feet: String,
    length: String,
    length_feet: String,
    view: String,
    action: String,
    direction: String,
    signs: String,
    note: String,
    chosen: &'static str,
}

fn take_record(
    sheet: &LogSheet,
    roll: &LoggedRoll,
    take: &LoggedTake,
    press: &mut Press,
) -> Result<TakeRecord, SheetError> {
    let gauge = sheet.head.gauge_of(&roll.roll);
    let first = FrameName {
        roll: roll.roll.clone(),
        frame: take.span.begin(),
    };
    let feet =
        |frame: u32| words::footage(gauge.footage(Frames::new(frame).unwrap_or(Frames::MAX)));
    let picture = press.frame("first frame", &first, take.picture.as_deref())?;
    let parts = [take.size.as_str(), take.camera_move.as_str()];
    Ok(TakeRecord {
        picture,
        slate: words::plain(&take.slate),
        circled: take.chosen == Chosen::Circled,
        first: take.span.begin().to_string(),
        first_feet: feet(take.span.begin().index()),
        last: take.span.last().to_string(),
        last_feet: feet(take.span.last().index()),
        length: words::count(take.span.len().count()),
        length_feet: words::footage(gauge.footage(take.span.len())),
        view: joined(&parts),
        action: words::plain(&take.action),
        direction: words::plain(&take.direction),
        signs: joined(&begins_and_signs(take)),
        note: words::plain(&take.note),
        chosen: match take.chosen {
            Chosen::NotSaid => "",
            Chosen::Circled => "yes",
            Chosen::Hold => "maybe",
            Chosen::NotUsed => "no",
        },
    })
}

/// How the take begins where that is worth a word, and what was seen in it.
fn begins_and_signs(take: &LoggedTake) -> Vec<&str> {
    let begins = Some(take.begins.as_str()).filter(|words| !words.is_empty());
    begins
        .into_iter()
        .chain(take.signs.iter().map(String::as_str))
        .collect()
}

/// Words that say something, with commas.
fn joined(parts: &[&str]) -> String {
    let said: Vec<String> = parts
        .iter()
        .map(|words| words::plain(words))
        .filter(|words| !words.is_empty())
        .collect();
    said.join(", ")
}

/// The heading of a roll: `10 takes, 3,600 frames, 50 ft 0 fr`.
fn roll_words(sheet: &LogSheet, roll: &LoggedRoll) -> String {
    let takes = u32::try_from(roll.takes.len()).unwrap_or(u32::MAX);
    format!(
        "{}, {}, {}",
        words::counted(takes, "take", "takes"),
        words::counted(roll.frames.count(), "frame", "frames"),
        words::footage(sheet.head.gauge_of(&roll.roll).footage(roll.frames)),
    )
}

fn furniture(sheet: &LogSheet) -> FormRecord {
    let mut form = roll_form(&sheet.head, FORM, "what is on each roll");
    let names: Vec<&str> = sheet.rolls.iter().map(|roll| roll.roll.as_str()).collect();
    let takes = sheet.rolls.iter().flat_map(|roll| &roll.takes);
    let count = |chosen: Chosen| {
        let of = takes.clone().filter(|take| take.chosen == chosen).count();
        u32::try_from(of).unwrap_or(u32::MAX)
    };
    let all = u32::try_from(takes.clone().count()).unwrap_or(u32::MAX);
    form.figures = vec![
        Figure::new(words::row_of_names(&names, NAMES_MOST), "rolls"),
        Figure::counted(all, "take", "takes"),
        Figure::counted(count(Chosen::Circled), "circled", "circled"),
        Figure::counted(count(Chosen::Hold), "in reserve", "in reserve"),
        Figure::counted(count(Chosen::NotUsed), "not used", "not used"),
    ];
    form.foot = vec!["“From” and “to” are the first and the last frame of a take.".to_owned()];
    form.assumptions = vec![
        "Frame numbers count from the head of the roll as it was scanned, the first frame being \
         0; under each stands the footage by the trade’s count of frames a foot."
            .to_owned(),
        "What stands under “begins, signs” was measured from the scan: look at the frames before \
         you believe it. “Yes” is a circled take, “maybe” one kept in reserve."
            .to_owned(),
    ];
    form.assumptions.extend(missing_words(&all_words(sheet)));
    form
}

/// Everything on the sheet that a person wrote.
fn all_words(sheet: &LogSheet) -> String {
    let mut all = sheet.head.title.clone();
    for take in sheet.rolls.iter().flat_map(|roll| &roll.takes) {
        for words in [
            &take.slate,
            &take.size,
            &take.camera_move,
            &take.direction,
            &take.action,
            &take.note,
        ] {
            all.push('\n');
            all.push_str(words);
        }
    }
    all
}
