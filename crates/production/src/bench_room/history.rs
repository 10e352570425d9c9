//! The life of a strip, in words.

use onestrand_bench::{Film, How, Laid, Place, StripEvent, history};
use onestrand_film::{FrameName, RollId};
use onestrand_store::Production;

use super::room::Room;
use super::words::{frame, frames};
use crate::ProductionError;
use crate::documents::{StripEventDocument, StripHistoryDocument};

/// What happened to a frame and the length it is in.
///
/// # Errors
/// [`ProductionError::Unit`] when the roll has no such name,
/// [`ProductionError::Store`].
pub fn strip_history(
    production: &Production,
    roll: &str,
    at: u32,
) -> Result<StripHistoryDocument, ProductionError> {
    let of_roll = RollId::new(roll)?;
    production.roll(roll)?;
    let room = Room::of(production)?;
    let by_entry = |entry: usize| room.lines.iter().find(|l| l.entry == Some(entry));
    let events: Vec<StripEventDocument> = history(&room.log, &of_roll, at)
        .into_iter()
        .filter_map(|(entry, event)| {
            let line = by_entry(entry)?;
            Some(StripEventDocument {
                line: line.number,
                at: line.at.clone(),
                words: event_words(&event),
            })
        })
        .collect();
    let now = now(&room, &of_roll, at);
    let told: Vec<String> = events
        .iter()
        .map(|e| match day(&e.at) {
            Some(day) => format!("{} {day}", e.words),
            None => e.words.clone(),
        })
        .collect();
    Ok(StripHistoryDocument {
        frame: frame(&of_roll, at),
        words: match told.is_empty() {
            true => format!("nothing was done to it; {now}"),
            false => format!("{}; {now}", told.join(", ")),
        },
        now,
        events,
    })
}

/// `on 3 March`, out of a time in UTC.
fn day(at: &str) -> Option<String> {
    let time: jiff::Timestamp = at.parse().ok()?;
    let date = jiff::tz::Offset::UTC.to_datetime(time).date();
    Some(format!("on {} {}", date.day(), date.strftime("%B")))
}

fn now(room: &Room, roll: &RollId, at: u32) -> String {
    let state = room.log.state();
    for length in state.lengths() {
        let holds = |film: &Film| film.holds(roll, at);
        if length.links.iter().any(|l| holds(&l.film)) {
            return match &length.place {
                Place::Roll => "with its roll".to_owned(),
                Place::Made => "on the made film, turned back".to_owned(),
                Place::Pin(pin) => format!("on pin {pin}"),
                Place::TakeUp => "on the take-up reel".to_owned(),
                Place::Bench => "loose on the bench".to_owned(),
                Place::Outs(reel) => format!("on {reel}"),
            };
        }
    }
    let is = |g: &&onestrand_bench::Gone| {
        g.roll == *roll && (g.frames.begin().index()..g.frames.end().index()).contains(&at)
    };
    match state.gone().iter().find(is).map(|g| g.how) {
        Some(how) => format!("no more: {}", how_words(how)),
        None => "not on the bench".to_owned(),
    }
}

const fn how_words(how: How) -> &'static str {
    match how {
        How::Eaten => "eaten by a join",
        How::Opened => "spoiled when a join was opened",
        How::Torn => "torn",
    }
}

fn span(first: &FrameName, count: u32) -> String {
    let begin = first.frame.index();
    match count {
        1 => format!("frame {}", frame(&first.roll, begin)),
        n => format!("frames {} to {}", frame(&first.roll, begin), begin + n - 1),
    }
}

fn event_words(event: &StripEvent) -> String {
    let laid = |laid: Laid| match laid {
        Laid::Right => "",
        Laid::TurnedOver => ", turned over",
        Laid::EndForEnd => ", end for end",
        Laid::EndOverEnd => ", end over end",
    };
    match event {
        StripEvent::Cut { before } => {
            format!("cut before {}", frame(&before.roll, before.frame.index()))
        }
        StripEvent::Hung { pin } => format!("hung on pin {pin}"),
        StripEvent::JoinedAtHead { kind, laid: lies } => {
            format!("joined at its head with {}{}", kind.word(), laid(*lies))
        }
        StripEvent::JoinedAtTail { kind } => format!("joined at its tail with {}", kind.word()),
        StripEvent::Opened => "its join opened".to_owned(),
        StripEvent::Lost {
            first,
            frames: n,
            how,
        } => match how {
            How::Eaten => format!("{} eaten by the join", span(first, *n)),
            How::Opened => format!("{} spoiled by the opening", span(first, *n)),
            How::Torn => format!("{} torn", frames(u64::from(*n))),
        },
        StripEvent::MadeUp { reel } => format!("wound on {reel}"),
    }
}
