//! Two frames held side by side: same light, blocks sought.

use crate::blocks::{
    BLOCKS, Found, Pixels, Step, difference_at, differences_at, seek, seek_about, texture,
};
use crate::small::Small;
use crate::tone::{retoned, tones_from_to};
use std::borrow::Cow;

/// Frame `from` compared with frame `to` after evening out the light.
pub(crate) struct Pair<'a> {
    from: Cow<'a, Pixels>,
    to: Cow<'a, Pixels>,
    guess: Step,
    /// Contrast of the lighter of the two, in grey levels.
    pub(crate) contrast: f32,
}

impl<'a> Pair<'a> {
    /// Lays two frames side by side; `guess` is how far the whole picture has
    /// moved from the first to the second.
    ///
    /// The darker takes the tones of the lighter: clipped lights cannot be
    /// brought back, but the other frame can be clipped alike.
    pub(crate) fn new(from: &'a Small, to: &'a Small, guess: Step) -> Self {
        let (mut a, mut b) = (Cow::Borrowed(&*from.pixels), Cow::Borrowed(&*to.pixels));
        let rising = from.mean <= to.mean;
        if rising {
            a = Cow::Owned(retoned(from, &tones_from_to(from, to)));
        } else {
            b = Cow::Owned(retoned(to, &tones_from_to(to, from)));
        }
        Self {
            from: a,
            to: b,
            guess,
            contrast: if rising { to.contrast } else { from.contrast },
        }
    }

    /// The same pair, the movement of the whole picture made exact to a pixel of
    /// the halved plane.
    pub(crate) fn refined(mut self) -> Self {
        let start = self.guess;
        let mut best = (f32::MAX, start);
        for down in -1..=1 {
            for right in -1..=1 {
                let step = start.then(Step { right, down });
                let sum: f32 = differences_at(&self.from, &self.to, step).iter().sum();
                if sum < best.0 {
                    best = (sum, step);
                }
            }
        }
        self.guess = best.1;
        self
    }

    /// The same pair, the movement of the whole picture kept to what it does in
    /// other pairs: as far each way as the farthest of `steps`.
    pub(crate) fn moved_like(mut self, steps: &[Step]) -> Self {
        let kept = |value: i32, of: fn(&Step) -> i32| {
            let least = steps.iter().map(of).min().unwrap_or(value);
            let most = steps.iter().map(of).max().unwrap_or(value);
            value.clamp(least, most)
        };
        self.guess = Step {
            right: kept(self.guess.right, |step| step.right),
            down: kept(self.guess.down, |step| step.down),
        };
        self
    }

    /// How far the whole picture has moved from the first frame to the second.
    pub(crate) fn step(&self) -> Step {
        self.guess
    }

    /// The mean difference of all blocks moved with the whole picture, and
    /// what grain, dust and coding leave between two pictures of the same
    /// thing: the difference that a quarter of the blocks do not exceed. Unit:
    /// grey levels.
    pub(crate) fn mean_and_grain(&self) -> (f32, f32) {
        let mut differences = differences_at(&self.from, &self.to, self.guess);
        let mean = differences.iter().sum::<f32>() / BLOCKS as f32;
        let (_, quarter, _) = differences.select_nth_unstable_by(BLOCKS / 4, f32::total_cmp);
        (mean, *quarter)
    }

    /// How much there is to see in a block of the first frame. Unit: grey
    /// levels.
    pub(crate) fn texture(&self, block: usize) -> f32 {
        texture(&self.from, block)
    }

    /// The difference of a block moved with the whole picture, in grey levels.
    pub(crate) fn following(&self, block: usize) -> f32 {
        difference_at(&self.from, &self.to, block, self.guess)
    }

    /// The least difference of one block of the first frame in the second when it
    /// goes with the whole picture or by `onward`, each within `reach` pixels.
    pub(crate) fn seek_about(&self, block: usize, onward: Step, reach: i32, enough: f32) -> f32 {
        let both = [self.guess, onward];
        let about = if onward == self.guess {
            &both[..1]
        } else {
            &both
        };
        seek_about(&self.from, &self.to, block, (about, reach), enough)
    }

    /// Seeks one block of the first frame in the second.
    pub(crate) fn seek(&self, block: usize, enough: f32) -> Found {
        seek(&self.from, &self.to, block, self.guess, enough)
    }
}
