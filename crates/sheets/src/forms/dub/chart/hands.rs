//! What the hands do, beside the chart: a bar for each move, black where hands are short.

use super::super::drawing::{Drawing, Fill, Lettering, Pen};
use super::measure::{Lane, Measure};
use crate::dub::HandMove;
use crate::words;

/// A bar and the space behind it. Unit: mm.
const BAR: f64 = 2.6;
const STEP: f64 = 3.4;

/// A stretch in which more moves than hands are asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::forms::dub) struct Crowd {
    pub(in crate::forms::dub) from: u32,
    pub(in crate::forms::dub) to: u32,
    pub(in crate::forms::dub) most: u32,
}

/// Where more is asked for than hands can do, in order. Two moves of which one ends where
/// the other begins are not at once.
pub(in crate::forms::dub) fn crowds(moves: &[HandMove], hands: u32) -> Vec<Crowd> {
    let mut turns: Vec<(u32, bool)> = Vec::new();
    for one in moves {
        if one.to > one.from {
            turns.push((one.from, true));
            turns.push((one.to, false));
        }
    }
    // What ends comes before what begins on the same frame.
    turns.sort_unstable();
    let mut crowds: Vec<Crowd> = Vec::new();
    let (mut now, mut open) = (0_u32, false);
    for (frame, begins) in turns {
        now = if begins {
            now + 1
        } else {
            now.saturating_sub(1)
        };
        match (open, now > hands) {
            (false, true) => crowds.push(Crowd {
                from: frame,
                to: frame,
                most: now,
            }),
            (true, true) => {
                if let Some(last) = crowds.last_mut() {
                    last.most = last.most.max(now);
                }
            }
            (true, false) => {
                if let Some(last) = crowds.last_mut() {
                    last.to = frame;
                }
            }
            (false, false) => {}
        }
        open = now > hands;
    }
    crowds
}

pub(super) fn draw(
    drawing: &mut Drawing,
    (x, wide): Lane,
    moves: &[HandMove],
    hands: u32,
    measure: &Measure,
) {
    let crowds = crowds(moves, hands);
    let lanes = (wide / STEP).floor().max(1.0) as usize;
    let mut free = vec![0_u32; lanes];
    let mut order: Vec<&HandMove> = moves.iter().collect();
    order.sort_by_key(|one| (one.from, one.to));
    for one in order {
        let lane = free.iter().position(|until| *until <= one.from);
        // More bars than have room lie over the last one.
        let lane = lane.unwrap_or(lanes - 1);
        free[lane] = one.to;
        if !measure.meets(i64::from(one.from), i64::from(one.to)) {
            continue;
        }
        let top = measure.y_kept(i64::from(one.from));
        let high = (measure.y_kept(i64::from(one.to)) - top).max(0.8);
        let crowded = |crowd: &Crowd| one.from < crowd.to && one.to > crowd.from;
        let fill = match crowds.iter().any(crowded) {
            true => Fill::Black,
            false => Fill::Grey,
        };
        let at = [x + 0.8 + lane as f64 * STEP, top];
        drawing.rectangle(at, [BAR, high], Pen::Plain, fill);
        let alone = moves
            .iter()
            .all(|other| other.from >= one.to || other.to <= one.from || other == one);
        if alone && measure.holds(i64::from(one.from)) {
            let what = words::short(&words::plain(&one.what), 24);
            let at = [x + 1.2 + STEP, top];
            drawing.words(Lettering::new(at, wide - STEP - 2.4, 9.0, what).on_white());
        }
    }
    for crowd in crowds {
        if measure.holds(i64::from(crowd.from)) {
            let said = format!("{} at once", crowd.most);
            let last = moves
                .iter()
                .filter(|one| one.from < crowd.to && one.to > crowd.from);
            let last = last.map(|one| one.to).max().unwrap_or(crowd.to);
            let y = (measure.y_kept(i64::from(last)) + 0.5).min(measure.bottom - 4.0);
            drawing.words(
                Lettering::new([x + 0.6, y], wide - 2.0, 9.5, said)
                    .bold()
                    .on_white(),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn moved(from: u32, to: u32) -> HandMove {
        HandMove {
            what: String::new(),
            fader: String::new(),
            from,
            to,
            levels: (None, None),
        }
    }

    /// The moves of the boat's v2 at 1,728 (the job, story 8): engine, river and music.
    #[test]
    fn three_moves_and_two_hands_are_a_crowd() {
        let moves = [
            moved(1_716, 1_752),
            moved(1_722, 1_758),
            moved(1_728, 1_746),
        ];
        let crowd = Crowd {
            from: 1_728,
            to: 1_746,
            most: 3,
        };
        assert_eq!(crowds(&moves, 2), [crowd]);
        assert!(crowds(&moves, 3).is_empty());
    }

    /// Counted frame by frame.
    #[test]
    fn crowds_are_those_of_a_count_of_every_frame() {
        let moves = [
            moved(0, 10),
            moved(5, 9),
            moved(9, 20),
            moved(9, 12),
            moved(30, 31),
        ];
        for hands in 0..4 {
            let found = crowds(&moves, hands);
            for frame in 0..40 {
                let now = moves
                    .iter()
                    .filter(|m| (m.from..m.to).contains(&frame))
                    .count();
                let inside = found.iter().any(|c| (c.from..c.to).contains(&frame));
                assert_eq!(inside, now > hands as usize, "{frame}, {hands}");
            }
        }
    }
}
