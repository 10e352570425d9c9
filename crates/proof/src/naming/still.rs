//! Where nothing moves no frame can be told from the next: the honest span.

use super::fit::{Fitter, Like, Placed, uncovered};
use super::query::Looked;
use super::side_by_side::each;
use crate::sketch::FINE_CELLS;

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

/// The least and the most frame at which the strip may begin.
///
/// A slow pan looks like a shifted picture: every place is given its own window before
/// it is refused.
pub(super) fn possible(fitter: &Fitter<'_>, best: &Placed) -> (i64, i64) {
    let rest = Rest::of(fitter, best);
    let is_possible = |place: &Placed| {
        let more = rest.more(fitter, place);
        more * rest.per_square < LESS || more < ERRS_ALIKE * rest.least
    };
    let run = |step: i64| {
        let (mut last, mut warp) = (best.begin, best.warp);
        for off in 1..FAR {
            let begin = best.begin + step * off;
            let mut other = Placed {
                begin,
                warp,
                ..*best
            };
            if !fitter.is_within(&other) {
                break;
            }
            if !is_possible(&other) {
                fitter.closer(&mut other, 3);
            }
            if is_possible(&other) {
                (last, warp) = (begin, other.warp);
            } else if (begin - last).abs() > PASSED_OVER {
                break;
            }
        }
        last
    };
    // Each way is followed by itself, and may be long.
    let mut ends = [-1, 1];
    each(&mut ends, |end| *end = run(*end));
    let [low, high] = ends;
    if low == high {
        return (low, high);
    }
    // Where stillness ends is itself told by a limit, and one photograph's errs.
    let is_within = |begin: i64| fitter.is_within(&Placed { begin, ..*best });
    let reach = |end: i64, step: i64| {
        let off = (0..=PASSED_OVER)
            .rev()
            .find(|off| is_within(end + step * off));
        end + step * off.unwrap_or(0)
    };
    (reach(low, -1), reach(high, 1))
}

/// The mean square between two cells of strength one; what lies over a frame counts no
/// more than a frame of another shot would.
fn square(likeness: f32) -> f32 {
    (2.0 * (1.0 - likeness)).min(COVERED)
}

fn squares(each: &[Like], seen: &[usize]) -> f32 {
    seen.iter()
        .map(|&at| each[at].counts * square(each[at].likeness))
        .sum()
}
