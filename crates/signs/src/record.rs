//! What was kept of a roll, and the questions it answers.

use crate::judge;
use crate::kept::KeptFrame;
use crate::limits::SignLimits;
use crate::sign::Sign;
use crate::spans::{middle, share};
use crate::standing_thing::StandingThing;
use std::ops::Range;

/// The measures of all frames of a roll, to be asked for signs once its takes
/// are known, and again when they change.
#[derive(Debug, Clone)]
pub struct SignRecord {
    pub(crate) frames: Vec<KeptFrame>,
    pub(crate) things: Vec<StandingThing>,
}

/// A take as the judges see it.
#[derive(Debug, Clone)]
pub(crate) struct Take {
    pub(crate) span: Range<usize>,
}

impl SignRecord {
    pub(crate) fn new(frames: Vec<KeptFrame>, things: Vec<StandingThing>) -> Self {
        Self { frames, things }
    }

    /// Frames of the roll, missing ones counted.
    #[must_use]
    pub fn frames(&self) -> u32 {
        self.frames.len() as u32
    }

    /// All signs of the roll, in order of their first frames.
    ///
    /// `takes`: first frame, and first frame after, of each take in order. What
    /// lies between takes (leader, fogged ends) is not judged.
    #[must_use]
    pub fn signs(&self, takes: &[Range<u32>], limits: &SignLimits) -> Vec<Sign> {
        let takes: Vec<Take> = takes
            .iter()
            .map(|take| Take {
                span: self.within(take),
            })
            .filter(|take| !take.span.is_empty())
            .collect();
        let mut signs = judge::all(self, &takes, limits);
        let seen = |at: u32| self.frames.get(at as usize).is_some_and(|frame| frame.seen);
        for sign in &mut signs {
            sign.compare = sign
                .compare
                .filter(|pair| seen(pair.seen) && seen(pair.beside));
        }
        signs.sort_by(|a, b| {
            (a.from, a.until, a.kind)
                .cmp(&(b.from, b.until, b.kind))
                .then(a.measure.total_cmp(&b.measure))
        });
        signs
    }

    /// How sharp `span` is against the sharpest frames of `other`, which shows
    /// the same action: the twin of a take, or another part of it. 1 is as
    /// sharp. `None` where either shows no edges.
    #[must_use]
    pub fn sharpness_against(&self, span: &Range<u32>, other: &Range<u32>) -> Option<f32> {
        let ways: [fn(&KeptFrame) -> f32; 2] =
            [|frame| frame.across.sharp, |frame| frame.along.sharp];
        let ratios = ways.map(|way| {
            let here = middle(self.frames[self.within(span)].iter().map(way));
            let best = share(self.frames[self.within(other)].iter().map(way), BEST);
            here / best
        });
        let known = ratios.into_iter().filter(|ratio| ratio.is_finite());
        let (sum, number) = known.fold((0.0, 0.0), |(sum, number), ratio| {
            (sum + ratio, number + 1.0)
        });
        (number > 0.0).then(|| sum / number)
    }

    /// How much of the picture is clipped to white on the mean of a span.
    /// Range: 0 to 1.
    #[must_use]
    pub fn clipped_share(&self, span: &Range<u32>) -> f32 {
        let frames = &self.frames[self.within(span)];
        frames.iter().map(|frame| frame.white).sum::<f32>() / frames.len().max(1) as f32
    }

    fn within(&self, span: &Range<u32>) -> Range<usize> {
        let end = (span.end as usize).min(self.frames.len());
        (span.start as usize).min(end)..end
    }
}

/// The best frame of a take is that which so many do not exceed: a single
/// frame may have been lucky in its grain.
pub(crate) const BEST: f32 = 0.9;
