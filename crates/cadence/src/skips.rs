//! Film frames that the machine left out: the picture moves on by too much.

use crate::motion::Motion;

/// Boundaries on either side by which the movement is known: as many as can be,
/// since the more there are the smaller a jump is seen; fewer near a cut.
const AROUND: [usize; 3] = [15, 11, 7];
/// The most of them.
pub(crate) const AROUND_MOST: usize = AROUND[0];
/// A picture that moves by less a film frame tells nothing. Unit: pixels of a plane.
const MOVES_LEAST: f32 = 0.6;
/// How many times the spread of the movement a jump must be.
const SURE: f32 = 4.5;
/// Least jump in film frames that counts as one or more.
const JUMP_LEAST: f32 = 0.55;
/// Most film frames that a jump is believed to be.
const JUMP_MOST: f32 = 6.0;
/// What is left of the change in a pan, as a share, at most boundaries.
const EXPLAINED: f32 = 0.4;
/// Boundaries on either side of which none may move on by more.
const BESIDE: usize = 5;
/// How much more the picture may change in itself at a jump than beside it.
const LEFT_MOST: f32 = 3.0;
/// How unlike the movements before and after may be, as a share.
const UNLIKE: f32 = 0.35;

/// A jump of the picture along its own movement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Jump {
    /// Film frames left out: likeliest, fewest and most.
    pub(crate) frames: (u32, u32, u32),
}

/// Whether film frames are missing at boundary `at`, from the motions at all
/// boundaries that are known.
pub(crate) fn jump(motions: &[Motion], at: usize) -> Option<Jump> {
    let around = |reach: usize| motions.get(at.checked_sub(reach)?..at + reach + 1);
    let mut reaches = AROUND.into_iter();
    reaches.find_map(|reach| jump_amid(around(reach)?))
}

/// The same from a stretch with the boundary in its middle.
fn jump_amid(motions: &[Motion]) -> Option<Jump> {
    let middle = motions.len() / 2;
    let (before, after) = (&motions[..middle], &motions[middle + 1..]);
    let here = motions[middle];
    let mean = |side: &[Motion], way: usize| {
        side.iter().map(|m| m.by[way]).sum::<f32>() / side.len() as f32
    };
    let (old, new) = (
        [mean(before, 0), mean(before, 1)],
        [mean(after, 0), mean(after, 1)],
    );
    let steady = [(old[0] + new[0]) / 2.0, (old[1] + new[1]) / 2.0];
    let pace = steady[0].hypot(steady[1]);
    if pace < MOVES_LEAST || (old[0] - new[0]).hypot(old[1] - new[1]) > UNLIKE * pace {
        return None;
    }
    let along = |by: [f32; 2]| (by[0] * steady[0] + by[1] * steady[1]) / pace;
    let aside = |by: [f32; 2]| (by[1] * steady[0] - by[0] * steady[1]) / pace;
    // Beside a jump the sums look like one too; the step itself tells which.
    let near = &motions[middle - BESIDE..=middle + BESIDE];
    if near.iter().any(|motion| along(motion.by) > along(here.by)) {
        return None;
    }
    // Weave moves a frame's place, not the pace: what one step has too much the
    // next has too little. So places are compared, not steps.
    let places: Vec<[f32; 2]> = std::iter::once([0.0; 2])
        .chain(motions.iter().scan([0.0_f32; 2], |place, motion| {
            *place = [place[0] + along(motion.by), place[1] + aside(motion.by)];
            Some(*place)
        }))
        .collect();
    let (shift, spread) = jump_along(&places, 0);
    let (drift, _) = jump_along(&places, 1);
    let frames = shift / pace;
    let beside: Vec<f32> = before.iter().chain(after).map(|m| m.left).collect();
    let is_same_scene = here.left < LEFT_MOST * median(beside) + 1.0;
    // Where figures move the picture does not: its shift explains little.
    let explained = before
        .iter()
        .chain(after)
        .filter(|m| m.left < EXPLAINED * m.whole)
        .count();
    let is_pan = explained > before.len();
    let is_sure = is_pan && shift > SURE * spread && drift.abs() < 0.5 * shift;
    if !is_sure || !is_same_scene || !(JUMP_LEAST..JUMP_MOST).contains(&frames) {
        return None;
    }
    let room = 2.0 * spread / pace;
    let whole = |frames: f32| frames.max(1.0) as u32;
    Some(Jump {
        frames: (
            whole(frames.round()),
            whole((frames - room).ceil().min(frames.round())),
            whole((frames + room).floor().max(frames.round())),
        ),
    })
}

/// The jump in the middle of places along a straight way, and its spread:
/// least squares with one slope and a step.
fn jump_along(places: &[[f32; 2]], way: usize) -> (f32, f32) {
    let half = places.len() / 2;
    let count = half as f32;
    let mean = |part: &[[f32; 2]]| part.iter().map(|p| p[way]).sum::<f32>() / count;
    let (old, new) = places.split_at(half);
    let (old_mean, new_mean) = (mean(old), mean(new));
    let at = |k: usize| k as f32 - (count - 1.0) / 2.0;
    let square: f32 = (0..half).map(|k| 2.0 * at(k) * at(k)).sum();
    let slope = (0..half)
        .map(|k| at(k) * (old[k][way] - old_mean + new[k][way] - new_mean))
        .sum::<f32>()
        / square;
    let off = |part: &[[f32; 2]], mean: f32| -> f32 {
        (0..half)
            .map(|k| (part[k][way] - mean - slope * at(k)).powi(2))
            .sum()
    };
    let variance = (off(old, old_mean) + off(new, new_mean)) / (2.0 * count - 3.0);
    let spread = (variance * (2.0 / count + count * count / square)).sqrt();
    (new_mean - old_mean - slope * count, spread)
}

fn median(mut values: Vec<f32>) -> f32 {
    values.sort_unstable_by(f32::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn motions(here: f32) -> Vec<Motion> {
        // A weave of a quarter pixel to and fro.
        let weave = [
            0.2, -0.1, 0.25, -0.2, 0.0, 0.1, -0.25, 0.15, 0.05, -0.2, 0.2, 0.1, -0.1, 0.0, 0.2, 0.1,
        ];
        (0..15)
            .map(|k| Motion {
                by: [
                    if k == 7 { here } else { 2.0 } + weave[k + 1] - weave[k],
                    0.0,
                ],
                left: 2.0,
                whole: 40.0,
            })
            .collect()
    }

    #[test]
    fn one_frame_left_out_of_a_pan_is_missed_and_none_is_not() {
        assert_eq!(jump(&motions(2.0), 7), None);
        assert_eq!(jump(&motions(4.0), 7).map(|j| j.frames.0), Some(1));
        assert_eq!(jump(&motions(8.0), 7).map(|j| j.frames.0), Some(3));
    }
}
