//! How far sound and picture may part before it is noticed.

use crate::DubError;
use crate::dub_error::positive;

/// How early and how late a sound may come. Unit: milliseconds from its picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SyncLimit {
    /// So much before its picture.
    pub early_ms: f64,
    /// So much behind it.
    pub late_ms: f64,
    /// Where the figures are from.
    pub source: &'static str,
}

impl SyncLimit {
    /// From here on it is noticed (check value S051).
    pub const NOTICED: Self = Self {
        early_ms: 45.0,
        late_ms: 125.0,
        source: "ITU-R BT.1359-1, detectability; from memory",
    };
    /// From here on it is not accepted (check value S051).
    pub const ACCEPTED: Self = Self {
        early_ms: 90.0,
        late_ms: 185.0,
        source: "ITU-R BT.1359-1, acceptability; from memory",
    };
    /// What broadcasters allow between them (check value S054).
    pub const EXCHANGED: Self = Self {
        early_ms: 40.0,
        late_ms: 60.0,
        source: "EBU R 37; from memory",
    };

    /// Whether a sound that comes so late, or early when negative, is inside.
    ///
    /// ```
    /// use onestrand_dub::SyncLimit;
    ///
    /// // A frame at 18 a second is 55.6 ms: late it passes, early it is noticed.
    /// assert!(SyncLimit::NOTICED.holds(55.6) && !SyncLimit::NOTICED.holds(-55.6));
    /// ```
    #[must_use]
    pub fn holds(&self, late_ms: f64) -> bool {
        (-self.early_ms..=self.late_ms).contains(&late_ms)
    }

    /// The same in frames at a speed: early, late.
    ///
    /// # Errors
    /// [`DubError::NotPositive`].
    pub fn in_frames(&self, speed: f64) -> Result<(f64, f64), DubError> {
        let a_frame = 1000.0 / positive("the speed of the projector", speed)?;
        Ok((self.early_ms / a_frame, self.late_ms / a_frame))
    }
}
