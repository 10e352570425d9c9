//! Stray light at the ends of a roll.

use crate::blank::Bare;
use crate::measures::FrameMeasures;

/// Stray light is at least as light as this on the mean. Unit: levels. Below
/// it the film is black, which is no fog.
const LIGHT: f32 = 30.0;
/// Stray light has fewer edges than this, against its contrast.
const SMOOTH: f32 = 0.08;
/// A single frame may be anything.
pub(crate) const SHORTEST: u32 = 2;

/// Follows the frames of a roll and knows which at its ends are fogged.
#[derive(Debug, Default)]
pub(crate) struct FogWatch {
    seen: usize,
    /// End of the fog that the roll begins with, once it is past.
    head_end: Option<usize>,
    /// Where the fogged frames seen last begin.
    run_start: Option<usize>,
}

impl FogWatch {
    /// Takes in the next frame; tells the end of the fog at the head when it
    /// comes.
    /// Leader at the ends counts as fog here: no picture either.
    pub(crate) fn push(&mut self, measures: &FrameMeasures, bare: Option<Bare>) -> Option<usize> {
        let smooth = measures.mean >= LIGHT && measures.edges < SMOOTH;
        let fogged = bare.map_or(smooth, |bare| bare == Bare::Clear);
        let number = self.seen;
        self.seen += 1;
        if fogged {
            self.run_start.get_or_insert(number);
            return None;
        }
        let ended = self.run_start.take() == Some(0);
        if self.head_end.is_none() {
            self.head_end = Some(if ended && number >= SHORTEST as usize {
                number
            } else {
                0
            });
            return self.head_end.filter(|&end| end > 0);
        }
        None
    }

    /// Whether a break before frame `at` lies in the fog at the head.
    pub(crate) fn hides(&self, at: usize) -> bool {
        self.head_end.is_none_or(|end| at < end)
    }

    /// First frame of the fog the roll would have at its tail if it ended now.
    pub(crate) fn tail(&self) -> Option<usize> {
        self.run_start
            .filter(|&start| self.seen - start >= SHORTEST as usize)
    }
}
