//! A music that is too long, laid as two cues without some of its bars.

use onestrand_dub::{BeatMap, bars_to_lift};

use super::{Laid, rounded};
use crate::documents::{
    AnchorWords, BarsLiftedDocument, CueWords, FadeWords, LaidWords, LevelPointWords,
};
use crate::dub::CueChanged;

/// One passes into the other over a frame.
const CROSSED: u32 = 1;

/// What to lift so that the music ends with a picture of so many frames from `head` on.
pub(super) fn lifted(
    laid: &Laid<'_>,
    map: &BeatMap,
    head: u32,
    picture: i64,
) -> Option<BarsLiftedDocument> {
    let of = laid.bars();
    let lift = bars_to_lift(map, picture, of)?;
    let gone = (map.bar(lift.from - 1), map.bar(lift.from - 1 + lift.bars));
    Some(BarsLiftedDocument {
        from: lift.from,
        bars: lift.bars,
        of,
        off: rounded(lift.off, 2),
        cues: in_two(laid, (gone.0 + f64::from(head), gone.1 + f64::from(head)))?,
    })
}

/// The cue in two: it is left just before the first running frame and goes on from the second,
/// so that the beat goes on. Nothing where it begins behind what is to go.
fn in_two(laid: &Laid<'_>, (leave, resume): (f64, f64)) -> Option<Vec<CueChanged>> {
    let cue = &laid.cue.cue;
    // Before the beat: its stroke is whole.
    let joined = leave.floor() as i64 - i64::from(CROSSED);
    let first = u32::try_from(joined - laid.cue.at)
        .ok()
        .filter(|f| *f > 0)?;
    // What plays at the join is as far before the bar that follows as the join is.
    let into = resume - leave + joined as f64 - laid.cue.at as f64;
    let from = (cue.from as f64 + into * laid.samples_a_frame()).round();
    let over = cue.to.unwrap_or(laid.sound.facts.samples);
    let rest = (over as f64 - from) / laid.samples_a_frame();
    if rest < 1.0 {
        return None;
    }
    let fade = |frames| FadeWords {
        frames,
        ..cue.fade_out
    };
    let placed = |at, frames| {
        Some(LaidWords {
            cut: laid.dub.cut.clone(),
            at,
            frames,
        })
    };
    let (before, behind) = lines(&cue.line, first);
    let opening = CueWords {
        frames: Some(first + CROSSED),
        end: None,
        fade_out: fade(CROSSED),
        line: before,
        laid: placed(laid.cue.at, first + CROSSED),
        ..cue.clone()
    };
    let frames = cue.frames.map(|frames| frames.saturating_sub(first).max(1));
    let ending = CueWords {
        name: format!("{}, from bar {}", cue.name, bar_behind(laid, resume)),
        start: AnchorWords {
            offset: cue.start.offset + i32::try_from(first).unwrap_or(0),
            ..cue.start.clone()
        },
        from: from as u64,
        frames: frames.map(|frames| frames.min(rest.ceil() as u32)),
        fade_in: FadeWords {
            frames: CROSSED,
            ..cue.fade_in
        },
        line: behind,
        laid: placed(joined, rest.ceil() as u32),
        ..cue.clone()
    };
    Some(vec![
        CueChanged {
            id: Some(laid.cue.id),
            cue: opening,
        },
        CueChanged {
            id: None,
            cue: ending,
        },
    ])
}

/// The bar that begins at a running frame, counted from 1.
fn bar_behind(laid: &Laid<'_>, frame: f64) -> i64 {
    laid.map(0).map_or(1, |map| {
        (map.beats_at(frame) / f64::from(map.in_a_bar())).round() as i64 + 1
    })
}

/// A level line in two at a frame of its cue.
fn lines(line: &[LevelPointWords], at: u32) -> (Vec<LevelPointWords>, Vec<LevelPointWords>) {
    let before: Vec<_> = line.iter().filter(|one| one.at < at).copied().collect();
    let later = line.iter().filter(|one| one.at >= at);
    let mut behind: Vec<_> = later
        .map(|one| LevelPointWords {
            at: one.at - at,
            ..*one
        })
        .collect();
    let level = match (before.last(), behind.first()) {
        (Some(left), Some(next)) if next.at > 0 => {
            let share = f64::from(at - left.at) / f64::from(at - left.at + next.at);
            Some(left.level + (share * f64::from(next.level - left.level)).round() as i32)
        }
        (Some(left), None) => Some(left.level),
        _ => None,
    };
    if let Some(level) = level {
        behind.insert(0, LevelPointWords { at: 0, level });
    }
    let mut before = before;
    if let Some(level) = behind.first().filter(|one| one.at == 0) {
        before.push(LevelPointWords {
            at,
            level: level.level,
        });
    }
    (before, behind)
}
