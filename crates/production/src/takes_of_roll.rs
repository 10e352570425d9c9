//! Dividing a roll into takes by hand.

use onestrand_store::{Act, Production, TakeRecord};

use crate::ProductionError;
use crate::error::unfit;
use crate::flash_anew::flash_of;

/// A take begins at this frame: the one it lies in is divided there. The first
/// part keeps what was said; the new one has nothing said of it yet.
pub(crate) fn divided(
    production: &Production,
    roll: &str,
    frame: u32,
) -> Result<(String, Act), ProductionError> {
    let frames = production.roll(roll)?.frames;
    if frame >= frames {
        return Err(unfit(
            format!(
                "a take of {roll} can begin at 0 to {}",
                frames.saturating_sub(1)
            ),
            "step to the frame that is to be the first of the new take",
        ));
    }
    let mut takes = production.takes_of(roll)?;
    if takes.iter().any(|t| t.first == frame) {
        return Err(unfit(
            format!("a take begins at {roll}·{frame} already"),
            "step to another frame",
        ));
    }
    match takes
        .iter()
        .position(|t| t.first < frame && frame < t.thrown)
    {
        Some(at) => {
            let mut second = TakeRecord {
                first: frame,
                ..blank(roll, takes[at].thrown)
            };
            flash_of(production, roll, frame, second.thrown)?.put(&mut second);
            takes[at].thrown = frame;
            takes.insert(at + 1, second);
        }
        // Nothing is logged there yet: the take runs to the next one.
        None => {
            let next = takes.iter().map(|t| t.first).find(|f| *f > frame);
            let mut take = TakeRecord {
                first: frame,
                ..blank(roll, next.unwrap_or(frames))
            };
            flash_of(production, roll, frame, take.thrown)?.put(&mut take);
            takes.push(take);
            takes.sort_by_key(|t| t.first);
        }
    }
    Ok((
        format!("a take begins at {roll}·{frame}"),
        Act::PutTakes {
            roll: roll.to_owned(),
            takes,
        },
    ))
}

/// No take begins at this frame: the one before runs on through it.
pub(crate) fn mended(
    production: &Production,
    roll: &str,
    frame: u32,
) -> Result<(String, Act), ProductionError> {
    let mut takes = production.takes_of(roll)?;
    let at = after_break(&takes, roll, frame)?;
    let gone = takes.remove(at);
    takes[at - 1].thrown = gone.thrown;
    Ok((
        format!("no take begins at {roll}·{frame}"),
        Act::PutTakes {
            roll: roll.to_owned(),
            takes,
        },
    ))
}

/// A take begins at frame `to` instead of `frame`: what is said of it and of
/// the one before stays with them; the flash is measured anew, since that of another
/// frame says nothing here.
pub(crate) fn moved(
    production: &Production,
    roll: &str,
    frame: u32,
    to: u32,
) -> Result<(String, Act), ProductionError> {
    let mut takes = production.takes_of(roll)?;
    let at = after_break(&takes, roll, frame)?;
    let (first, last) = (takes[at - 1].first + 1, takes[at].thrown - 1);
    if to == frame || !(first..=last).contains(&to) {
        return Err(unfit(
            format!(
                "the break at {roll}·{frame} can be moved to {first} to {last}, and not to {to}"
            ),
            "a take keeps at least one frame; mend the break to make one take of two",
        ));
    }
    takes[at - 1].thrown = to;
    takes[at].first = to;
    takes[at].looked = true;
    let flash = flash_of(production, roll, to, takes[at].thrown)?;
    let told = flash.words(takes[at].flash_frames);
    flash.put(&mut takes[at]);
    Ok((
        format!("a take begins at {roll}·{to}, not at {frame}{told}"),
        Act::PutTakes {
            roll: roll.to_owned(),
            takes,
        },
    ))
}

/// Somebody has looked at where a take begins, and lets it stand.
pub(crate) fn looked_at(
    production: &Production,
    roll: &str,
    frame: u32,
) -> Result<(String, Act), ProductionError> {
    let mut takes = production.takes_of(roll)?;
    let at = takes.iter().position(|t| t.first == frame).ok_or_else(|| {
        unfit(
            format!("no take begins at {roll}·{frame}"),
            "step to the first frame of a take",
        )
    })?;
    takes[at].looked = true;
    Ok((
        format!("the break at {roll}·{frame} stands"),
        Act::PutTakes {
            roll: roll.to_owned(),
            takes,
        },
    ))
}

/// Which take begins at a break at `frame`; there is always one before it.
fn after_break(takes: &[TakeRecord], roll: &str, frame: u32) -> Result<usize, ProductionError> {
    let at = takes.iter().position(|t| t.first == frame).ok_or_else(|| {
        unfit(
            format!("no take begins at {roll}·{frame}"),
            "step to the first frame of a take",
        )
    })?;
    if at == 0 || takes[at - 1].thrown != frame {
        return Err(unfit(
            format!("there is no take before {roll}·{frame} to run on"),
            "only a break between two takes can be mended or moved",
        ));
    }
    Ok(at)
}

fn blank(roll: &str, thrown: u32) -> TakeRecord {
    TakeRecord {
        roll: roll.to_owned(),
        first: 0,
        thrown,
        setup: None,
        take: None,
        rating: "none".to_owned(),
        size: String::new(),
        camera_move: String::new(),
        direction: String::new(),
        action: String::new(),
        note: String::new(),
        begins: "cut".to_owned(),
        flash_frames: 0,
        flash_stops: None,
        looked: true,
        pin: None,
    }
}
