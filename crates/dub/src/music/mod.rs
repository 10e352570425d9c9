//! Music and picture that come out together: whole bars for a sequence, joins on beats,
//! bars lifted from the music.

mod beat_map;
mod joins;
mod lift;

pub use beat_map::{BeatMap, frames_per_beat};
pub use joins::{BeatPlan, MovedJoin, SequencePiece, joins_on_beats};
pub use lift::{BarsLifted, bars_to_lift};

/// How long a sequence may be that is to end with the music. Unit of all: frames.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LengthAsked {
    /// How long, as the maker wants it.
    pub wanted: i64,
    /// The shortest it may be.
    pub shortest: i64,
    /// The longest it may be: the handles.
    pub longest: i64,
}

/// The length that ends with a bar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MusicFit {
    /// How long. Unit: frames.
    pub frames: i64,
    /// How many beats that is.
    pub beats: f64,
    /// The bar that closes there, counted from 1.
    pub bar: i64,
    /// How far the end lies behind the close of that bar; negative before it. Unit: frames.
    pub off: f64,
}

/// The whole bar whose close lies nearest to the length that is wanted, inside the handles;
/// nothing where no bar closes there.
#[must_use]
pub fn music_fit(map: &BeatMap, asked: &LengthAsked) -> Option<MusicFit> {
    let bar = |frames: i64| map.beats_at(frames as f64) / f64::from(map.in_a_bar());
    let first = (bar(asked.shortest).floor() as i64 - 1).max(1);
    let last = bar(asked.longest).ceil() as i64 + 1;
    let fits = (first..=last).map(|closes| {
        let exact = map.bar(closes);
        let frames = exact.round() as i64;
        MusicFit {
            frames,
            beats: map.beats_at(frames as f64) - map.beats_at(0.0),
            bar: closes,
            off: frames as f64 - exact,
        }
    });
    let inside =
        fits.filter(|fit| fit.frames > 0 && (asked.shortest..=asked.longest).contains(&fit.frames));
    inside.min_by_key(|fit| (fit.frames - asked.wanted).abs())
}
