//! What happened at the bench, in words.

use onestrand_bench::{Deed, Laid, Next};

use super::room::Work;

/// A frame as it is named everywhere: `R2·547`.
pub(super) fn frame(roll: &impl std::fmt::Display, at: u32) -> String {
    format!("{roll}·{at}")
}

/// `shot 7`, or `shots 7 to 8`.
pub(super) fn shot((first, last): (usize, usize)) -> String {
    match first == last {
        true => format!("shot {first}"),
        false => format!("shots {first} to {last}"),
    }
}

/// `1 frame`, `3 frames`.
pub(super) fn frames(count: u64) -> String {
    match count {
        1 => "1 frame".to_owned(),
        n => format!("{n} frames"),
    }
}

/// What lies at a frame: `shot 7`, or `film of no shot`.
fn film_at(work: &Work, roll: &onestrand_film::RollId, at: u32) -> String {
    let strip = work.strip_of(roll, at).and_then(|s| work.positions(s));
    strip.map_or_else(|| frame(roll, at), shot)
}

/// A deed as a line of the log.
pub(super) fn deed_words(deed: &Deed, work: &Work) -> String {
    match deed {
        Deed::Mount { roll } => format!("{roll} put on the rewinds"),
        Deed::Unmount => "the rewinds emptied".to_owned(),
        Deed::Wind { roll, to } => format!("{roll} wound to {}", frame(roll, to.index())),
        Deed::Cut { roll, before } => format!("cut before {}", frame(roll, before.index())),
        Deed::Hang { frame: at, pin } => {
            let film = film_at(work, &at.roll, at.frame.index());
            format!("{film} hung on pin {pin}")
        }
        Deed::Join { next, kind, laid } => {
            let film = match next {
                Next::Film(at) => film_at(work, &at.roll, at.frame.index()),
                Next::Other { position, .. } | Next::Last { position, .. } => {
                    shot((*position, *position))
                }
                Next::TailLeader => "the tail leader".to_owned(),
            };
            let laid = match laid {
                Laid::Right => "",
                Laid::TurnedOver => ", turned over",
                Laid::EndForEnd => ", end for end",
                Laid::EndOverEnd => ", end over end",
            };
            format!("{film} joined on with {}{laid}", kind.word())
        }
        Deed::TurnBack { .. } => "the made film turned back, head out".to_owned(),
        Deed::MountMade => "the made film put on the rewinds".to_owned(),
        Deed::WindMade { to } => format!("the made film wound to its frame {}", to.index()),
        Deed::Lead => "the head of the made film led on with its leader".to_owned(),
        Deed::UnjoinOther { position, join: 0 } => {
            format!("the head leader taken off {}", shot((*position, *position)))
        }
        Deed::UnjoinOther { position, .. } => {
            format!("a join beside {} opened", shot((*position, *position)))
        }
        Deed::Unjoin { frame: at, join: 0 } => {
            let film = film_at(work, &at.roll, at.frame.index());
            format!("the head leader taken off {film}")
        }
        Deed::Open { join: 0 } => "the join of the head leader opened".to_owned(),
        Deed::Open { join } => format!("join {join} of the reel opened"),
        Deed::Unjoin { frame: at, .. } if work.made_of.is_some() => {
            let film = film_at(work, &at.roll, at.frame.index());
            format!("a join beside {film} opened")
        }
        Deed::Unjoin { frame: at, join } => {
            let film = frame(&at.roll, at.frame.index());
            format!("join {join} of the length at {film} opened")
        }
        Deed::Tear { roll, frames: torn } => {
            let count = frames(u64::from(torn.len().count()));
            format!("{count} torn from {}", frame(roll, torn.begin().index()))
        }
        Deed::LetGo { roll, frames: gone } => {
            let count = frames(u64::from(gone.len().count()));
            format!("{count} let go from {}", frame(roll, gone.begin().index()))
        }
        Deed::MakeUp { frame: at, reel } => {
            let film = frame(&at.roll, at.frame.index());
            format!("the length at {film} wound on {reel}")
        }
    }
}
