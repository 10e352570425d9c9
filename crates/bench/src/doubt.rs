//! How far a count or a ruler may be off.

use onestrand_film::{Frames, Gauge};

/// A hand with gloves on slips by one frame in so many counted. Common practice,
/// from memory; not measured by us.
pub const COUNTED_TO_ONE_SLIP: u32 = 100;
/// How far a ruler is read off. Unit: micrometres.
const READING_UM: u64 = 500;
/// A ruler's own scale may be off by one part in so many.
const SCALE_PARTS: u64 = 1_000;
/// Film of which no shrinkage was measured may be shorter by one part in so many:
/// beyond one per cent it is kept off the machines anyway.
const UNMEASURED_PARTS: u64 = 100;
/// Where a hundred frames were measured, the reading of the ruler spread over
/// them. Unit: micrometres for each frame.
const MEASURED_UM: u64 = READING_UM / 100;

/// Which of the two ways is less sure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DoubtBy {
    /// Counting frames.
    Counting,
    /// Laying a ruler along them.
    Ruler,
}

/// How far a place may be off: the larger of what counting and the ruler leave
/// open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Doubt {
    /// Unit: hundredths of a frame, rounded up.
    pub frames_100: u32,
    /// Unit: micrometres.
    pub um: u64,
    /// Which of the two it is.
    pub by: DoubtBy,
}

impl Doubt {
    /// For so many frames from the last thing that shows whether the count is
    /// right; `measured` says whether the roll's shrinkage is known.
    #[must_use]
    pub fn of(frames: Frames, gauge: Gauge, measured: bool) -> Self {
        let pitch = u64::from(gauge.spec().pitch_um);
        let count = u64::from(frames.count());
        let length = count * pitch;
        let counting = length / u64::from(COUNTED_TO_ONE_SLIP);
        let shrunk = match measured {
            true => count * MEASURED_UM,
            false => length / UNMEASURED_PARTS,
        };
        let ruler = READING_UM + length / SCALE_PARTS + shrunk;
        let by = match counting > ruler {
            true => DoubtBy::Counting,
            false => DoubtBy::Ruler,
        };
        let um = counting.max(ruler);
        let frames_100 = u32::try_from((um * 100).div_ceil(pitch)).unwrap_or(u32::MAX);
        Self { frames_100, um, by }
    }
}
