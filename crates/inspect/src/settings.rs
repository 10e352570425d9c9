//! What the finder of breaks may be told.

/// How breaks are found. The values of [`BreakSettings::default`] were chosen
/// on drawn rolls whose breaks are known (the tests of this crate draw them),
/// not on any one film.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct BreakSettings {
    /// How many frames each way a change is held against.
    ///
    /// Unit: frames. Range: 4 to 12. Eight frames are under half a second of
    /// film: long enough to know how restless the shot is, short enough to
    /// lie within one take mostly. It is also the delay of the finder, less
    /// one.
    pub window: usize,
    /// The least share of the picture that must change sides.
    ///
    /// Unit: share of the picture. Range: 0 to 1. Below this a change is
    /// smaller than a figure in the distance, and grain may do the same.
    pub least_change: f32,
    /// How strong the evidence must be: change (share of the picture) times
    /// how many times it stands out of the changes about it.
    ///
    /// No unit. Range: above 0. A twentieth of the picture changing ten times as
    /// much as the frames about it has a strength of 0.5.
    pub least_strength: f32,
    /// The least share of the picture that must be changed or displaced where
    /// the light jumps up and settles, as it does when a camera starts: that
    /// speaks for a break, so less is asked. What is displaced counts a fifth.
    ///
    /// Unit: share of the picture. Range: 0 to 1.
    pub least_change_at_flash: f32,
    /// The least over-exposure that is called a flash.
    ///
    /// Unit: stops. Flicker of hand-cranked film stays within about ±0.2.
    pub least_flash_stops: f32,
    /// Exponent by which a picture level stands for light.
    ///
    /// No unit. Range: 1 to 3. Scans for viewing are near 2.2; a scan with
    /// levels proportional to light has 1.
    pub light_exponent: f32,
}

impl BreakSettings {
    /// Least and greatest [`BreakSettings::window`]; others are brought within.
    pub const LEAST_WINDOW: usize = 4;
    /// See [`BreakSettings::LEAST_WINDOW`].
    pub const MOST_WINDOW: usize = 12;
}

impl Default for BreakSettings {
    fn default() -> Self {
        Self {
            window: 8,
            least_change: 0.02,
            least_strength: 0.4,
            least_change_at_flash: 0.005,
            least_flash_stops: 0.3,
            light_exponent: 2.2,
        }
    }
}
