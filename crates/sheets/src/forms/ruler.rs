//! Counts from a landmark to a cut, for fingers, counter and ruler.

use onestrand_film::{FramePos, Gauge, Length, Shrinkage};
use serde::Serialize;

use crate::words;

/// A count from the landmark to a cut.
#[derive(Serialize)]
pub(super) struct CountRecord {
    count: String,
    /// The same on a ruler and, when it is long, on a footage counter.
    under: String,
}

/// Counts from one landmark.
pub(super) struct Ruler {
    pub(super) gauge: Gauge,
    pub(super) shrinkage: Shrinkage,
    /// The landmark.
    pub(super) from: FramePos,
}

impl Ruler {
    /// The count to a cut, the line before the frame `to`, with its mm.
    pub(super) fn count(&self, to: FramePos) -> CountRecord {
        let delta = to.since(self.from);
        let mm = Length::by_pitch(words::size(delta), self.gauge, self.shrinkage);
        CountRecord {
            count: words::signed(delta),
            under: format!("{} mm", mm.mm_text(1)),
        }
    }

    /// The same, with feet and frames too when it is a foot or more: so long a
    /// way is run on a counter and not on the fingers.
    pub(super) fn count_with_feet(&self, to: FramePos) -> CountRecord {
        let mut record = self.count(to);
        let footage = self.gauge.footage(words::size(to.since(self.from)));
        if footage.feet() > 0 {
            record.under = format!("{}, {}", words::footage(footage), record.under);
        }
        record
    }
}
