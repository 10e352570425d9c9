//! From where on a sign is told: each limit is the user's to move.

/// Limits of the signs, and the shortest that is told.
///
/// The measures do not depend on them: the same record can be asked again with
/// other limits, at no cost.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SignSettings {
    /// Sharpness below which frames are soft. Unit: of the best frame of the
    /// take.
    pub soft_below: f32,
    /// Light above or below the take's middle. Unit: stops.
    pub stops_off: f32,
    /// Movement to and fro. Unit: % of the width, root mean square.
    pub shake_above: f32,
    /// How often the roll's usual weave a shake must be.
    pub shake_over_weave: f32,
    /// Trembling of a whole take. Unit: % of the width, root mean square.
    pub weave_above: f32,
    /// Least share of the picture that a hair takes. Unit: %.
    pub hair_above: f32,
    /// Least contrast of a line. Unit: % of the level beside it, for a line as
    /// wide as half a per cent of the picture.
    pub scratch_above: f32,
    /// Stray light on the mean of the picture. Unit: % of full light.
    pub fog_above: f32,
    /// Change of light through a take. Unit: stops, peak to peak.
    pub flicker_above: f32,
    /// Dust of a take. Unit: specks a frame.
    pub dust_above: f32,
    /// Share of a frame that is black, or white, for it to be told.
    pub blank_above: f32,
    /// How far the picture must have moved for a thing that stood still to be
    /// no part of it. Unit: % of the width.
    pub stands_against: f32,
    /// Shortest soft, fogged, over or under part. Unit: frames.
    pub shortest_part: u32,
    /// Shortest shake, hair and line. Unit: frames.
    pub shortest_run: u32,
}

impl Default for SignSettings {
    fn default() -> Self {
        Self {
            soft_below: 0.7,
            stops_off: 0.35,
            shake_above: 0.3,
            shake_over_weave: 2.5,
            weave_above: 0.25,
            hair_above: 0.02,
            scratch_above: 2.5,
            fog_above: 1.5,
            flicker_above: 0.25,
            dust_above: 8.0,
            blank_above: 0.98,
            stands_against: 1.5,
            shortest_part: 4,
            shortest_run: 12,
        }
    }
}
