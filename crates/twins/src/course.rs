//! A time map as it was found: frame by frame, each with its uncertainty.

use num_rational::Ratio;
use onestrand_film::{FramePos, FrameRange};

use crate::TwinsError;
use crate::time_map::Moment;

/// A found map in numbers, to be kept in a file and read again.
#[derive(Debug, Clone, PartialEq)]
pub struct FoundMap {
    /// The first frame of the one take that was laid.
    pub first: u32,
    /// Where each frame from there on lies in the other take. Unit: 256ths of a
    /// frame of its roll; each is more than the one before.
    pub places: Vec<i64>,
    /// How far each may be off, in two cases of three. Unit: frames.
    pub uncertain: Vec<f64>,
    /// How strongly the pictures speak for it.
    pub strength: f64,
}

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

    /// What [`FoundMap`] keeps of it.
    pub(crate) fn kept(&self) -> FoundMap {
        let place = |laid: &Laid| (PARTS * laid.place).round() as i64;
        FoundMap {
            first: self.first.index(),
            places: self.laid.iter().map(place).collect(),
            uncertain: self.laid.iter().map(|laid| laid.uncertain).collect(),
            strength: self.strength,
        }
    }

    /// # Errors
    /// [`TwinsError::KeptMap`].
    pub(crate) fn of_kept(kept: &FoundMap) -> Result<Self, TwinsError> {
        let pairs = kept.places.iter().zip(&kept.uncertain);
        let laid = pairs.map(|(&place, &uncertain)| Laid {
            place: place as f64 / PARTS,
            uncertain,
        });
        let first = FramePos::new(kept.first).map_err(|_| TwinsError::KeptMap)?;
        let course = Self::new(first, laid.collect(), kept.strength);
        let rises = course.laid.windows(2).all(|w| w[0].place < w[1].place);
        let known = |laid: &Laid| laid.place >= 0.0 && laid.uncertain >= 0.0;
        let sound = kept.places.len() == kept.uncertain.len()
            && !course.laid.is_empty()
            && course.range().is_some()
            && rises
            && course.laid.iter().all(known);
        if sound {
            Ok(course)
        } else {
            Err(TwinsError::KeptMap)
        }
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
    fn kept_and_read_again_it_tells_the_same() {
        let laid = |n: u32| Laid {
            place: 500.0 + 0.93 * f64::from(n),
            uncertain: 0.25,
        };
        let first = FramePos::new(90).expect("a frame");
        let course = Course::new(first, (0..40).map(laid).collect(), 47.5);
        let again = Course::of_kept(&course.kept()).expect("sound");
        assert_eq!((again.range(), again.strength()), (course.range(), 47.5));
        for frame in 88..132 {
            let frame = FramePos::new(frame).expect("a frame");
            assert_eq!(again.at(frame), course.at(frame));
        }
        let spoilt = [
            FoundMap {
                places: vec![5, 5],
                uncertain: vec![0.1; 2],
                first: 0,
                strength: 40.0,
            },
            FoundMap {
                places: vec![5, 9],
                uncertain: vec![0.1],
                first: 0,
                strength: 40.0,
            },
            FoundMap {
                places: vec![-5, 9],
                uncertain: vec![0.1; 2],
                first: 0,
                strength: 40.0,
            },
            FoundMap {
                places: vec![],
                uncertain: vec![],
                first: 0,
                strength: 40.0,
            },
            FoundMap {
                places: vec![5, 9],
                uncertain: vec![f64::NAN; 2],
                first: 0,
                strength: 40.0,
            },
        ];
        for kept in spoilt {
            assert_eq!(Course::of_kept(&kept), Err(TwinsError::KeptMap), "{kept:?}");
        }
    }

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
