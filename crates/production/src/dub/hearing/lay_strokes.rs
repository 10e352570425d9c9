//! Cues out of strokes that were chosen.

use super::strokes::MarksAsked;
use crate::documents::{AnchorWords, CueWords, FadeWords, HoldsToWord, LaidWords, SoundWords};
use crate::dub::CueChanged;
use crate::dub::version::Version;

/// A sound is let in before its first stroke, for one that begins with it sounds cut off.
/// Unit: seconds.
const LEAD_IN: f64 = 0.5;
/// Of what lies between the stroke before and the first that is wanted, at most so much.
const SHARE: f64 = 0.6;
/// It is over so long before a stroke that is not wanted. Unit: seconds.
const BEFORE_NEXT: f64 = 0.03;

/// A frame that is marked.
#[derive(Debug, Clone)]
pub(super) struct Place {
    /// The running frame.
    pub(super) at: i64,
    holds: AnchorWords,
}

impl Place {
    /// A running frame, and what it shows.
    pub(super) fn of(version: &Version, frame: u32) -> Self {
        let at = i64::from(frame);
        let piece = version
            .pieces
            .iter()
            .rfind(|piece| piece.at <= at)
            .and_then(|piece| Some((piece.roll.clone()?, piece)));
        let holds = match piece {
            Some((roll, piece)) => AnchorWords {
                to: HoldsToWord::Frame,
                roll,
                frame: piece.first + u32::try_from(at - piece.at).unwrap_or(0),
                offset: 0,
            },
            // Leader and cards have no frames with names.
            None => AnchorWords {
                to: HoldsToWord::Clock,
                roll: String::new(),
                frame,
                offset: 0,
            },
        };
        Self { at, holds }
    }
}

/// Strokes on their way into cues.
pub(super) struct Laid<'a> {
    pub(super) sound: &'a SoundWords,
    pub(super) asked: &'a MarksAsked,
    /// All strokes. Unit: samples of the sound as it is kept.
    pub(super) strokes: Vec<u64>,
    /// Samples a second of it.
    pub(super) rate: f64,
    /// How many times faster it is played.
    pub(super) play: f64,
}

impl Laid<'_> {
    /// Samples of the sound as it is kept, for a time as it is played.
    fn samples(&self, seconds: f64) -> f64 {
        seconds * self.play * self.rate
    }

    /// A stroke, as a time of the sound as it is played. Unit: seconds.
    fn played(&self, which: usize) -> f64 {
        self.strokes[which] as f64 / self.rate / self.play
    }

    fn shown(&self, mark: usize) -> f64 {
        self.asked.marks[mark].at as f64 / self.asked.speed.as_f64()
    }

    /// Where the sound would begin, were this stroke on the first mark. Unit: seconds.
    pub(super) fn begins_with(&self, which: usize) -> f64 {
        self.shown(0) - self.played(which)
    }

    /// Frames that the sound is let in before a stroke.
    fn lead_in(&self, which: usize, mark: usize) -> u32 {
        let here = self.played(which);
        let free = match which.checked_sub(1) {
            Some(before) => SHARE * (here - self.played(before)),
            None => here,
        };
        let frames = (free.min(LEAD_IN) * self.asked.speed.as_f64()).floor() as u32;
        let room = u32::try_from(self.asked.marks[mark].at).unwrap_or(0);
        frames.min(room)
    }

    /// A cue that lets the sound in before a stroke and ends it before another; `begins` is
    /// where the sound's own beginning comes.
    fn cue(&self, (first, mark): (usize, usize), last: usize, begins: f64) -> CueWords {
        let lead = self.lead_in(first, mark);
        let place = &self.asked.marks[mark];
        let into = self.shown(mark) - f64::from(lead) / self.asked.speed.as_f64() - begins;
        let from = self.samples(into).round().max(0.0) as u64;
        let next = self.strokes.get(last + 1);
        let all = self.sound.facts.samples;
        let end = next.map(|next| next.saturating_sub((BEFORE_NEXT * self.rate) as u64));
        let to = end.filter(|end| *end > from && *end < all);
        let fade = |frames| FadeWords {
            frames,
            ..FadeWords::default()
        };
        let over = to.unwrap_or(all).saturating_sub(from) as f64;
        let seconds = over / self.rate / self.play;
        let frames = (seconds * self.asked.speed.as_f64()).ceil().max(1.0) as u32;
        CueWords {
            start: AnchorWords {
                offset: -i32::try_from(lead).unwrap_or(0),
                ..place.holds.clone()
            },
            end: None,
            frames: None,
            from: from.min(all.saturating_sub(1)),
            to,
            looped: false,
            fade_in: fade(lead / 3),
            // What goes on sounding is not cut off at once.
            fade_out: fade(if to.is_some() { frames.min(2) } else { 0 }),
            laid: Some(LaidWords {
                cut: self.asked.cut.clone(),
                at: place.at - i64::from(lead),
                frames,
            }),
            left: false,
            ..self.asked.cue.clone()
        }
    }
}

/// One piece of the sound with all the strokes.
pub(super) fn lay_row(laid: &Laid<'_>, strokes: &[usize], begins: f64) -> CueChanged {
    let first = strokes.first().copied().unwrap_or(0);
    let last = strokes.last().copied().unwrap_or(0);
    CueChanged {
        id: laid.asked.id,
        cue: laid.cue((first, 0), last, begins),
    }
}

/// Each stroke a cue of its own, on its own frame.
pub(super) fn lay_each(laid: &Laid<'_>, strokes: &[usize]) -> Vec<CueChanged> {
    let one = |(mark, which): (usize, &usize)| {
        let begins = laid.shown(mark) - laid.played(*which);
        let mut cue = laid.cue((*which, mark), *which, begins);
        cue.name = format!("{} {}", laid.asked.cue.name, mark + 1);
        CueChanged {
            id: laid.asked.id.filter(|_| mark == 0),
            cue,
        }
    };
    strokes.iter().enumerate().map(one).collect()
}
