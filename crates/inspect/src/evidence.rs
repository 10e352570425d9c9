//! How much of a frame its own side knows and the other side does not.

use crate::blocks::{BLOCKS, Step};
use crate::compare::Pair;
use crate::losses::Losses;
use crate::small::Small;

/// A frame and how far the whole picture has moved on the way to it.
pub(crate) type Beside<'a> = (&'a Small, Step);

/// A difference of this share of the frame's contrast is a whole loss.
const WHOLE_LOSS: f32 = 0.25;
/// What a movement by part of a pixel leaves of a block's texture.
const PART_OF_A_PIXEL: f32 = 0.25;

/// By how much each of `near`'s blocks is known to its own side (`behind`, the
/// next frame on the same side) and to none of the frames `across`. Range: 0 to
/// 1 each.
///
/// A block counts by how much worse it is found across than on its own side,
/// beyond `grain` (in levels). So what happens in one frame only (dust, a
/// muzzle flash) does not count, for its own side does not know it either; nor
/// what is hidden for a frame or two, for a later frame of `across` shows it;
/// nor a fast pan, which is found equally badly on both sides.
///
/// Across, a block is sought where it would be if it went on as it went on its
/// own side, and where it stands; not everywhere near: a figure that jumps by
/// less than it might have run is a jump all the same. `gone`: so many frames are
/// taken to be lost between the two sides, and it went on meanwhile.
pub(crate) fn unmatched(
    near: &Small,
    behind: Beside<'_>,
    across: &[Beside<'_>],
    (grain, gone): (f32, i32),
) -> Losses {
    let mut losses = [0.0; BLOCKS];
    let across: Vec<Pair<'_>> = across
        .iter()
        .map(|&(frame, step)| Pair::new(near, frame, step))
        .map(|pair| {
            if across.len() > 2 {
                pair.refined()
            } else {
                pair
            }
        })
        .collect();
    let Some(first) = across.first() else {
        return losses;
    };
    let back = Pair::new(near, behind.0, behind.1);
    let enough = 1.5 * grain + 1.0;
    let whole = WHOLE_LOSS * first.contrast + 2.0 * grain + 2.0;
    for (block, loss) in losses.iter_mut().enumerate() {
        if across.iter().any(|pair| pair.following(block) <= enough) {
            continue;
        }
        let own = back.seek(block, enough);
        let known = own.difference.max(grain) + grain + PART_OF_A_PIXEL * first.texture(block);
        let onward = (own.moved.back(), gone);
        let missed = least_difference(&across, block, onward, known);
        *loss = ((missed - known) / whole).clamp(0.0, 1.0);
    }
    losses
}

/// Share of the picture that stands elsewhere after a place than before,
/// though it hardly moved on either side. Range: 0 to 1.
///
/// `across` are pairs of a frame before and one after, `usual` pairs as far
/// apart on one side; `grain` in levels. A block counts by how much more it
/// differs in the most alike of the first than in the least alike of the
/// second: weave and flicker come and go, a figure that walks does so before
/// and after too.
pub(crate) fn share_displaced(across: &[Pair<'_>], usual: &[Pair<'_>], grain: f32) -> f32 {
    let Some(first) = across.first() else {
        return 0.0;
    };
    let whole = WHOLE_LOSS * first.contrast + 2.0 * grain + 2.0;
    let mut sum = 0.0;
    for block in 0..BLOCKS {
        let moves = usual
            .iter()
            .map(|pair| pair.following(block))
            .fold(grain, f32::max);
        let differs = across
            .iter()
            .map(|pair| pair.following(block))
            .fold(f32::MAX, f32::min);
        let known = moves + grain + PART_OF_A_PIXEL * first.texture(block);
        sum += ((differs - known) / whole).clamp(0.0, 1.0);
    }
    sum / BLOCKS as f32
}

/// Share of what there is to see in the first frame that stands in the same
/// place in the second. Range: 0 to 1; 0 when there is nothing to see.
pub(crate) fn share_that_stays(pair: &Pair<'_>, grain: f32) -> f32 {
    let (mut seen, mut stays) = (0, 0);
    for block in 0..BLOCKS {
        let texture = pair.texture(block);
        if texture < 2.0 * grain + 2.0 {
            continue;
        }
        seen += 1;
        stays += u32::from(pair.following(block) < 0.5 * texture + grain);
    }
    if seen == 0 {
        0.0
    } else {
        stays as f32 / seen as f32
    }
}

/// The least difference of a block in any of the pairs, each one frame farther
/// away, if it goes on by `onward` a frame or stands; sought only until it is no
/// more than `known`. Where frames are gone, the first pair alone is asked: it is
/// the nearest.
fn least_difference(
    pairs: &[Pair<'_>],
    block: usize,
    (onward, gone): (Step, i32),
    known: f32,
) -> f32 {
    let pairs = if gone > 0 { &pairs[..1] } else { pairs };
    let mut least = f32::MAX;
    for (away, pair) in (1..).zip(pairs) {
        if least <= known {
            break;
        }
        // A pixel off in the first frame, and another for each two beyond.
        let away = away + gone;
        let reach = 1 + away / 2;
        least = least.min(pair.seek_about(block, onward.times(away), reach, known));
    }
    least
}
