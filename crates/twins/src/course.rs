//! A time map as it was found: frame by frame, each with its uncertainty.

use num_rational::Ratio;
use onestrand_film::{FramePos, FrameRange};

use crate::time_map::Moment;

/// Parts of a frame in which a found place is told.
const PARTS: f64 = 256.0;

/// One frame of the one take, laid on the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Laid {
    /// Unit: frames of the other take's roll.
    pub(crate) place: f64,
    /// Unit: frames.
    pub(crate) uncertain: f64,
}

/// Frames in a row, each laid on a place of the other take that comes after
/// the one before.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Course {
    first: FramePos,
    laid: Vec<Laid>,
    strength: f64,
}

impl Course {
    pub(crate) fn new(first: FramePos, laid: Vec<Laid>, strength: f64) -> Self {
        Self {
            first,
            laid,
            strength,
        }
    }

    pub(crate) fn strength(&self) -> f64 {
        self.strength
    }

    pub(crate) fn range(&self) -> Option<FrameRange> {
        let end = self.first.index() + self.laid.len() as u32;
        FrameRange::new(self.first, FramePos::new(end).ok()?).ok()
    }

    pub(crate) fn at(&self, frame: FramePos) -> Option<Moment> {
        let at = frame.index().checked_sub(self.first.index())?;
        let laid = self.laid.get(at as usize)?;
        Some(Moment {
            frame: Ratio::new((PARTS * laid.place).round() as i64, PARTS as i64),
            uncertain: laid.uncertain,
        })
    }

    /// Frames there for each frame here, from end to end.
    pub(crate) fn pace(&self) -> f64 {
        match (self.laid.first(), self.laid.last()) {
            (Some(first), Some(last)) if self.laid.len() > 1 => {
                (last.place - first.place) / (self.laid.len() - 1) as f64
            }
            _ => 1.0,
        }
    }

    pub(crate) fn reversed(&self) -> Self {
        let from = self.laid.first().map_or(0.0, |l| l.place.ceil());
        let to = self.laid.last().map_or(-1.0, |l| l.place.floor());
        let mut segment = 0;
        let mut laid = Vec::new();
        let mut there = from;
        while there <= to {
            while segment + 2 < self.laid.len() && self.laid[segment + 1].place < there {
                segment += 1;
            }
            laid.push(self.laid_back(segment, there));
            there += 1.0;
        }
        let first = FramePos::new(from as u32).unwrap_or(FramePos::ZERO);
        Self::new(first, laid, self.strength)
    }

    /// The place here of a frame there, which lies after the frame `segment`.
    fn laid_back(&self, segment: usize, there: f64) -> Laid {
        let before = self.laid[segment];
        let after = self.laid[(segment + 1).min(self.laid.len() - 1)];
        let pace = (after.place - before.place).max(0.1);
        let part = (there - before.place) / pace;
        let uncertain =
            before.uncertain + part.clamp(0.0, 1.0) * (after.uncertain - before.uncertain);
        Laid {
            place: f64::from(self.first.index()) + segment as f64 + part,
            uncertain: uncertain / self.pace().max(0.1),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_and_back_is_where_one_was() {
        let laid = |n: u32| Laid {
            place: 500.0 + 1.1 * f64::from(n) + 0.4 * (0.2 * f64::from(n)).sin(),
            uncertain: 0.5,
        };
        let first = FramePos::new(90).expect("a frame");
        let course = Course::new(first, (0..80).map(laid).collect(), 9.0);
        let back = course.reversed();
        let there = back.range().expect("some frames");
        for frame in there.begin().index()..there.end().index() {
            let frame = FramePos::new(frame).expect("a frame");
            let here = back.at(frame).expect("in range").decimal();
            let (n, part) = ((here - 90.0).floor(), here.fract());
            let (a, b) = (laid(n as u32).place, laid(n as u32 + 1).place);
            let off = a + part * (b - a) - f64::from(frame.index());
            assert!(off.abs() < 0.01, "{frame}: {off}");
        }
    }
}
