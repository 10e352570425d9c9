//! Exposure in stops.
//!
//! Picture values are taken as light raised to 1/2.2, so light times `g` is the
//! value times g^(1/2.2); what goes over white is clipped, as on reversal film
//! that is burnt out. One stop doubles the light.

use crate::log::ExampleTake;
use crate::noise::{hash, signed, unit, wander};

/// Exponent between light and picture value.
const GAMMA: f32 = 2.2;

/// How far a frame is over, in stops, against the rest of its take.
///
/// A spring camera starts slowly, so the first frame of a take is open longer:
/// 0.5 to 1.4 stop, each take its own; the second frame a fifth of that. The
/// start of 1-T2 is 1.2 stop over to the letter (story 4).
pub(crate) fn stops(take: &ExampleTake, frame: u32) -> f32 {
    let since = frame - take.span_in;
    let seed = hash(u64::from(take.roll) << 32 | u64::from(take.span_in));
    let first = if (take.roll, take.span_in) == (1, 390) {
        1.2
    } else {
        0.5 + 0.9 * unit(seed, 1)
    };
    match since {
        0 => first,
        1 => first * 0.2,
        _ => flicker(take.roll, frame),
    }
}

/// The light on a frame, 1 as it should be.
pub(crate) fn gain(take: &ExampleTake, frame: u32) -> f32 {
    (sky(take) + stops(take, frame)).exp2()
}

/// How the light of the day has changed by a take: within 0.12 stop.
fn sky(take: &ExampleTake) -> f32 {
    let seed = hash(u64::from(take.roll) << 32 | u64::from(take.span_in));
    0.12 * signed(seed, 2)
}

/// Flicker of shutter and lamp: about ±2.5 % of the light. Unit: stops.
fn flicker(roll: u8, frame: u32) -> f32 {
    let seed = 400 + u64::from(roll);
    let slow = wander(seed, frame as f32 / 5.0);
    let quick = wander(seed + 9, frame as f32);
    0.022 * slow + 0.016 * quick
}

/// New picture value of each of red, green, blue for each old one.
pub(crate) fn transfer(gain: f32) -> [[u8; 256]; 3] {
    let factor = gain.powf(1.0 / GAMMA);
    // The dyes of the stock: whites a little warm.
    [1.0, 0.985, 0.945].map(|dye| {
        let mut curve = [0; 256];
        for (value, new) in curve.iter_mut().enumerate() {
            let light = (value as f32 * factor).min(252.0);
            *new = (light * dye).round() as u8;
        }
        curve
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::log::takes;

    fn take_at(start: u32) -> &'static ExampleTake {
        takes()
            .iter()
            .find(|t| t.roll == 1 && t.span_in == start)
            .expect("in the log")
    }

    #[test]
    fn the_flash_of_1_t2_is_2_30_times_the_light() {
        let take = take_at(390);
        let steady = gain(take, 400) / stops(take, 400).exp2();
        let flash = gain(take, 390) / steady;
        assert!((flash - 2.297).abs() < 0.01, "{flash}");
        // A middle grey goes up as 2.30 times the light would take it.
        let grey = f32::from(transfer(steady)[0][100]);
        let light = (grey / 255.0).powf(GAMMA) * flash;
        let expected = 255.0 * light.powf(1.0 / GAMMA);
        let got = f32::from(transfer(gain(take, 390))[0][100]);
        assert!((got - expected).abs() < 1.5, "{got} {expected}");
    }

    #[test]
    fn every_take_begins_over_and_steadies() {
        for take in takes() {
            let first = stops(take, take.span_in);
            assert!((0.5..=1.4).contains(&first), "{}", take.name());
            for frame in take.span_in + 2..take.span_out {
                assert!(stops(take, frame).abs() < 0.045, "{} {frame}", take.name());
            }
        }
    }
}
