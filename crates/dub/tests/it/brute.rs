//! The slow way: every frame, every set, every choice.

use std::collections::BTreeSet;

use onestrand_dub::{HandMove, SequencePiece};

/// Faders that move at a frame, when some columns are laid on one tape.
pub(crate) fn at(moves: &[HandMove], together: &[i64], frame: i64) -> usize {
    let busy = moves.iter().filter(|m| m.from <= frame && frame < m.to);
    let faders: BTreeSet<i64> = busy
        .map(|m| {
            if together.contains(&m.column) {
                -1
            } else {
                m.fader
            }
        })
        .collect();
    faders.len()
}

pub(crate) fn most(moves: &[HandMove], together: &[i64]) -> usize {
    (0..60)
        .map(|frame| at(moves, together, frame))
        .max()
        .unwrap_or(0)
}

/// The size of the smallest set that helps, and what is left at once with the best of them.
pub(crate) fn fewest_together(moves: &[HandMove], hands: usize) -> Option<(usize, usize)> {
    if most(moves, &[]) <= hands {
        return None;
    }
    let columns: Vec<i64> = moves
        .iter()
        .map(|m| m.column)
        .collect::<BTreeSet<_>>()
        .into_iter()
        .collect();
    let sets = (0_u32..1 << columns.len()).filter(|set| set.count_ones() >= 2);
    sets.filter_map(|set| {
        let chosen: Vec<i64> = columns
            .iter()
            .enumerate()
            .filter(|(nth, _)| set & (1 << nth) != 0)
            .map(|(_, column)| *column)
            .collect();
        let then = most(moves, &chosen);
        (then <= hands).then_some((chosen.len(), then))
    })
    .min()
}

/// Off beat and frames moved of the best of all ways to move the joins of a sequence by up
/// to `reach` frames each.
pub(crate) fn beats(pieces: &[SequencePiece], beat: f64, reach: i64, near: f64) -> (usize, i64) {
    fn deeper(
        pieces: &[SequencePiece],
        at: i64,
        before: i64,
        rule: &dyn Fn(i64, i64) -> Option<bool>,
        reach: i64,
    ) -> Option<(usize, i64)> {
        let (piece, rest) = pieces.split_first()?;
        let fits = |by: i64| by >= 0 || piece.frames + by >= piece.shortest;
        let Some(next) = rest.first() else {
            return fits(-before).then_some((0, 0));
        };
        let place = at + piece.frames;
        let mut best = None;
        for by in -reach..=reach {
            let Some(on) = rule(place, by) else { continue };
            if !fits(by - before) || by > piece.behind || -by > next.before {
                continue;
            }
            if let Some((off, moved)) = deeper(rest, place, by, rule, reach) {
                let cost = (off + usize::from(!on), moved + by.abs());
                best = Some(best.map_or(cost, |b: (usize, i64)| b.min(cost)));
            }
        }
        best
    }
    let rule = |place: i64, by: i64| {
        let to = (place + by) as f64;
        let nearest = ((to / beat).round() * beat).round() as i64 == place + by;
        let on = (to - (to / beat).round() * beat).abs() <= near;
        match by {
            0 => Some(on),
            _ => nearest.then_some(true),
        }
    };
    deeper(pieces, 0, 0, &rule, reach).unwrap_or((0, 0))
}
