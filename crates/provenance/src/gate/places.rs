//! One side of the picture, walked along and looked at across.

use super::outline::Side;
use crate::scan_picture::Grey;

/// The coordinates of a side: `along` runs down or to the right, `depth` into the picture.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Axis {
    side: Side,
}

/// The coordinates of a side.
pub(crate) fn axis(side: Side) -> Axis {
    Axis { side }
}

impl Axis {
    /// The place in the scan, of an edge at `edge`.
    pub(crate) fn place(self, edge: f32, along: f32, depth: f32) -> (f32, f32) {
        let across = if self.side.is_far() {
            edge - depth
        } else {
            edge + depth
        };
        if self.side.is_upright() {
            (across, along)
        } else {
            (along, across)
        }
    }

    /// How far a place on the side's axis lies into the picture from `edge`.
    pub(crate) fn across(self, edge: f32, depth: f32) -> f32 {
        if self.side.is_far() {
            edge - depth
        } else {
            edge + depth
        }
    }

    /// The light across the edge, mean of five lines, from `-reach` to `reach` in steps of
    /// a pixel; nothing where it leaves the scan.
    pub(crate) fn profile(
        self,
        frame: &Grey,
        edge: f32,
        along: f32,
        reach: i32,
    ) -> Option<Vec<f32>> {
        let inside = [-reach, reach].into_iter().all(|depth| {
            let (x, y) = self.place(edge, along, depth as f32);
            frame.holds(x, y)
        });
        let mean = |depth: i32| {
            let lines = (-2..=2_i32).map(|off| {
                let (x, y) = self.place(edge, along + off as f32, depth as f32);
                frame.between(x, y)
            });
            lines.sum::<f32>() / 5.0
        };
        inside.then(|| (-reach..=reach).map(mean).collect())
    }
}
