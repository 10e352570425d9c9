//! How like frames of a strip are to a roll's, and which have something lying over them.

use crate::sketch::{Sketch, likeness};

/// A frame this much less like than the others has something lying over it.
const COVERED: f32 = 0.35;
/// Such a share of the frames may have something lying over them, side by side.
const MOSTLY_COVERED: f32 = 0.8;
/// Standard deviation of the logarithm of light that noise alone may make in a
/// photograph of dark film.
const FAINT: f32 = 0.06;
/// Less like no frame counts when all are compared: it is covered, or of another shot.
const OTHER: f32 = 0.6;
/// How like nothing is to nothing.
const NOTHING: f32 = 0.9;

/// How like a frame of the strip is to one of the roll.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Like {
    pub(crate) likeness: f32,
    /// How much that says: little where hardly anything is to be seen in the frame.
    /// Range: 0 to 1.
    pub(crate) counts: f32,
    /// How much is to be seen in the frame of the strip, whatever the roll's shows: the
    /// same at all places. Range: 0 to 1.
    pub(crate) shows: f32,
}

impl Like {
    /// By the cells of the roll's frame, turned to lie as the strip's does.
    pub(crate) fn of(seen: &Sketch, cells: &[i8]) -> Self {
        let strong = seen.strength * seen.strength;
        let counts = strong / (strong + FAINT * FAINT);
        if cells.iter().all(|&cell| cell == 0) && seen.strength < 2.0 * FAINT {
            // Nothing here and nothing there.
            return Self {
                likeness: NOTHING,
                counts: counts.min(0.2),
                shows: counts,
            };
        }
        Self {
            likeness: likeness(&seen.fine, cells),
            counts,
            shows: counts,
        }
    }

    /// Hardly anything is to be seen in the frame.
    pub(crate) fn is_faint(self) -> bool {
        self.counts < 0.5
    }
}

/// The mean likeness of frames of which some may be covered.
pub(crate) fn mean(each: &[Like]) -> f32 {
    let counts: f32 = each.iter().map(|like| like.counts).sum();
    let likeness = |like: &Like| like.counts * like.likeness.max(OTHER);
    each.iter().map(likeness).sum::<f32>() / counts.max(0.01)
}

/// The mean likeness of the frames that nothing lies over.
pub(crate) fn mean_uncovered(each: &[Like]) -> f32 {
    let seen = uncovered(each);
    let counts: f32 = seen.iter().map(|&at| each[at].counts).sum();
    let sum: f32 = seen
        .iter()
        .map(|&at| each[at].likeness * each[at].counts)
        .sum();
    sum / counts.max(0.01)
}

/// The frames that nothing lies over: at least a quarter of those in which anything is
/// to be seen. A hand lies over frames side by side.
pub(crate) fn uncovered(each: &[Like]) -> Vec<usize> {
    let open = |share: f32| {
        let least = usual(each, share) - COVERED;
        let is_open = |at: &usize| each[*at].likeness >= least;
        (0..each.len()).filter(is_open).collect::<Vec<usize>>()
    };
    let most = open(MOSTLY_COVERED);
    let gaps = most.windows(2).filter(|w| w[1] > w[0] + 1).count();
    if gaps <= 1 { most } else { open(0.5) }
}

/// The likeness that such a share of what is seen does not reach.
fn usual(each: &[Like], share: f32) -> f32 {
    let mut sorted: Vec<&Like> = each.iter().collect();
    sorted.sort_by(|a, b| a.likeness.total_cmp(&b.likeness));
    let mut left = share * sorted.iter().map(|like| like.shows).sum::<f32>();
    for like in &sorted {
        left -= like.shows;
        if left < 0.0 {
            return like.likeness;
        }
    }
    sorted.last().map_or(0.0, |like| like.likeness)
}
