//! From what the page asks for to the act that carries it out.

use onestrand_cut::Slate;
use onestrand_film::{FrameName, FramePos, RollId};
use onestrand_store::{Act, NoteRecord, Production, RollRecord, TakeRecord};

use crate::ProductionError;
use crate::changes::RollFacts;
use crate::cut_change_words::cut_change_words;
use crate::documents::{CutChange, TakeWords};
use crate::error::unfit;
use crate::known_words::known;
use crate::reels::off_the_reels;
use crate::roll_measures::expected;

/// The most letters of a text that a user types into one field.
const LONGEST_TEXT: usize = 4_000;

pub(crate) fn text_fits(what: &str, text: &str) -> Result<(), ProductionError> {
    if text.chars().count() <= LONGEST_TEXT {
        return Ok(());
    }
    Err(unfit(
        format!("the {what} is longer than {LONGEST_TEXT} letters"),
        "keep the rest in a file of your own",
    ))
}

pub(crate) fn name_take(
    production: &Production,
    roll: &str,
    first: u32,
    words: &TakeWords,
) -> Result<(String, Act), ProductionError> {
    let mut takes = production.takes_of(roll)?;
    let take = takes
        .iter_mut()
        .find(|t| t.first == first)
        .ok_or_else(|| no_take(roll, first))?;
    put_words(take, words)?;
    // What the model refuses is refused before it is kept.
    known(take.to_model())?;
    let name = match (&take.setup, take.take) {
        (Some(setup), Some(number)) => format!("{roll}·{first} is {setup}-T{number}"),
        _ => format!("the take at {roll}·{first}"),
    };
    let act = Act::PutTakes {
        roll: roll.to_owned(),
        takes,
    };
    Ok((name, act))
}

fn no_take(roll: &str, first: u32) -> ProductionError {
    unfit(
        format!("no take begins at {roll}·{first}"),
        "look at the roll once more; another window may have changed it",
    )
}

fn put_words(take: &mut TakeRecord, words: &TakeWords) -> Result<(), ProductionError> {
    for (what, text) in [
        ("size", &words.size),
        ("camera's move", &words.camera_move),
        ("direction", &words.direction),
        ("action", &words.action),
        ("note", &words.note),
    ] {
        text_fits(what, text)?;
    }
    match (&words.setup, words.take) {
        (Some(setup), Some(number)) => {
            let slate = Slate::new(setup, number).map_err(|e| {
                unfit(
                    e.to_string(),
                    "a setup is letters and digits, such as 3A; a take is a number from 1 to 999",
                )
            })?;
            take.setup = Some(slate.setup().to_owned());
            take.take = Some(slate.take());
        }
        (None, None) => (take.setup, take.take) = (None, None),
        _ => {
            return Err(unfit(
                "a slate has a setup and a take, or neither".to_owned(),
                "say both, such as 3A and 2",
            ));
        }
    }
    take.rating.clone_from(&words.rating);
    take.size.clone_from(&words.size);
    take.camera_move.clone_from(&words.camera_move);
    take.direction.clone_from(&words.direction);
    take.action.clone_from(&words.action);
    take.note.clone_from(&words.note);
    Ok(())
}

pub(crate) fn roll_facts(
    production: &Production,
    name: &str,
    facts: &RollFacts,
) -> Result<(String, Act), ProductionError> {
    let before = production.roll(name)?;
    let mut roll = RollRecord {
        base: facts.base.clone(),
        fit: facts.fit.clone(),
        wind: facts.wind.clone(),
        measured: facts.measured.clone(),
        shrinkage: facts.shrinkage.clone(),
        ..before.clone()
    };
    // A shrinkage that is said anew is no longer that of the hundred frames.
    if roll.shrinkage != before.shrinkage {
        roll.inspection.hundred_mm = None;
    }
    known(roll.to_model())?;
    roll.expected = expected(&roll)?;
    let act = Act::PutRoll {
        name: name.to_owned(),
        roll: Some(Box::new(roll)),
    };
    Ok((format!("what is known of {name}"), act))
}

pub(crate) fn remove_roll(
    production: &Production,
    name: &str,
) -> Result<(String, Act), ProductionError> {
    production.roll(name)?;
    for cut in production.cut_names()? {
        let record = production.cut(&cut)?;
        if let Some(at) = record
            .pieces
            .iter()
            .position(|p| p.roll.as_deref() == Some(name))
        {
            return Err(unfit(
                format!("{name} is in {cut}, position {}", at + 1),
                "lift its pieces out of every version first",
            ));
        }
    }
    let mut acts: Vec<Act> = production
        .notes_of(name)?
        .into_iter()
        .map(|(id, _)| Act::PutNote { id, note: None })
        .collect();
    acts.extend(off_the_reels(production, name)?);
    acts.push(Act::PutTakes {
        roll: name.to_owned(),
        takes: Vec::new(),
    });
    acts.push(Act::PutRoll {
        name: name.to_owned(),
        roll: None,
    });
    Ok((format!("take {name} out"), Act::All { acts }))
}

/// A change of a cut, in words and as an act.
pub(crate) fn change_cut(
    production: &Production,
    cut: &str,
    change: &CutChange,
) -> Result<(String, Act), ProductionError> {
    let change = change.to_model()?;
    let before = production.cut(cut)?.to_model()?;
    let words = cut_change_words(cut, &before, &change);
    let act = Act::ChangeCut {
        name: cut.to_owned(),
        change: (&change).into(),
    };
    Ok((words, act))
}

pub(crate) fn remove_note(
    production: &Production,
    id: i64,
) -> Result<(String, Act), ProductionError> {
    let note = note(production, id)?;
    let words = format!("take the note on {}·{} away", note.roll, note.frame);
    Ok((words, Act::PutNote { id, note: None }))
}

pub(crate) fn note(production: &Production, id: i64) -> Result<NoteRecord, ProductionError> {
    let found = production.notes()?.into_iter().find(|(n, _)| *n == id);
    found.map(|(_, note)| note).ok_or_else(|| {
        unfit(
            format!("there is no note {id}"),
            "another window may have taken it away",
        )
    })
}

pub(crate) fn write_note(
    production: &Production,
    id: Option<i64>,
    roll: &str,
    frame: u32,
    words: &str,
    writer: &str,
) -> Result<(String, Act), ProductionError> {
    let words = words.trim();
    text_fits("note", words)?;
    text_fits("writer's name", writer)?;
    if words.is_empty() {
        return Err(unfit("the note is empty".to_owned(), "write a word or two"));
    }
    let frames = production.roll(roll)?.frames;
    let name = FrameName {
        roll: RollId::new(roll)?,
        frame: FramePos::new(frame)?,
    };
    if frame >= frames {
        return Err(unfit(
            format!("{roll} has {frames} frames, there is no {name}"),
            "choose a frame of the roll",
        ));
    }
    let record = match id {
        Some(id) => NoteRecord {
            words: words.to_owned(),
            ..note(production, id)?
        },
        None => NoteRecord::new(roll, frame, words, writer),
    };
    let id = match id {
        Some(id) => id,
        None => production.next_note_id()?,
    };
    let act = Act::PutNote {
        id,
        note: Some(record),
    };
    Ok((format!("a note on {name}"), act))
}
