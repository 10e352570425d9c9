//! A row of holes on one smooth line.

use super::curve::Curve;

/// The fewest holes that make a strip.
const FEWEST: usize = 4;
/// The fewest of a row that goes on beyond something that lies over it.
pub(super) const FEWEST_BEYOND: usize = 3;
/// How far a hole may lie off its row. Unit: steps.
const OFF: f32 = 0.1;

/// Holes in one row with their numbers. Places in pixels of the reduced picture.
#[derive(Debug, Clone, Default)]
pub(super) struct Row {
    pub(super) hits: Vec<(i32, f32, f32)>,
    pub(super) holes: Vec<usize>,
    /// Side of its holes, on the mean, were they square.
    pub(super) side: f32,
}

impl Row {
    /// Holes enough to be a strip.
    pub(super) fn is_row(&self) -> bool {
        self.hits.len() >= FEWEST
    }

    /// How much speaks for it: its holes, less where they lie off one smooth line. The
    /// pictures beside them make rows as well, of places less alike.
    pub(super) fn firmness(&self) -> f32 {
        let Some(curve) = Curve::through(&self.hits) else {
            return 0.0;
        };
        let count = self.hits.len() as f32;
        let square = self
            .hits
            .iter()
            .map(|hit| off(&curve, hit).powi(2))
            .sum::<f32>()
            / count;
        count * (1.0 - square.sqrt() / OFF).max(0.0)
    }

    /// The share of its holes that is seen, from its first to its last.
    pub(super) fn seen(&self) -> f32 {
        let numbers = || self.hits.iter().map(|hit| hit.0);
        let (Some(first), Some(last)) = (numbers().min(), numbers().max()) else {
            return 0.0;
        };
        self.hits.len() as f32 / (last - first + 1) as f32
    }

    /// Counted from its other end.
    pub(super) fn turned(&self) -> Self {
        let turned = |&(number, x, y): &(i32, f32, f32)| (-number, x, y);
        Self {
            hits: self.hits.iter().rev().map(turned).collect(),
            holes: self.holes.iter().rev().copied().collect(),
            side: self.side,
        }
    }
}

/// The curve through a row.
pub(super) fn smooth(hits: &[(i32, f32, f32)]) -> Option<Curve> {
    Curve::through(&on_a_line(hits)?)
}

/// How far a hole lies off a curve. Unit: steps.
fn off(curve: &Curve, &(number, x, y): &(i32, f32, f32)) -> f32 {
    let at = curve.at(number as f32);
    let step = curve.step(number as f32);
    (at.0 - x).hypot(at.1 - y) / step.0.hypot(step.1).max(1.0)
}

/// The holes of a row that lie on one smooth line: what lies off it is no hole of this
/// strip. None when that are too many.
pub(super) fn on_a_line(hits: &[(i32, f32, f32)]) -> Option<Vec<(i32, f32, f32)>> {
    let mut good = hits.to_vec();
    loop {
        let curve = Curve::through(&good)?;
        let off = |hit: &(i32, f32, f32)| off(&curve, hit);
        let worst = good.iter().map(off).fold(0.0, f32::max);
        if worst < OFF {
            return Some(good);
        }
        good.retain(|hit| off(hit) < OFF.max(0.7 * worst));
        if good.len() < FEWEST_BEYOND || good.len() * 3 < hits.len() * 2 {
            return None;
        }
    }
}
