//! How far a missing or doubled frame may lie otherwise.

use super::course::{At, Walk};
use crate::rolls::RollSketches;

/// Less than this does not tell one place from another.
const TELLS: f32 = 10.0;

impl Walk<'_> {
    /// The first and last frame of the scan at which so many frames may be left out, or
    /// repeated, before the pictures say otherwise.
    pub(super) fn slack(
        &self,
        scan: &RollSketches,
        course: &[At],
        (t, by): (usize, i64),
    ) -> (usize, usize) {
        let moved = |at: usize, of: At, by: i64| match (of, course[at]) {
            (At::Frame(r, _, w), At::Frame(roll, frame, way)) if (r, w) == (roll, way) => {
                let by = if way.upside_down { -by } else { by };
                let frame = frame as i64 + by;
                let is = (0..self.rolls[roll].frames() as i64).contains(&frame);
                is.then_some(At::Frame(roll, frame as usize, way))
            }
            _ => None,
        };
        let run = |places: &mut dyn Iterator<Item = usize>, of: At, by: i64, after: usize| {
            let (mut more, mut last) = (0.0_f32, t);
            for at in places {
                let Some(other) = moved(at, of, by) else {
                    break;
                };
                more += self.cost(scan, at, other) - self.cost(scan, at, course[at]);
                if more > 4.0 * TELLS {
                    break;
                }
                if more < TELLS {
                    last = at + after;
                }
            }
            last
        };
        let before = t.checked_sub(1).map(|at| course[at]);
        let low = before.map_or(t, |of| run(&mut (0..t).rev(), of, by, 0));
        let here = course.get(t).copied();
        let high = here.map_or(t, |of| run(&mut (t..course.len()), of, -by, 1));
        (low, high)
    }
}
