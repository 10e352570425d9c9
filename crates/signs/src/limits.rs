//! From where on a sign is told: each limit is the user's to move.

use serde::{Deserialize, Serialize};

/// Limits of the signs, and the shortest that is told.
///
/// The measures do not depend on them: a kept [`SignRecord`](crate::SignRecord)
/// can be asked again with other limits, at no cost. As JSON, what is left out has
/// its default, so that limits kept by an older program can be read.
///
/// Source of the defaults, unless a field says another: drawn rolls with faults of
/// graded strength, half-way between what a person is taken to see and what clean
/// rolls show (`docs/SIGNS.md`, "How well it does").
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct SignLimits {
    /// Sharpness below which frames are soft. Unit: of the best frame of the
    /// take. Range: 0 to 1. Default: 0.7, a spread of a fifth of a per cent of the
    /// width.
    pub soft_below: f32,
    /// Light above or below the take's middle. Unit: stops. Range: 0 to 8.
    /// Default: 0.35; a third of a stop is the step of a lens's ring.
    pub stops_off: f32,
    /// Movement to and fro. Unit: % of the width, root mean square. Range: 0 to
    /// 20. Default: 0.3.
    pub shake_above: f32,
    /// How often the roll's usual weave a shake must be. Range: 0 to 50.
    /// Default: 2.5.
    pub shake_over_weave: f32,
    /// Trembling of a whole take. Unit: % of the width, root mean square. Range: 0
    /// to 20. Default: 0.25.
    pub weave_above: f32,
    /// Least share of the picture that a hair takes, times the light lost in it.
    /// Unit: %. Range: 0 to 10. Default: 0.02, a hair of 3 % of the width by 1 %.
    pub hair_above: f32,
    /// Least contrast of a line. Unit: % of the level beside it, for a line as
    /// wide as half a per cent of the picture. Range: 0 to 100. Default: 2.5.
    pub scratch_above: f32,
    /// Stray light on the mean of the picture. Unit: % of full light. Range: 0 to
    /// 100. Default: 1.5.
    pub fog_above: f32,
    /// Change of light through a take. Unit: stops, peak to peak. Range: 0 to 8.
    /// Default: 0.25.
    pub flicker_above: f32,
    /// Dust of a take. Unit: specks a frame. Range: 0 to 10,000. Default: 8.
    pub dust_above: f32,
    /// Share of a frame that is black, or white, for it to be told. Range: 0 to 1.
    /// Default: 0.98.
    pub blank_above: f32,
    /// How far the picture must have moved for a thing that stood still to be
    /// no part of it. Unit: % of the width. Range: 0 to 100. Default: 1.5.
    pub stands_against: f32,
    /// Shortest soft, fogged, over or under part. Unit: frames. Range: 1 to
    /// 10,000. Default: 4, a quarter of a second.
    pub shortest_part: u32,
    /// Shortest shake, hair and line. Unit: frames. Range: 1 to 10,000. Default:
    /// 12, as long as a thing is watched before it is known to stand.
    pub shortest_run: u32,
}

impl SignLimits {
    /// The first field that lies outside of its range, by its name in JSON.
    #[must_use]
    pub fn out_of_range(&self) -> Option<&'static str> {
        let shares = [
            ("soft_below", self.soft_below, 1.0),
            ("stops_off", self.stops_off, 8.0),
            ("shake_above", self.shake_above, 20.0),
            ("shake_over_weave", self.shake_over_weave, 50.0),
            ("weave_above", self.weave_above, 20.0),
            ("hair_above", self.hair_above, 10.0),
            ("scratch_above", self.scratch_above, 100.0),
            ("fog_above", self.fog_above, 100.0),
            ("flicker_above", self.flicker_above, 8.0),
            ("dust_above", self.dust_above, 10_000.0),
            ("blank_above", self.blank_above, 1.0),
            ("stands_against", self.stands_against, 100.0),
        ];
        let frames = [
            ("shortest_part", self.shortest_part),
            ("shortest_run", self.shortest_run),
        ];
        let off = |&(_, value, most): &(&str, f32, f32)| !(0.0..=most).contains(&value);
        let long = |&(_, value): &(&str, u32)| !(1..=10_000).contains(&value);
        let share = shares.into_iter().find(off).map(|(name, ..)| name);
        share.or_else(|| frames.into_iter().find(long).map(|(name, _)| name))
    }
}

impl Default for SignLimits {
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_left_out_has_its_default_and_what_is_written_is_kept() {
        let limits: SignLimits = serde_json::from_str(r#"{"soft_below":0.5}"#).expect("limits");
        let wanted = SignLimits {
            soft_below: 0.5,
            ..SignLimits::default()
        };
        assert_eq!(limits, wanted);
        let text = serde_json::to_string(&limits).expect("JSON");
        assert_eq!(
            serde_json::from_str::<SignLimits>(&text).expect("limits"),
            limits
        );
    }

    #[test]
    fn limits_that_mean_nothing_are_named() {
        let mut limits = SignLimits::default();
        assert_eq!(limits.out_of_range(), None);
        limits.shortest_run = 0;
        assert_eq!(limits.out_of_range(), Some("shortest_run"));
        limits.fog_above = f32::NAN;
        assert_eq!(limits.out_of_range(), Some("fog_above"));
    }
}
