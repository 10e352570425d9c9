//! Where nothing moves no frame can be told from the next: the honest span.

use super::fit::{Fitter, Placed};
use super::like::{Like, uncovered};
use super::query::Looked;
use super::side_by_side::each;
use crate::sketch::{FINE_CELLS, likeness_woven};

/// Of this many cells beside each other one speaks for itself: light, blur and the
/// coding of a picture reach over several.
const TOGETHER: f32 = 5.0;
/// By this much less likely (natural logarithm) a place is not taken for possible.
const LESS: f32 = 6.0;
/// More than this is no noise: something lies over the frame. Unit: square of a cell.
const COVERED: f32 = 0.8;
/// All frames err alike where the photograph's shape is not met quite: more frames do
/// not make that less. So much more, as a share of what is left, tells nothing.
const ERRS_ALIKE: f32 = 0.2;
/// Where the roll's own frames are so unlike, the shot is still no longer.
const OTHERS: f32 = 0.1;
/// So many frames that do not fit are passed over: a flaw of the scan, a breath of the
/// coding, and the shot goes on as still as before.
const PASSED_OVER: i64 = 8;
/// How far a still shot is followed. Unit: frames.
const FAR: i64 = 2_000;

/// What is left between a strip and the roll at a place, beside what is left at the
/// best one.
#[derive(Debug, Clone)]
pub(super) struct Rest {
    seen: Vec<usize>,
    least: f32,
    /// Natural logarithm of how much less likely a place is, for one more square.
    per_square: f32,
}

impl Rest {
    /// Measures what is left at the best place.
    pub(super) fn of(fitter: &Fitter<'_>, best: &Placed) -> Self {
        let each = fitter.each(best, best.window, Looked::All);
        let seen: Vec<usize> = (0..each.len()).collect();
        let mut open: Vec<f32> = uncovered(&each)
            .iter()
            .map(|&at| square(each[at].likeness))
            .collect();
        open.sort_by(f32::total_cmp);
        let noise = open.get(open.len() / 2).copied().unwrap_or(1.0).max(0.01);
        Self {
            least: squares(&each, &seen),
            seen,
            per_square: FINE_CELLS as f32 / (2.0 * noise * TOGETHER),
        }
    }

    /// By how much less likely another place is. Natural logarithm.
    pub(super) fn less_likely(&self, fitter: &Fitter<'_>, place: &Placed) -> f32 {
        self.more(fitter, place) * self.per_square
    }

    /// How many more squares are left at another place.
    fn more(&self, fitter: &Fitter<'_>, place: &Placed) -> f32 {
        let each = fitter.each(place, place.window, Looked::All);
        squares(&each, &self.seen) - self.least
    }
}

/// Whether a strip may lie at a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum May {
    /// The pictures say otherwise.
    Not,
    /// Hardly; but where a still shot ends is told by a limit, and one photograph errs.
    Hardly,
    Be,
}

/// What speaks against the places beside the best one.
struct Beside<'a> {
    fitter: &'a Fitter<'a>,
    best: &'a Placed,
    rest: Rest,
    /// Frames of the strip that nothing lies over.
    seen: Vec<usize>,
}

impl Beside<'_> {
    /// By what is left in the photograph, and by how much the roll's own pictures differ.
    fn may(&self, place: &Placed) -> May {
        let more = self.rest.more(self.fitter, place);
        let errs = more / (ERRS_ALIKE * self.rest.least);
        // A slow move looks like a shifted photograph: where the pictures fit nearly as well
        // they are believed, however unlike the roll's are.
        if more * self.rest.per_square < LESS || errs < 0.5 {
            return May::Be;
        }
        match self.unlike(place) < OTHERS {
            true if errs < 1.0 => May::Be,
            true if errs < 2.0 => May::Hardly,
            _ => May::Not,
        }
    }

    /// How unlike the roll's frames at a place are to those at the best one. No photograph
    /// comes between, so a little tells much.
    fn unlike(&self, place: &Placed) -> f32 {
        let roll = &self.fitter.rolls[place.roll];
        let unlike = |&at: &usize| {
            let along = self.fitter.query.places[at];
            let frame = |of: &Placed| usize::try_from(of.frame(along)).unwrap_or(0);
            let (one, other) = (frame(self.best), frame(place));
            let both_seen = roll.is_seen(one) && roll.is_seen(other);
            both_seen.then(|| 1.0 - likeness_woven(roll.fine(one), roll.fine(other)))
        };
        let each: Vec<f32> = self.seen.iter().filter_map(unlike).collect();
        each.iter().sum::<f32>() / each.len().max(1) as f32
    }

    /// The furthest place one way at which the strip may be, and at which it hardly may.
    ///
    /// A slow pan looks like a shifted picture: every place is given its own window before
    /// it is refused.
    fn furthest(&self, step: i64) -> (i64, i64) {
        let (mut last, mut warp) = (self.best.begin, self.best.warp);
        let mut hardly = last;
        for off in 1..FAR {
            let begin = self.best.begin + step * off;
            let mut other = Placed {
                begin,
                warp,
                ..*self.best
            };
            if !self.fitter.is_within(&other) || (begin - last).abs() > PASSED_OVER + 1 {
                break;
            }
            if self.may(&other) != May::Be {
                self.fitter.closer(&mut other, 3);
            }
            match self.may(&other) {
                May::Be => (last, warp, hardly) = (begin, other.warp, begin),
                May::Hardly => hardly = begin,
                May::Not => {}
            }
        }
        (last, hardly)
    }
}

/// The least and the most frame at which the strip may begin.
pub(super) fn possible(fitter: &Fitter<'_>, best: &Placed) -> (i64, i64) {
    let beside = Beside {
        fitter,
        best,
        rest: Rest::of(fitter, best),
        seen: uncovered(&fitter.each(best, best.window, Looked::All)),
    };
    // Each way is followed by itself, and may be long.
    let mut ends = [(-1, 0, 0), (1, 0, 0)];
    each(&mut ends, |end| (end.1, end.2) = beside.furthest(end.0));
    let [low, high] = ends;
    if low.1 == high.1 {
        (low.1, high.1)
    } else {
        (low.2, high.2)
    }
}

/// The mean square between two cells of strength one; what lies over a frame counts no
/// more than a frame of another shot would.
fn square(likeness: f32) -> f32 {
    (2.0 * (1.0 - likeness)).min(COVERED)
}

fn squares(each: &[Like], seen: &[usize]) -> f32 {
    seen.iter()
        .map(|&at| each[at].shows * square(each[at].likeness))
        .sum()
}
