//! Bars lifted from music that is longer than its picture.

use super::BeatMap;

/// Bars that are lifted from the music so that it ends with the picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarsLifted {
    /// The first bar that goes, counted from 1.
    pub from: i64,
    /// How many.
    pub bars: i64,
    /// By how much the music then ends behind the picture; negative before it. Unit: frames.
    pub off: f64,
}

/// Which bars to lift from music of so many bars, so that it ends nearest to a picture of so
/// many frames: whole phrases of four begin and end it, where there are enough. Nothing where
/// the music as it is ends nearest, or more than half of it would go.
#[must_use]
pub fn bars_to_lift(map: &BeatMap, picture: i64, bars: i64) -> Option<BarsLifted> {
    let over = map.bar(bars) - picture as f64;
    let usual = (map.bar(bars) - map.bar(0)) / bars.max(1) as f64;
    let lift = (over / usual).round() as i64;
    if lift < 1 || 2 * lift > bars {
        return None;
    }
    let left = bars - lift;
    // The ending stays; what goes begins where a phrase ends, as near the middle as may be.
    let phrases = 4 * ((left / 4 + 1) / 2);
    let before = if (1..left).contains(&phrases) {
        phrases
    } else {
        left / 2
    };
    let gone = map.bar(before + lift) - map.bar(before);
    Some(BarsLifted {
        from: before + 1,
        bars: lift,
        off: over - gone,
    })
}
