//! What happened to a piece of film.

use onestrand_cut::JoinKind;
use onestrand_film::{FrameName, RollId};

use super::{BenchLog, BenchState, Deed, Entry, Film, How, Laid, Place};

/// One event in the life of a frame and the length it is in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum StripEvent {
    /// A blade went through beside its length: the first frame behind the blade.
    Cut {
        /// The place.
        before: FrameName,
    },
    /// Its length was hung.
    Hung {
        /// The pin.
        pin: u32,
    },
    /// Its length was joined at its head.
    JoinedAtHead {
        /// With what.
        kind: JoinKind,
        /// How it was laid.
        laid: Laid,
    },
    /// Its length was joined at its tail.
    JoinedAtTail {
        /// With what.
        kind: JoinKind,
    },
    /// A join beside its length was opened.
    Opened,
    /// Frames of its length were lost.
    Lost {
        /// The first.
        first: FrameName,
        /// How many.
        frames: u32,
        /// How.
        how: How,
    },
    /// It was wound on a reel of outs.
    MadeUp {
        /// The reel.
        reel: String,
    },
}

/// The life of a frame: the number of each line, from 0, and what it did. Lines
/// that were struck out are left out.
#[must_use]
pub fn history(log: &BenchLog, roll: &RollId, frame: u32) -> Vec<(usize, StripEvent)> {
    let mut events = Vec::new();
    let Ok(mut state) = log.at(0) else {
        return events;
    };
    for (number, entry) in log.entries().iter().enumerate() {
        let Entry::Deed(deed) = entry else { continue };
        if log.is_struck(number) {
            continue;
        }
        let before = around(&state, roll, frame);
        if state.apply(deed, log.table(), number).is_err() {
            continue;
        }
        let after = around(&state, roll, frame);
        let lost = state.gone().iter().filter(|g| g.entry == number);
        for gone in lost.filter(|g| g.roll == *roll) {
            let near = before.as_ref().is_some_and(|b| {
                let (first, end) = (gone.frames.begin().index(), gone.frames.end().index());
                first >= b.begin && end <= b.end
            });
            if near {
                events.push((
                    number,
                    StripEvent::Lost {
                        first: super::whole::name(roll, gone.frames.begin().index()),
                        frames: gone.frames.len().count(),
                        how: gone.how,
                    },
                ));
            }
        }
        if let Some(event) = event(deed, before.as_ref(), after.as_ref()) {
            events.push((number, event));
        }
    }
    events
}

/// The length a frame is in, and what it is joined to.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Around {
    begin: u32,
    end: u32,
    at_head: Option<JoinKind>,
    at_tail: Option<JoinKind>,
    laid: Laid,
    place: Place,
}

fn around(state: &BenchState, roll: &RollId, frame: u32) -> Option<Around> {
    let (c, l) = state.find(roll, frame).ok()?;
    let length = &state.lengths()[c];
    let link = &length.links[l];
    let Film::Roll { begin, end, .. } = link.film else {
        return None;
    };
    let behind = length.links.get(l + 1).and_then(|n| n.join);
    let ended = state
        .ended
        .filter(|_| c == 0 && l + 1 == length.links.len());
    Some(Around {
        begin,
        end,
        at_head: link.join.map(|j| j.kind),
        at_tail: behind.or(ended).map(|j| j.kind),
        laid: link.laid,
        place: length.place.clone(),
    })
}

fn event(deed: &Deed, before: Option<&Around>, after: Option<&Around>) -> Option<StripEvent> {
    let (before, after) = (before?, after?);
    match deed {
        Deed::Cut { roll, before: at } => {
            let cut = (before.begin, before.end) != (after.begin, after.end);
            cut.then(|| StripEvent::Cut {
                before: super::whole::name(roll, at.index()),
            })
        }
        Deed::Hang { pin, .. } => {
            (before.place != after.place).then_some(StripEvent::Hung { pin: *pin })
        }
        Deed::Join { kind, .. } => match (before.at_head, after.at_head) {
            (None, Some(kind)) => Some(StripEvent::JoinedAtHead {
                kind,
                laid: after.laid,
            }),
            _ => (before.at_tail.is_none() && after.at_tail.is_some())
                .then_some(StripEvent::JoinedAtTail { kind: *kind }),
        },
        Deed::Open { .. } => {
            let was = (before.at_head, before.at_tail);
            (was != (after.at_head, after.at_tail)).then_some(StripEvent::Opened)
        }
        Deed::MakeUp { reel, .. } => {
            let made_up = before.place != after.place;
            made_up.then(|| StripEvent::MadeUp { reel: reel.clone() })
        }
        _ => None,
    }
}
