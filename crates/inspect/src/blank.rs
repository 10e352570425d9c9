//! Film without a picture: leader and black.

use crate::blocks::{BLOCKS, texture};
use crate::finding::Finding;
use crate::frame::HeldFrame;

/// Nine tenths of the levels of film without a picture lie so near each other:
/// the others are dust and scratches. Unit: levels.
const SPREAD: u8 = 20;
/// A block shows something when its levels lie so far from their mean. Unit:
/// levels; grain stays below.
pub(crate) const DETAIL: f32 = 6.0;
/// So many blocks may show something in the same place in two frames: dust is
/// gone in the next frame, a scratch and the frame line are not; the words of a
/// title are more.
const STANDING: usize = BLOCKS / 20;
/// Darker than this it is black. Unit: levels.
const BLACK: f32 = 56.0;
/// Leader keeps its tone from frame to frame; stray light does not. Unit:
/// levels.
const STEADY: f32 = 6.0;
/// Fewer frames of leader are light-struck film or a fault. Unit: frames.
const SHORTEST_LEADER: u32 = 12;
/// Fewer frames of black are a fault.
const SHORTEST_BLACK: u32 = 4;

/// What film without a picture looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Bare {
    /// It lets light through.
    Clear,
    /// It does not.
    Black,
}

/// Whether a frame shows nothing, judged with the one before it.
pub(crate) fn bare(frame: &HeldFrame, before: Option<&HeldFrame>) -> Option<Bare> {
    let small = &frame.small;
    if small.level_at(0.95) - small.level_at(0.05) > SPREAD {
        return None;
    }
    let shows = |frame: &HeldFrame, block| texture(&frame.small.pixels, block) >= DETAIL;
    let standing = (0..BLOCKS)
        .filter(|&block| shows(frame, block) && before.is_none_or(|before| shows(before, block)))
        .count();
    let kind = if small.mean < BLACK {
        Bare::Black
    } else {
        Bare::Clear
    };
    (standing <= STANDING).then_some(kind)
}

/// A stretch of bare film.
#[derive(Debug, Clone, Copy)]
struct Run {
    kind: Bare,
    from: u32,
    /// Sum of the means of its frames.
    sum: f32,
}

/// Follows stretches of film without a picture.
#[derive(Debug, Default)]
pub(crate) struct BlankWatch {
    seen: u32,
    run: Option<Run>,
}

impl BlankWatch {
    /// Takes in the next frame, bare or not, with its mean level; tells the
    /// stretch that ended before it.
    pub(crate) fn push(&mut self, bare: Option<Bare>, mean: f32) -> Option<Finding> {
        let number = self.seen;
        self.seen += 1;
        let goes_on = self.run.is_some_and(|run| {
            let level = run.sum / (number - run.from) as f32;
            let steady = run.kind == Bare::Black || (mean - level).abs() < STEADY;
            bare == Some(run.kind) && steady
        });
        if let Some(run) = self.run.as_mut().filter(|_| goes_on) {
            run.sum += mean;
            return None;
        }
        let ended = self.told(number);
        self.run = bare.map(|kind| Run {
            kind,
            from: number,
            sum: mean,
        });
        ended
    }

    /// The end of the roll.
    pub(crate) fn finish(&mut self) -> Option<Finding> {
        self.told(self.seen)
    }

    fn told(&mut self, until: u32) -> Option<Finding> {
        let Run { kind, from, sum } = self.run.take()?;
        let frames = until - from;
        match kind {
            Bare::Black => (frames >= SHORTEST_BLACK).then_some(Finding::Black { from, until }),
            Bare::Clear => (frames >= SHORTEST_LEADER).then_some(Finding::Leader {
                from,
                until,
                level: sum / frames as f32,
            }),
        }
    }
}
