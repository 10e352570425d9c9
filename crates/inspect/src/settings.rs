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
    /// How strong the evidence must be where it is all in one place, as when the
    /// camera stands still and a small figure jumps. Together with
    /// [`BreakSettings::least_strength_in_one_place`].
    ///
    /// No unit. Range: above 0. Figures that leap because two or three frames
    /// were lost mostly stay below it.
    pub least_strength_of_figures: f32,
    /// How strong the evidence must then be in that place:
    /// [`BreakEvidence::in_one_place`](crate::BreakEvidence::in_one_place).
    ///
    /// No unit. Range: above 0.
    pub least_strength_in_one_place: f32,
    /// How many times what changes at the frames about must be changed or
    /// displaced where the light jumps up and settles, as it does when a camera
    /// starts: that speaks for a break, so less is asked. What is displaced
    /// counts a third.
    ///
    /// No unit. Range: above 0. Lightning stays below 1.7 on the drawn rolls.
    pub least_at_flash: f32,
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
            least_strength_of_figures: 0.15,
            least_strength_in_one_place: 0.6,
            least_at_flash: 2.0,
            least_flash_stops: 0.3,
            light_exponent: 2.2,
        }
    }
}
