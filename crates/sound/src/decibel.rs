//! Decibels.

/// At this and below nothing is heard. Unit: dB.
pub const SILENT_DB: f64 = -90.0;

/// The factor of a level; 0 at [`SILENT_DB`] and below.
#[must_use]
pub fn amplitude(db: f64) -> f64 {
    if db <= SILENT_DB {
        0.0
    } else {
        10_f64.powf(db / 20.0)
    }
}

/// The level of a factor. Unit: dB; minus infinity for nothing.
#[must_use]
pub fn decibels(factor: f64) -> f64 {
    20.0 * factor.abs().log10()
}
