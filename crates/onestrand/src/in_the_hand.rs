//! Commands about film in the hand.

use onestrand_film::{FrameName, RollId};
use onestrand_production::documents::{ConditionWords, ReelWords, WoundPart, WoundWords};
use onestrand_production::{
    self as acts, Cancel, FilmChange, InspectRoll, JoinFound, JoinGone, MeasureHundred,
    MeasureWound, MoveToPin, PairHalves, PartHalves, Production, ProductionError, PutReel,
    RemoveReel, SlitStrip,
};
use serde_json::json;

use crate::answer::Answer;
use crate::arguments::{
    LiesWord, Pin, Reel, ReelPut, RollHalves, RollInspect, RollJoin, RollSlit, word,
};
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::words;

/// Carries a change out and gives what the journal says of it.
pub(crate) fn keep(
    production: &mut Production,
    change: &FilmChange,
) -> Result<String, ProductionError> {
    let (words, act) = change.act(production)?;
    production.act(&words, &act)?;
    Ok(words)
}

pub(crate) fn unfit(message: String, hint: &str) -> ProductionError {
    ProductionError::Unfit {
        message,
        hint: hint.to_owned(),
    }
}

pub(crate) fn pin(given: &Pin, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let (roll, first) = take_named(&production, &given.take)?;
    let to = MoveToPin {
        roll,
        first,
        pin: given.to,
    };
    let words = keep(&mut production, &FilmChange::MoveToPin(to))?;
    let pins: Vec<_> = production
        .pins()?
        .into_iter()
        .map(|hung| json!({ "pin": hung.pin, "roll": hung.roll, "in": hung.first }))
        .collect();
    Ok(Answer::yes(&json!({ "done": words, "pins": pins }), words))
}

/// The roll and the first frame of a take by its slate or by its first frame.
pub(crate) fn take_named(
    production: &Production,
    text: &str,
) -> Result<(String, u32), ProductionError> {
    if let Ok(name) = text.parse::<FrameName>() {
        return Ok((name.roll.to_string(), name.frame.index()));
    }
    let takes = production.takes()?;
    let mut found = takes.iter().filter(|take| {
        let slate = take.setup.as_deref().zip(take.take);
        slate.is_some_and(|(setup, take)| format!("{setup}-T{take}").eq_ignore_ascii_case(text))
    });
    match (found.next(), found.next()) {
        (Some(take), None) => Ok((take.roll.clone(), take.first)),
        (None, _) => Err(unfit(
            format!("no take is called {text}"),
            "name it as the log does, 3A-T2, or by its first frame, R2\u{b7}547",
        )),
        (Some(_), Some(_)) => Err(unfit(
            format!("more than one take is called {text}"),
            "name it by its first frame, such as R2\u{b7}547",
        )),
    }
}

pub(crate) fn inspect(given: &RollInspect, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let before = acts::inspection(&production, &given.roll)?;
    let said = said_of(given, before.condition.clone());
    let inspect = InspectRoll {
        roll: given.roll.clone(),
        accession: given
            .accession
            .clone()
            .unwrap_or_else(|| before.accession.clone()),
        lies: match given.lies {
            None => before.lies.clone(),
            Some(LiesWord::NotKnown) => String::new(),
            Some(lies) => word(lies),
        },
        condition: said,
    };
    let is_news = (&inspect.accession, &inspect.lies, &inspect.condition)
        != (&before.accession, &before.lies, &before.condition);
    if is_news {
        keep(&mut production, &FilmChange::InspectRoll(inspect))?;
    }
    if let Some(mm) = &given.hundred {
        let measured = MeasureHundred {
            roll: given.roll.clone(),
            mm: Some(mm.clone()),
        };
        keep(&mut production, &FilmChange::MeasureHundred(measured))?;
    }
    if let (Some(across), Some(hub)) = (&given.across, &given.hub) {
        let measured = MeasureWound {
            roll: given.roll.clone(),
            wound: Some(WoundWords {
                across_mm: across.clone(),
                hub_mm: hub.clone(),
                thickness_mm: given.thickness.clone(),
            }),
        };
        keep(&mut production, &FilmChange::MeasureWound(measured))?;
    }
    let found = acts::inspection(&production, &given.roll)?;
    let words = words::inspection(&given.roll, &found);
    Ok(Answer::yes(
        &json!({ "roll": given.roll, "inspection": found }),
        words,
    ))
}

/// The state of a roll with what is said anew.
fn said_of(given: &RollInspect, before: ConditionWords) -> ConditionWords {
    let or = |said: &Option<String>, stood: String| said.clone().unwrap_or(stood);
    ConditionWords {
        picture: or(&given.picture, before.picture),
        acid: or(&given.acid, before.acid),
        vinegar: or(&given.vinegar.map(word), before.vinegar),
        warping: or(&given.warping, before.warping),
        perforations: or(&given.perforations, before.perforations),
        scratches: or(&given.scratches, before.scratches),
        fading: or(&given.fading, before.fading),
        sound: or(&given.sound, before.sound),
        by: or(&given.by, before.by),
        note: or(&given.note, before.note),
    }
}

pub(crate) fn join(given: &RollJoin, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let place: FrameName = given.frame.parse()?;
    let (roll, frame) = (place.roll.to_string(), place.frame.index());
    let change = if given.gone {
        FilmChange::JoinGone(JoinGone {
            roll: roll.clone(),
            frame,
        })
    } else {
        FilmChange::JoinFound(JoinFound {
            roll: roll.clone(),
            frame,
            kind: word(given.kind),
            note: given.note.clone(),
        })
    };
    let words = keep(&mut production, &change)?;
    let joins = acts::inspection(&production, &roll)?.joins;
    Ok(Answer::yes(&json!({ "roll": roll, "joins": joins }), words))
}

pub(crate) fn halves(given: &RollHalves, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let pair = PairHalves {
        strip: given.strip.clone(),
        a: given.a.clone(),
        b: given.b.clone(),
        slit: given.slit,
    };
    keep(&mut production, &FilmChange::PairHalves(pair))?;
    halves_of(&production, &given.strip)
}

pub(crate) fn slit(given: &RollSlit, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let strip = given.strip.clone();
    let change = if given.no_halves {
        FilmChange::PartHalves(PartHalves { strip })
    } else {
        FilmChange::SlitStrip(SlitStrip {
            strip,
            slit: !given.not,
        })
    };
    keep(&mut production, &change)?;
    halves_of(&production, &given.strip)
}

fn halves_of(production: &Production, strip: &str) -> Outcome {
    let mut rolls = acts::list_rolls(production)?;
    rolls.retain(|roll| roll.half.as_ref().is_some_and(|half| half.strip == strip));
    let words = rolls
        .iter()
        .filter_map(|roll| Some(format!("{}: {}", roll.roll, roll.half.as_ref()?.words)))
        .collect::<Vec<_>>();
    let words = match words.as_slice() {
        [] => format!("{strip} has no halves"),
        some => some.join("\n"),
    };
    let halves: Vec<_> = rolls
        .iter()
        .map(|roll| json!({ "roll": roll.roll, "half": roll.half }))
        .collect();
    Ok(Answer::yes(
        &json!({ "strip": strip, "halves": halves }),
        words,
    ))
}

pub(crate) fn reel(command: Reel, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    match command {
        Reel::Plan(given) => crate::reel_plan::reel_plan(given, cancel, bar),
        Reel::Put(given) => reel_put(&given, cancel, bar),
        Reel::List { dir } => reels(&open(&dir, cancel, bar)?),
        Reel::Remove { dir, reel } => {
            let mut production = open(&dir, cancel, bar)?;
            keep(
                &mut production,
                &FilmChange::RemoveReel(RemoveReel { reel }),
            )?;
            reels(&production)
        }
    }
}

fn reels(production: &Production) -> Outcome {
    let reels = acts::list_reels(production)?;
    let words = words::reels(&reels);
    Ok(Answer::yes(&json!({ "reels": reels }), words))
}

fn reel_put(given: &ReelPut, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let name = given.reel.trim();
    let all = acts::list_reels(&production)?;
    let stood = all.into_iter().find(|reel| reel.reel == name);
    let stood = stood.map_or_else(new_reel, |reel| reel.words);
    let wound = if given.wound.is_empty() && !given.empty {
        stood.wound
    } else {
        let parts = given.wound.iter().map(|text| part(text));
        parts.collect::<Result<_, _>>()?
    };
    let or = |said: &Option<String>, stood: String| said.clone().unwrap_or(stood);
    let words = ReelWords {
        kind: given.kind.map_or(stood.kind, word),
        feet: given.feet.or(stood.feet),
        across_mm: given.across.clone().or(stood.across_mm),
        hub_mm: given.hub.clone().or(stood.hub_mm),
        lies: given.lies.map_or(stood.lies, word),
        kept_in: or(&given.kept_in, stood.kept_in),
        accession: or(&given.accession, stood.accession),
        note: or(&given.note, stood.note),
        wound,
    };
    let put = PutReel {
        reel: name.to_owned(),
        words,
    };
    keep(&mut production, &FilmChange::PutReel(put))?;
    reels(&production)
}

fn new_reel() -> ReelWords {
    ReelWords {
        kind: "reel".to_owned(),
        feet: None,
        across_mm: None,
        hub_mm: None,
        lies: "not-known".to_owned(),
        kept_in: String::new(),
        accession: String::new(),
        note: String::new(),
        wound: Vec::new(),
    }
}

/// A part on a reel as it is written: `R1`, `R2:0-1800`.
fn part(text: &str) -> Result<WoundPart, ProductionError> {
    let bad = || {
        unfit(
            format!("{text:?} is no part of a roll"),
            "write R1 for all of a roll, or R2:0-1800 for frames 0 to before 1800",
        )
    };
    let (roll, span) = match text.split_once(':') {
        None => (text, None),
        Some((roll, span)) => (roll, Some(span.split_once('-').ok_or_else(bad)?)),
    };
    let frame = |text: &str| text.trim().parse::<u32>().map_err(|_| bad());
    Ok(WoundPart {
        roll: RollId::new(roll)?.to_string(),
        first: span.map(|(first, _)| frame(first)).transpose()?,
        thrown: span.map(|(_, thrown)| frame(thrown)).transpose()?,
    })
}
