//! The flash that a take begins with, measured again on its first frames: where a
//! person has moved its beginning, the measure of another frame says nothing.

use crate::judge::Judge;
use crate::light::{middle_of, stops_between};
use crate::settings::BreakSettings;

/// Frames to look at from the start of a take, where it has so many.
pub const FLASH_FRAMES_WANTED: usize = 14;
/// Frames behind the longest flash by which the settled light is known.
const SETTLED: usize = 3;
/// A flash stands so many times above the usual change of light, as in a reading.
const ABOVE_FLICKER: f32 = 3.0;

/// Over-exposed frames at the start of a take.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct StartFlash {
    /// How many there are.
    pub frames: u32,
    /// By how much the first is over; 0 without a flash. Unit: stops.
    pub stops: f32,
}

/// Measures the flash that film begins with, on its first frames as grey levels of
/// any even picture. Nothing where there are too few frames to know the settled
/// light by.
#[must_use]
pub fn flash_at_start(frames: &[&[u8]], settings: &BreakSettings) -> Option<StartFlash> {
    let longest = Judge::LONGEST_FLASH;
    if frames.len() < longest + SETTLED {
        return None;
    }
    let sorted: Vec<Vec<u8>> = frames.iter().map(|frame| in_order(frame)).collect();
    let over = |number: usize, other: usize| {
        let level = |of: usize| {
            let levels = &sorted[of];
            move |share: f32| level_at(levels, share)
        };
        stops_between(level(number), level(other), settings.light_exponent).unwrap_or(0.0)
    };
    let settled = |number| {
        middle_of(
            (longest..longest + SETTLED)
                .map(|at| over(number, at))
                .collect(),
        )
    };
    let flicker: Vec<f32> = (longest + 1..frames.len())
        .map(|number| over(number, number - 1).abs())
        .collect();
    let least = settings
        .least_flash_stops
        .max(ABOVE_FLICKER * middle_of(flicker));
    let count = (0..longest)
        .take_while(|&number| settled(number) >= least)
        .count();
    Some(match count {
        0 => StartFlash::default(),
        frames => StartFlash {
            frames: frames as u32,
            stops: settled(0),
        },
    })
}

fn in_order(levels: &[u8]) -> Vec<u8> {
    let mut levels = levels.to_vec();
    levels.sort_unstable();
    levels
}

fn level_at(levels: &[u8], share: f32) -> u8 {
    let place = (share * levels.len() as f32) as usize;
    levels.get(place).copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A slope of light, exposed by so many stops.
    fn frame(stops: f32) -> Vec<u8> {
        (0..4_000)
            .map(|place| {
                let light = 0.02 + 0.3 * place as f32 / 4_000.0;
                (255.0 * (light * stops.exp2()).powf(1.0 / 2.2)).min(255.0) as u8
            })
            .collect()
    }

    fn measured(stops: &[f32]) -> Option<StartFlash> {
        let frames: Vec<Vec<u8>> = stops.iter().map(|stops| frame(*stops)).collect();
        let frames: Vec<&[u8]> = frames.iter().map(Vec::as_slice).collect();
        flash_at_start(&frames, &BreakSettings::default())
    }

    #[test]
    fn the_first_frames_are_measured_against_the_settled_light() {
        let found = measured(&[1.2, 0.6, 0.1, 0.0, 0.0, 0.0, 0.0, 0.0]).expect("enough");
        assert_eq!(found.frames, 2);
        assert!((found.stops - 1.2).abs() < 0.06, "{found:?}");
    }

    #[test]
    fn film_that_begins_in_its_own_light_has_no_flash() {
        let none = Some(StartFlash::default());
        assert_eq!(measured(&[0.0; 8]), none);
        // Light that comes and goes as much all the time is flicker.
        let flicker = [0.4, 0.0, 0.4, 0.0, 0.4, 0.0, 0.4, 0.0, 0.4, 0.0];
        assert_eq!(measured(&flicker), none);
    }

    #[test]
    fn too_few_frames_say_nothing() {
        assert_eq!(measured(&[1.2, 0.0, 0.0, 0.0, 0.0]), None);
    }
}
