//! The clap of a slate, or of two hands.

use onestrand_film::{Fps, FramePos, UnitError};

use crate::onsets::onsets;
use crate::{Heard, HearingError, attack};

/// A sound that may be the clap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clap {
    /// When it begins. Unit: seconds from the first sample.
    pub seconds: f64,
    /// How many times more energy there is just after than just before: a clap
    /// in a quiet room some thousands, a word under ten.
    pub times_louder: f64,
}

impl Clap {
    /// The frame that was in the gate when it clapped, when the sound began with
    /// the frame `first`: the slate is seen shut on this frame or on the next.
    ///
    /// Rounded down: a frame lasts from its beginning to the next one's.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] beyond the last frame that can be named.
    pub fn frame(&self, first: FramePos, speed: Fps) -> Result<FramePos, UnitError> {
        let frames = (self.seconds * speed.as_f64()).floor().max(0.0);
        FramePos::new(first.index().saturating_add(frames as u32))
    }
}

/// Sounds that may be the clap, the likeliest first: the sharper the sound
/// begins, the likelier.
///
/// # Errors
/// As [`onsets`].
///
/// ```
/// use onestrand_film::{FramePos, Fps};
/// use onestrand_hearing::{Heard, claps};
///
/// let mut take = vec![0.0_f32; 96_000];
/// for at in 0..2_000_i32 {
///     let noise = ((at * 7_919) % 997) as f32 / 498.5 - 1.0;
///     take[50_000 + at as usize] = noise * (-(at as f32) / 300.0).exp();
/// }
/// let found = claps(Heard::new(&take, 48_000)?)?;
/// assert_eq!(found[0].frame(FramePos::ZERO, Fps::EIGHTEEN)?.index(), 18);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn claps(heard: Heard<'_>) -> Result<Vec<Clap>, HearingError> {
    let mut found: Vec<Clap> = onsets(heard)?
        .into_iter()
        .map(|onset| Clap {
            seconds: onset.seconds,
            times_louder: attack::growth(heard, onset.seconds),
        })
        .collect();
    found.sort_by(|a, b| b.times_louder.total_cmp(&a.times_louder));
    Ok(found)
}
