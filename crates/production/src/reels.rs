//! Reels and cans: what is wound on what.

use onestrand_film::{Frames, Gauge};
use onestrand_store::{Act, Production, ReelRecord, RollRecord, WoundPartRecord};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::ProductionError;
use crate::change_acts::text_fits;
use crate::documents::{OnReelDocument, ReelDocument, ReelWords, WoundPart};
use crate::error::unfit;
use crate::roll_measures::millimetres;

/// The longest name of a reel or can.
const LONGEST_NAME: usize = 60;

/// Say what a reel or can is and what is wound on it, or change that.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct PutReel {
    /// What it is called.
    pub reel: String,
    /// What is said of it; all of it is replaced.
    pub words: ReelWords,
}

/// Strike a reel or can off; the rolls stay.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct RemoveReel {
    /// What it is called.
    pub reel: String,
}

impl PutReel {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let name = self.reel.trim();
        let words = &self.words;
        if name.is_empty() || name.chars().count() > LONGEST_NAME || name.contains(char::is_control)
        {
            return Err(unfit(
                format!("a reel's name has 1 to {LONGEST_NAME} letters"),
                "call it as it is written on it, such as club reel 3",
            ));
        }
        one_of("kind", &words.kind, &["reel", "core", "can"])?;
        one_of("way it lies", &words.lies, &["heads", "tails", "not-known"])?;
        for (what, text) in [
            ("place it is kept in", &words.kept_in),
            ("accession number", &words.accession),
            ("note", &words.note),
        ] {
            text_fits(what, text)?;
        }
        let across_mm = match words.across_mm.as_deref().map(str::trim) {
            None | Some("") => None,
            Some(text) => Some(millimetres("across the reel", text, 20.0, 1_000.0)?.1),
        };
        let hub_mm = match words.hub_mm.as_deref().map(str::trim) {
            None | Some("") => None,
            Some(text) => Some(millimetres("across the hub", text, 5.0, 400.0)?.1),
        };
        hub_within(across_mm.as_deref(), hub_mm.as_deref())?;
        let wound = words
            .wound
            .iter()
            .map(|part| part_record(production, part))
            .collect::<Result<Vec<_>, _>>()?;
        no_frame_twice(production, name, &wound)?;
        let record = ReelRecord {
            kind: words.kind.clone(),
            feet: words.feet,
            across_mm,
            hub_mm,
            lies: words.lies.clone(),
            kept_in: words.kept_in.trim().to_owned(),
            accession: words.accession.trim().to_owned(),
            note: words.note.clone(),
            wound,
        };
        let act = Act::PutReel {
            name: name.to_owned(),
            reel: Some(record),
        };
        Ok((format!("what is wound on {name}"), act))
    }
}

impl RemoveReel {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        production.reel(&self.reel)?;
        let act = Act::PutReel {
            name: self.reel.clone(),
            reel: None,
        };
        Ok((format!("strike {} off", self.reel), act))
    }
}

/// Between hub and flange there is room for film.
fn hub_within(across: Option<&str>, hub: Option<&str>) -> Result<(), ProductionError> {
    let number = |text: &str| text.parse::<f64>().ok();
    match (across.and_then(number), hub.and_then(number)) {
        (Some(across), Some(hub)) if hub >= across => Err(unfit(
            "the hub is as wide as the reel".to_owned(),
            "measure across the reel from rim to rim, and across the hub in its middle",
        )),
        _ => Ok(()),
    }
}

/// A word must be one of a few.
pub(crate) fn one_of(what: &str, word: &str, known: &[&str]) -> Result<(), ProductionError> {
    if known.contains(&word) {
        return Ok(());
    }
    Err(unfit(
        format!("{word:?} is no {what}"),
        &format!("say {}", known.join(", ")),
    ))
}

fn part_record(
    production: &Production,
    part: &WoundPart,
) -> Result<WoundPartRecord, ProductionError> {
    let roll = production.roll(&part.roll)?;
    let span = match (part.first, part.thrown) {
        (None, None) => None,
        (Some(first), Some(thrown)) if first < thrown && thrown <= roll.frames => {
            Some((first, thrown))
        }
        _ => {
            return Err(unfit(
                format!(
                    "a part of {} lies within its {} frames and has both ends",
                    roll.name, roll.frames
                ),
                "say the first frame and the first after, or neither for all of it",
            ));
        }
    };
    Ok(WoundPartRecord {
        roll: roll.name,
        span,
    })
}

/// Film lies in one place: no frame is wound twice, on this reel or another.
fn no_frame_twice(
    production: &Production,
    name: &str,
    wound: &[WoundPartRecord],
) -> Result<(), ProductionError> {
    let mut lies: Vec<(String, WoundPartRecord)> = Vec::new();
    for (other, reel) in production.reels()? {
        if other != name {
            lies.extend(reel.wound.into_iter().map(|part| (other.clone(), part)));
        }
    }
    for part in wound {
        let ends = |part: &WoundPartRecord| part.span.unwrap_or((0, u32::MAX));
        let (first, thrown) = ends(part);
        let twice = lies.iter().find(|(_, there)| {
            let (begin, end) = ends(there);
            there.roll == part.roll && begin < thrown && first < end
        });
        if let Some((reel, _)) = twice {
            return Err(unfit(
                format!("{} is wound on {reel} already, or part of it", part.roll),
                "take it off there first, or say which frames lie where",
            ));
        }
        lies.push((name.to_owned(), part.clone()));
    }
    Ok(())
}

/// A roll that goes is on no reel any more.
pub(crate) fn off_the_reels(
    production: &Production,
    roll: &str,
) -> Result<Vec<Act>, ProductionError> {
    let mut acts = Vec::new();
    for (name, mut reel) in production.reels()? {
        if reel.wound.iter().any(|part| part.roll == roll) {
            reel.wound.retain(|part| part.roll != roll);
            acts.push(Act::PutReel {
                name,
                reel: Some(reel),
            });
        }
    }
    Ok(acts)
}

/// All reels and cans by their names.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn list_reels(production: &Production) -> Result<Vec<ReelDocument>, ProductionError> {
    let rolls = production.rolls()?;
    let gauge = production.meta().gauge;
    let all = production.reels()?.into_iter();
    all.map(|(name, reel)| document(name, reel, &rolls, gauge))
        .collect()
}

fn document(
    name: String,
    reel: ReelRecord,
    rolls: &[RollRecord],
    gauge: Gauge,
) -> Result<ReelDocument, ProductionError> {
    let frames: u32 = reel.wound.iter().map(|p| length(p, rolls)).sum();
    let first = reel
        .wound
        .first()
        .and_then(|part| rolls.iter().find(|roll| roll.name == part.roll));
    let gauge = match first {
        Some(roll) => roll.to_model()?.gauge,
        None => gauge,
    };
    let footage = gauge.footage(Frames::new(frames)?);
    Ok(ReelDocument {
        reel: name,
        frames,
        footage: footage.into(),
        too_much: reel.feet.is_some_and(|feet| {
            footage.feet() > feet || footage.feet() == feet && footage.frames() > 0
        }),
        words: ReelWords {
            kind: reel.kind,
            feet: reel.feet,
            across_mm: reel.across_mm,
            hub_mm: reel.hub_mm,
            lies: reel.lies,
            kept_in: reel.kept_in,
            accession: reel.accession,
            note: reel.note,
            wound: reel.wound.iter().map(part_words).collect(),
        },
    })
}

fn part_words(part: &WoundPartRecord) -> WoundPart {
    WoundPart {
        roll: part.roll.clone(),
        first: part.span.map(|(first, _)| first),
        thrown: part.span.map(|(_, thrown)| thrown),
    }
}

fn length(part: &WoundPartRecord, rolls: &[RollRecord]) -> u32 {
    let whole = rolls.iter().find(|roll| roll.name == part.roll);
    let (first, thrown) = part.span.unwrap_or((0, whole.map_or(0, |r| r.frames)));
    thrown.saturating_sub(first)
}

/// Where a roll is wound.
pub(crate) fn where_wound(
    production: &Production,
    roll: &RollRecord,
) -> Result<Vec<OnReelDocument>, ProductionError> {
    let mut all = Vec::new();
    for (name, reel) in production.reels()? {
        for (place, part) in (1..).zip(&reel.wound) {
            if part.roll == roll.name {
                let (first, thrown) = part.span.unwrap_or((0, roll.frames));
                all.push(OnReelDocument {
                    reel: name.clone(),
                    place,
                    first,
                    thrown,
                });
            }
        }
    }
    Ok(all)
}
