//! The bell as it stands on a cassette that ran too fast while it recorded, so
//! that it plays too slow and too deep: the tape of the acceptance story.

use super::chance::Chance;
use super::tones::{Partial, strike};
use super::{bell, finish, samples_of};

/// A fork of 440 Hz as this tape gives it. Unit: hertz.
const FORK: f64 = 433.4;
/// Strokes as this tape gives them. Unit: seconds.
const STROKES: [f64; 7] = [2.104, 3.228, 4.262, 5.292, 6.363, 7.420, 8.510];

pub(super) fn bell_tape() -> Vec<f32> {
    let slower = FORK / 440.0;
    let mut sound = Chance::new(71).noise(samples_of(11.5));
    for sample in &mut sound {
        *sample *= 0.004;
    }
    strike(
        &mut sound,
        samples_of(0.15),
        Partial {
            hertz: FORK,
            loud: 0.5,
            falls: 0.7,
            rises: 0.01,
        },
    );
    let hard = [0.8, 1.0, 0.9, 1.0, 0.85, 0.95, 0.7];
    for (number, (onset, hard)) in STROKES.into_iter().zip(hard).enumerate() {
        bell::lay(
            &mut sound,
            samples_of(onset),
            hard,
            slower,
            number as u64 + 1,
        );
    }
    finish::to_peak(sound, 0.6)
}

pub(super) fn onsets() -> Vec<f64> {
    let mut onsets = vec![0.15];
    onsets.extend(STROKES);
    onsets
}
