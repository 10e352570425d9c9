//! Which moment of one take is which moment of another.

use num_rational::Ratio;
use onestrand_film::{FramePos, FrameRange};

use crate::TwinsError;
use crate::course::{Course, FoundMap};

/// A frame of each take that shows the same moment, as set by hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SameMoment {
    /// The frame of the one take.
    pub here: FramePos,
    /// The frame of the other.
    pub there: FramePos,
}

/// A place in the other take, to a part of a frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// Unit: frames of the roll. Exact between marks set by hand, in 256ths
    /// where it was found by the pictures.
    pub frame: Ratio<i64>,
    /// How far it may be off: in two cases of three by no more than this. 0
    /// between marks set by hand, which are taken as they are. Unit: frames.
    pub uncertain: f64,
}

impl Moment {
    /// The place as a decimal, for showing.
    #[must_use]
    pub fn decimal(&self) -> f64 {
        *self.frame.numer() as f64 / *self.frame.denom() as f64
    }

    /// The frame nearest to the place; of two the earlier.
    #[must_use]
    pub fn nearest(&self) -> Option<FramePos> {
        nearest(self.frame)
    }
}

/// The frame nearest to a place; of two the earlier.
pub(crate) fn nearest(place: Ratio<i64>) -> Option<FramePos> {
    let whole = (place - Ratio::new(1, 2)).ceil().to_integer();
    u32::try_from(whole)
        .ok()
        .and_then(|frame| FramePos::new(frame).ok())
}

/// From the frames of one take to the moments of another, and back.
///
/// # Examples
/// Rope and splash are seen at 2923 and 2971 of the master, at 531 and 580 of
/// the close-up:
/// ```
/// use onestrand_film::FramePos;
/// use onestrand_twins::{SameMoment, TimeMap};
/// let mark = |here, there| -> Result<_, onestrand_film::UnitError> {
///     Ok(SameMoment { here: FramePos::new(here)?, there: FramePos::new(there)? })
/// };
/// let map = TimeMap::from_marks(mark(2923, 531)?, mark(2971, 580)?)?;
/// let out = map.there(FramePos::new(2939)?).expect("a line has no end");
/// assert_eq!(format!("{:.2}", out.decimal()), "547.33");
/// assert!(TimeMap::from_marks(mark(2923, 531)?, mark(2971, 531)?).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct TimeMap(Way);

#[derive(Debug, Clone, PartialEq)]
enum Way {
    Line {
        through: SameMoment,
        pace: Ratio<i64>,
    },
    Found(Course),
}

impl TimeMap {
    /// The straight line through two marks, which goes on at both ends.
    ///
    /// # Errors
    /// [`TwinsError::Marks`] unless the later mark is later in both takes.
    pub fn from_marks(first: SameMoment, second: SameMoment) -> Result<Self, TwinsError> {
        let here = i64::from(second.here.since(first.here).frames());
        let there = i64::from(second.there.since(first.there).frames());
        if here == 0 || here.signum() * there <= 0 {
            let pair = |mark: SameMoment| (mark.here.index(), mark.there.index());
            return Err(TwinsError::Marks {
                first: pair(first),
                second: pair(second),
            });
        }
        Ok(Self(Way::Line {
            through: first,
            pace: Ratio::new(there, here),
        }))
    }

    pub(crate) fn found(course: Course) -> Self {
        Self(Way::Found(course))
    }

    /// What a found map is in numbers; nothing for marks, which are kept by themselves.
    ///
    /// Kept and read again it tells the same, to a 256th of a frame.
    #[must_use]
    pub fn to_found(&self) -> Option<FoundMap> {
        match &self.0 {
            Way::Line { .. } => None,
            Way::Found(course) => Some(course.kept()),
        }
    }

    /// A found map out of its numbers.
    ///
    /// # Errors
    /// [`TwinsError::KeptMap`] for numbers that are no map.
    pub fn of_found(kept: &FoundMap) -> Result<Self, TwinsError> {
        Course::of_kept(kept).map(Self::found)
    }

    /// Frames there for each frame here: 49/48 when the action took 49 frames
    /// there and 48 here. Of a found map on the whole, in thousandths.
    #[must_use]
    pub fn pace(&self) -> Ratio<i64> {
        match &self.0 {
            Way::Line { pace, .. } => *pace,
            Way::Found(course) => Ratio::new((1000.0 * course.pace()).round() as i64, 1000),
        }
    }

    /// The moment there that a frame here shows; nothing where the two were
    /// not found to go together.
    #[must_use]
    pub fn there(&self, here: FramePos) -> Option<Moment> {
        match &self.0 {
            Way::Line { through, pace } => {
                let on = Ratio::from_integer(i64::from(here.since(through.here).frames())) * pace;
                let frame = Ratio::from_integer(i64::from(through.there.index())) + on;
                let uncertain = 0.0;
                (frame >= Ratio::from_integer(0)).then_some(Moment { frame, uncertain })
            }
            Way::Found(course) => course.at(here),
        }
    }

    /// The same map seen from the other take.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self(match &self.0 {
            Way::Line { through, pace } => Way::Line {
                through: SameMoment {
                    here: through.there,
                    there: through.here,
                },
                pace: pace.recip(),
            },
            Way::Found(course) => Way::Found(course.reversed()),
        })
    }

    /// By how many frames a cut repeats the action, when the last frame kept
    /// here is that before `leave` and the first kept there is `enter`; below 0
    /// it leaves out as many. Unit: frames there.
    #[must_use]
    pub fn repeats(&self, leave: FramePos, enter: FramePos) -> Option<Ratio<i64>> {
        let due = self.there(leave)?.frame;
        Some(due - Ratio::from_integer(i64::from(enter.index())))
    }

    /// The frames here for which the map was found; nothing for marks, whose
    /// line goes on.
    #[must_use]
    pub fn found_over(&self) -> Option<FrameRange> {
        match &self.0 {
            Way::Line { .. } => None,
            Way::Found(course) => course.range(),
        }
    }

    /// How strongly the pictures speak for a found map, in logarithms of a
    /// chance beyond what any two takes have in common; nothing for marks.
    #[must_use]
    pub fn strength(&self) -> Option<f64> {
        match &self.0 {
            Way::Line { .. } => None,
            Way::Found(course) => Some(course.strength()),
        }
    }
}
