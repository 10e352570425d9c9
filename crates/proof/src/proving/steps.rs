//! What may follow what along a reel, and what that costs.

use super::Wanted;
use super::course::{At, Walk};
use crate::way::Way;

/// The furthest skip along a roll that is followed as one.
const SKIP: i64 = 8;
/// Costs, in the unit of what a usual true frame is unlike: a fault of one place.
pub(super) const FAULT: f32 = 30.0;
/// A frame that is there twice: less than a picture that no roll has.
const AGAIN: f32 = 13.0;
/// Going on past the end of a piece: a frame too many, as one that is there twice is.
const PAST: f32 = 12.0;
/// A picture that no roll has, each frame of it.
pub(super) const FOREIGN: f32 = 16.0;
/// Going on after it elsewhere than where the film was.
const AFTER: f32 = 8.0;

impl Walk<'_> {
    /// What may follow something, and what that costs.
    pub(super) fn next(&self, at: At, push: &mut dyn FnMut(At, f32)) {
        let (roll, frame, way) = match at {
            At::Frame(roll, frame, way) => (roll, frame, way),
            At::Nothing => {
                push(at, 0.0);
                return push(At::Foreign(None), 2.0);
            }
            At::Foreign(before) => {
                push(at, 0.0);
                push(At::Nothing, 2.0);
                return self.after_foreign(before, push);
            }
        };
        push(At::Foreign(Some((roll, frame, way))), FAULT);
        push(At::Nothing, FAULT / 2.0);
        push(at, AGAIN);
        let forward = if way.upside_down { -1 } else { 1 };
        let places = self.planned.places(roll, frame);
        for gone in 1..=SKIP {
            let to = frame as i64 + forward * gone;
            if to < 0 || to >= self.rolls[roll].frames() as i64 {
                break;
            }
            let to = to as usize;
            let leaves = !places.is_empty() && self.planned.places(roll, to).is_empty();
            let price = match gone {
                1 if leaves => PAST,
                1 => 0.0,
                gone => FAULT + 0.1 * gone as f32,
            };
            push(At::Frame(roll, to, way), price);
        }
        for &place in places {
            self.by_plan(place, way, push);
        }
    }

    /// What the plan has next, a few frames of it left out, or the next piece turned.
    fn by_plan(&self, place: usize, way: Way, push: &mut dyn FnMut(At, f32)) {
        for at in self.planned.next_piece(place, way) {
            let is_turned = !matches!(at, At::Frame(.., Way::AS_SCANNED));
            push(at, if is_turned { FAULT } else { 0.0 });
        }
        for gone in 0..SKIP as usize {
            match self.planned.wanted(place + 1 + gone) {
                Some(Wanted::Frame(roll, frame)) => {
                    let price = if gone == 0 { 0.0 } else { FAULT };
                    push(At::Frame(roll, frame, Way::AS_SCANNED), price);
                }
                Some(Wanted::Anything) if gone == 0 => {
                    push(At::Foreign(None), -0.8 * FOREIGN);
                    push(At::Nothing, 0.0);
                }
                _ => {}
            }
        }
    }

    /// After a picture that no roll has the film goes on where it was, or some frames
    /// further where it stands for them; or with another piece.
    fn after_foreign(&self, before: Option<(usize, usize, Way)>, push: &mut dyn FnMut(At, f32)) {
        self.planned.starts().for_each(|at| push(at, AFTER));
        let Some((roll, frame, way)) = before else {
            return;
        };
        let forward = if way.upside_down { -1 } else { 1 };
        for gone in 1..=SKIP {
            let to = frame as i64 + forward * gone;
            if (0..self.rolls[roll].frames() as i64).contains(&to) {
                let price = if gone == 1 { 0.0 } else { AFTER };
                push(At::Frame(roll, to as usize, way), price);
            }
        }
    }
}
