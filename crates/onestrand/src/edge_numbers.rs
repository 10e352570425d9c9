//! Numbers on the edge of the stock.

use onestrand_film::FrameName;
use onestrand_production::{self as acts, Cancel, EdgeNumberGone, EdgeNumberRead, FilmChange};
use serde_json::json;

use crate::answer::Answer;
use crate::arguments::RollEdge;
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::in_the_hand::{keep, unfit};

pub(crate) fn edge(given: &RollEdge, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let named = given.frame.parse::<FrameName>().ok();
    let roll = match &named {
        Some(name) => name.roll.to_string(),
        None => given.frame.clone(),
    };
    let change = match (named, &given.number, given.gone) {
        (None, None, false) => None,
        (Some(name), None, true) => Some(FilmChange::EdgeNumberGone(EdgeNumberGone {
            roll: roll.clone(),
            frame: name.frame.index(),
        })),
        (Some(name), Some(number), false) => Some(FilmChange::EdgeNumberRead(EdgeNumberRead {
            roll: roll.clone(),
            frame: name.frame.index(),
            number: number.clone(),
            step: given.step,
        })),
        _ => {
            return Err(unfit(
                format!("{} and what is to be written there do not fit", given.frame),
                "name a frame and its number, R1\u{b7}120 4127, or a roll alone",
            ));
        }
    };
    let done = match &change {
        Some(change) => keep(&mut production, change)?,
        None => String::new(),
    };
    let edge = acts::inspection(&production, &roll)?.edge;
    let mut words = vec![done];
    words.extend(
        edge.read
            .iter()
            .map(|one| format!("  {roll}\u{b7}{}  {}", one.frame, one.number)),
    );
    words.push(match (edge.read.len(), edge.step) {
        (0, _) => format!("no edge number of {roll} is written down"),
        (_, None) => "the step is not said".to_owned(),
        (_, Some(step)) => format!("one every {step} frames: {} more follow", edge.follow),
    });
    words.retain(|line| !line.is_empty());
    Ok(Answer::yes(
        &json!({ "roll": roll, "edge": edge }),
        words.join("\n"),
    ))
}
