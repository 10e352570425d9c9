//! How light two runs of frames are beside each other, where they show the same.
//!
//! A picture is light because of what is in it, so two pictures can be compared
//! only where they show the same things in the same places. Each is parted into
//! [`TILES`] parts; what most parts agree on is the step of the light.

use crate::kept::TILES;
use crate::light::{EXPONENT, USABLE};
use crate::record::SignRecord;
use crate::spans::middle;
use std::ops::Range;

/// Points in a stop. Source: 1 point is 0.025 of log exposure.
const POINTS: f32 = 12.0;
/// So many parts must be neither black nor clipped in both: half of them.
const LEAST_PARTS: usize = TILES / 2;
/// Parts that step by as much as the middle one, within this, agree. Unit: points.
const NEAR: f32 = 3.0;
/// Share of the parts that must agree, or the two show different things. Between
/// takes of one set-up it is 0.5 and more, on film a century old too; across 51 cuts
/// from one view to another it was 0.47 and less where half of the parts could be
/// compared (`docs/QUESTIONS.md`).
const AGREE: f32 = 0.6;

/// How light each part of each frame of a roll is: 25 bytes a frame.
#[derive(Debug, Clone)]
pub struct RollLight {
    frames: Vec<Option<[u8; TILES]>>,
}

/// How light the parts of the picture are over a run of frames.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunLight {
    /// Unit: points; none where a part is too dark to tell, or clipped.
    parts: [Option<f32>; TILES],
}

impl SignRecord {
    /// How light the frames are, part by part.
    #[must_use]
    pub fn light(&self) -> RollLight {
        let one = |frame: &crate::kept::KeptFrame| frame.seen.then_some(frame.means);
        RollLight {
            frames: self.frames.iter().map(one).collect(),
        }
    }
}

impl RollLight {
    /// The middle of each part over some frames: a flash or a flicker of a few of
    /// them does not count. Nothing when none of them is seen.
    #[must_use]
    pub fn over(&self, frames: Range<u32>) -> Option<RunLight> {
        let end = (frames.end as usize).min(self.frames.len());
        let run = &self.frames[(frames.start as usize).min(end)..end];
        run.iter().any(Option::is_some).then(|| RunLight {
            parts: std::array::from_fn(|part| {
                let levels = run.iter().flatten().map(|means| f32::from(means[part]));
                points(middle(levels))
            }),
        })
    }
}

impl RunLight {
    /// How light the middle part of the picture's parts is, against full light. `None`
    /// where that one is too dark to tell, or clipped.
    ///
    /// Unit: stops, none or below.
    #[must_use]
    pub fn level_stops(&self) -> Option<f32> {
        let mut seen: Vec<f32> = self.parts.iter().flatten().copied().collect();
        if seen.len() < LEAST_PARTS {
            return None;
        }
        seen.sort_by(f32::total_cmp);
        Some(seen[seen.len() / 2] / POINTS)
    }

    /// How much lighter another run is, where it shows the same things in the same
    /// places. `None` where it shows others, or where too little can be compared.
    ///
    /// Unit: points, twelve to a stop of the light on the screen.
    #[must_use]
    pub fn step_to(&self, other: &Self) -> Option<f32> {
        let both = self.parts.iter().zip(&other.parts);
        let steps: Vec<f32> = both.filter_map(|(a, b)| Some((*b)? - (*a)?)).collect();
        if steps.len() < LEAST_PARTS {
            return None;
        }
        let step = middle(steps.iter().copied());
        let agree = steps.iter().filter(|s| (*s - step).abs() <= NEAR).count();
        (agree as f32 >= AGREE * steps.len() as f32).then_some(step)
    }
}

/// The light of a level, in points below full light.
fn points(level: f32) -> Option<f32> {
    let is_usable = (f32::from(*USABLE.start())..=f32::from(*USABLE.end())).contains(&level);
    is_usable.then(|| POINTS * EXPONENT * (level / 255.0).log2())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn run(level: impl Fn(usize) -> u8) -> RunLight {
        let frame = Some(std::array::from_fn(level));
        let roll = RollLight {
            frames: vec![frame; 3],
        };
        roll.over(0..3).expect("seen")
    }

    #[test]
    fn twelve_points_are_a_stop() {
        // Half of the light is the level times the 2.2nd root of a half.
        let full = run(|_| 200);
        let half = run(|_| 146);
        let step = full.step_to(&half).expect("alike");
        assert!((step + 12.0).abs() < 0.1, "{step}");
        let back = half.step_to(&full).expect("alike");
        assert!((back - 12.0).abs() < 0.1, "{back}");
    }

    #[test]
    fn a_level_is_told_in_stops_below_full_light() {
        // 18 per cent of the light: the level 255 × 0.18^(1/2.2) = 117.
        let card = run(|_| 117).level_stops().expect("a level");
        assert!((card + 2.474).abs() < 0.01, "{card}");
        assert_eq!(run(|_| 250).level_stops(), None);
        assert_eq!(
            run(|part| if part < 13 { 5 } else { 117 }).level_stops(),
            None
        );
    }

    #[test]
    fn what_shows_other_things_is_not_compared() {
        let one = run(|part| if part % 2 == 0 { 60 } else { 180 });
        let other = run(|part| if part % 2 == 0 { 180 } else { 60 });
        assert_eq!(one.step_to(&other), None);
        // A mover who darkens four parts does not count.
        let with_mover = run(|part| match part {
            8..12 => 25,
            part if part % 2 == 0 => 60,
            _ => 180,
        });
        assert_eq!(one.step_to(&with_mover), Some(0.0));
    }

    #[test]
    fn black_and_clipped_parts_are_not_compared() {
        let dark = run(|part| if part < 13 { 10 } else { 100 });
        assert_eq!(dark.step_to(&dark), None);
        let white = run(|part| if part < 13 { 250 } else { 100 });
        assert_eq!(white.step_to(&white), None);
        let half = run(|part| if part < 12 { 10 } else { 100 });
        assert_eq!(half.step_to(&half), Some(0.0));
    }

    #[test]
    fn a_run_without_a_frame_that_is_seen_has_no_light() {
        let roll = RollLight {
            frames: vec![None, Some([90; TILES]), None],
        };
        assert_eq!(roll.over(0..1), None);
        assert_eq!(roll.over(5..9), None);
        assert!(roll.over(0..9).is_some());
    }
}
