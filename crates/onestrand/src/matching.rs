//! The command that lays two takes of the same action beside each other.

use onestrand_production::{self as acts, Cancel, MatchRequest, ProductionError, Workprints};

use crate::answer::Answer;
use crate::arguments::MatchTakes;
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::in_the_hand::{take_named, unfit};
use crate::words;

pub(crate) fn match_takes(given: &MatchTakes, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let production = open(&given.dir, cancel, bar)?;
    let mut prints = Workprints::open(production.dir())?;
    let marks = given.marks.iter().map(|text| mark(text));
    let request = MatchRequest {
        from: take_named(&production, &given.from)?,
        to: take_named(&production, &given.to)?,
        marks: marks.collect::<Result<_, _>>()?,
        leave: given.leave,
    };
    let found = acts::match_takes(&production, &mut prints, &request, cancel, bar)?;
    let words = words::matched(&found);
    Ok(Answer::yes(&found, words))
}

fn mark(text: &str) -> Result<(u32, u32), ProductionError> {
    let pair = text.split_once('=').and_then(|(here, there)| {
        let frame = |text: &str| text.trim().parse().ok();
        frame(here).zip(frame(there))
    });
    pair.ok_or_else(|| {
        unfit(
            format!("{text} is no pair of frames"),
            "write it as 2923=531: a frame of the take that is left, and the same moment in the other",
        )
    })
}
