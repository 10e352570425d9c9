//! What happened, as it is written down and as the bench understands it.

use onestrand_bench::{Deed, Laid, Next};
use onestrand_cut::Strips;
use onestrand_film::{FrameName, FramePos, FrameRange, RollId};

use crate::ProductionError;
use crate::documents::{HappenedWords, join_kind};
use crate::error::unfit;

fn roll(name: &str) -> Result<RollId, ProductionError> {
    RollId::new(name).map_err(|e| unfit(e.to_string(), "name the roll as it stands in Rolls"))
}

fn pos(frame: u32) -> Result<FramePos, ProductionError> {
    Ok(FramePos::new(frame)?)
}

fn range(first: u32, out: u32) -> Result<FrameRange, ProductionError> {
    FrameRange::new(pos(first)?, pos(out)?).map_err(|_| {
        unfit(
            format!("frames {first} to {out} are none"),
            "say the first frame, and the first one behind the last",
        )
    })
}

fn frame(of: &str, at: u32) -> Result<FrameName, ProductionError> {
    Ok(FrameName {
        roll: roll(of)?,
        frame: pos(at)?,
    })
}

/// The deed that was written down.
pub(super) fn deed(words: &HappenedWords, strips: &Strips) -> Result<Deed, ProductionError> {
    Ok(match words {
        HappenedWords::Mounted { roll: name } => Deed::Mount { roll: roll(name)? },
        HappenedWords::Unmounted {} => Deed::Unmount,
        HappenedWords::Wound { roll: name, to } => Deed::Wind {
            roll: roll(name)?,
            to: pos(*to)?,
        },
        HappenedWords::Cut { roll: name, before } => Deed::Cut {
            roll: roll(name)?,
            before: pos(*before)?,
        },
        HappenedWords::Hung {
            roll: name,
            frame: at,
            pin,
        } => Deed::Hang {
            frame: frame(name, *at)?,
            pin: *pin,
        },
        HappenedWords::Joined {
            roll: name,
            frame: at,
            position,
            join,
            laid,
            ends,
        } => Deed::Join {
            next: next(name.as_deref(), *at, *position, (strips, *ends))?,
            kind: join_kind(join)?,
            laid: laid_of(laid)?,
        },
        HappenedWords::TurnedBack { others } => Deed::TurnBack {
            others: others.clone(),
        },
        HappenedWords::MadeMounted {} => Deed::MountMade,
        HappenedWords::MadeWound { to } => Deed::WindMade { to: pos(*to)? },
        HappenedWords::Led {} => Deed::Lead,
        HappenedWords::UnjoinedOther { position, join } => Deed::UnjoinOther {
            position: *position,
            join: *join,
        },
        HappenedWords::Opened { join } => Deed::Open { join: *join },
        HappenedWords::Unjoined {
            roll: name,
            frame: at,
            join,
        } => Deed::Unjoin {
            frame: frame(name, *at)?,
            join: *join,
        },
        HappenedWords::Torn {
            roll: name,
            first,
            out,
        } => Deed::Tear {
            roll: roll(name)?,
            frames: range(*first, *out)?,
        },
        HappenedWords::LetGo {
            roll: name,
            first,
            out,
        } => Deed::LetGo {
            roll: roll(name)?,
            frames: range(*first, *out)?,
        },
        HappenedWords::MadeUp {
            roll: name,
            frame: at,
            reel,
        } => Deed::MakeUp {
            frame: frame(name, *at)?,
            reel: reel.trim().to_owned(),
        },
    })
}

fn next(
    name: Option<&str>,
    at: Option<u32>,
    position: Option<usize>,
    (strips, ends): (&Strips, bool),
) -> Result<Next, ProductionError> {
    match (name, at, position) {
        (Some(name), Some(at), _) => Ok(Next::Film(frame(name, at)?)),
        (None, None, Some(position)) => {
            let there =
                |s: &&onestrand_cut::Strip| s.span.is_none() && s.positions.0 + 1 == position;
            let strip = strips.strips.iter().find(there).ok_or_else(|| {
                unfit(
                    format!("position {position} is neither leader nor a card"),
                    "name a frame of the film that was joined",
                )
            })?;
            let frames = strip.frames.count();
            Ok(match ends {
                true => Next::Last { position, frames },
                false => Next::Other { position, frames },
            })
        }
        (None, None, None) => Ok(Next::TailLeader),
        _ => Err(unfit(
            "what was joined is not clear".to_owned(),
            "name the roll and a frame of it, or the position of leader or a card",
        )),
    }
}

fn laid_of(word: &str) -> Result<Laid, ProductionError> {
    if word.is_empty() {
        return Ok(Laid::Right);
    }
    let known = Laid::ALL.into_iter().find(|l| l.code() == word);
    known.ok_or_else(|| {
        unfit(
            format!("`{word}` is no way to lay film"),
            "say right, turned_over, end_for_end or end_over_end",
        )
    })
}

/// How a deed is written down.
pub(super) fn written(deed: &Deed) -> HappenedWords {
    match deed {
        Deed::Mount { roll } => HappenedWords::Mounted {
            roll: roll.to_string(),
        },
        Deed::Unmount => HappenedWords::Unmounted {},
        Deed::Wind { roll, to } => HappenedWords::Wound {
            roll: roll.to_string(),
            to: to.index(),
        },
        Deed::Cut { roll, before } => HappenedWords::Cut {
            roll: roll.to_string(),
            before: before.index(),
        },
        Deed::Hang { frame, pin } => HappenedWords::Hung {
            roll: frame.roll.to_string(),
            frame: frame.frame.index(),
            pin: *pin,
        },
        Deed::Join { next, kind, laid } => {
            let (roll, frame, position) = match next {
                Next::Film(name) => (Some(name.roll.to_string()), Some(name.frame.index()), None),
                Next::Other { position, .. } | Next::Last { position, .. } => {
                    (None, None, Some(*position))
                }
                Next::TailLeader => (None, None, None),
            };
            HappenedWords::Joined {
                roll,
                frame,
                position,
                join: kind.word().to_owned(),
                laid: laid.code().to_owned(),
                ends: matches!(next, Next::Last { .. }),
            }
        }
        Deed::TurnBack { others } => HappenedWords::TurnedBack {
            others: others.clone(),
        },
        Deed::MountMade => HappenedWords::MadeMounted {},
        Deed::WindMade { to } => HappenedWords::MadeWound { to: to.index() },
        Deed::Lead => HappenedWords::Led {},
        Deed::UnjoinOther { position, join } => HappenedWords::UnjoinedOther {
            position: *position,
            join: *join,
        },
        Deed::Open { join } => HappenedWords::Opened { join: *join },
        Deed::Unjoin { frame, join } => HappenedWords::Unjoined {
            roll: frame.roll.to_string(),
            frame: frame.frame.index(),
            join: *join,
        },
        Deed::Tear { roll, frames } => HappenedWords::Torn {
            roll: roll.to_string(),
            first: frames.begin().index(),
            out: frames.end().index(),
        },
        Deed::LetGo { roll, frames } => HappenedWords::LetGo {
            roll: roll.to_string(),
            first: frames.begin().index(),
            out: frames.end().index(),
        },
        Deed::MakeUp { frame, reel } => HappenedWords::MadeUp {
            roll: frame.roll.to_string(),
            frame: frame.frame.index(),
            reel: reel.clone(),
        },
    }
}
