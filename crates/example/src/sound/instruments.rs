//! The little band of the march: reed, brass, chords, drums.

use super::chance::Chance;
use super::samples_of;
use super::tones::{Filter, Partial, strike};

/// A note to be played.
#[derive(Clone, Copy)]
pub(super) struct Note {
    /// First sample.
    pub(super) from: usize,
    /// Unit: seconds.
    pub(super) lasts: f64,
    /// As keyboards number them: 69 is 440 Hz.
    pub(super) key: f64,
    pub(super) loud: f64,
}

/// An instrument: how loud each multiple of its pitch is, how it rises and falls.
pub(super) struct Voice {
    multiples: &'static [f64],
    /// Unit: seconds.
    rises: f64,
    /// What is left at the end of a second, 0 to 1.
    holds: f64,
    /// Two reeds, so far apart. Unit: hundredths of a half-tone.
    beats: f64,
}

/// The tune: two reeds that beat against each other, as a squeeze-box has them.
pub(super) const REED: Voice = Voice {
    multiples: &[1.0, 0.55, 0.5, 0.28, 0.2, 0.12, 0.08, 0.05],
    rises: 0.010,
    holds: 0.75,
    beats: 7.0,
};

/// The bass: a soft horn.
pub(super) const HORN: Voice = Voice {
    multiples: &[1.0, 0.7, 0.35, 0.18, 0.08],
    rises: 0.012,
    holds: 0.45,
    beats: 0.0,
};

/// The chords after the bass.
pub(super) const CHORD: Voice = Voice {
    multiples: &[1.0, 0.4, 0.25, 0.1],
    rises: 0.008,
    holds: 0.25,
    beats: 0.0,
};

impl Voice {
    /// Plays a note into a sound.
    pub(super) fn play(&self, into: &mut [f64], note: Note) {
        let pitch = 440.0 * 2f64.powf((note.key - 69.0) / 12.0);
        let reeds: &[f64] = if self.beats > 0.0 {
            &[-0.5, 0.5]
        } else {
            &[0.0]
        };
        for reed in reeds {
            let own = pitch * 2f64.powf(reed * self.beats / 1200.0);
            self.reed(into, note, own, note.loud / reeds.len() as f64);
        }
    }

    fn reed(&self, into: &mut [f64], note: Note, pitch: f64, loud: f64) {
        let rate = f64::from(super::SOUND_RATE);
        let (sin, cos) = (std::f64::consts::TAU * pitch / rate).sin_cos();
        let fall = self.holds.ln() / rate;
        let rise = 1.0 / (self.rises * rate);
        let length = samples_of(note.lasts);
        let ends = samples_of(0.03).min(length);
        let (mut s, mut c) = (0.0_f64, 1.0_f64);
        for (at, sample) in into.iter_mut().skip(note.from).take(length).enumerate() {
            // Multiples of the pitch out of its own sine and cosine
            // (Chebyshev: sin(n+1) = 2 cos · sin(n) − sin(n−1)).
            let (mut before, mut now, mut wave) = (0.0, s, 0.0);
            for loudness in self.multiples {
                wave += loudness * now;
                (before, now) = (now, 2.0 * c * now - before);
            }
            let risen = (at as f64 * rise).min(1.0);
            let released = ((length - at) as f64 / ends as f64).min(1.0);
            *sample += wave * loud * risen * released * (fall * at as f64).exp();
            (s, c) = (s * cos + c * sin, c * cos - s * sin);
        }
    }
}

/// The big drum.
pub(super) fn drum(into: &mut [f64], from: usize, loud: f64) {
    for (hertz, loudness, falls) in [(62.0, 1.0, 0.12), (98.0, 0.5, 0.06)] {
        strike(
            into,
            from,
            Partial {
                hertz,
                loud: loud * loudness,
                falls,
                rises: 0.002,
            },
        );
    }
    tap(into, from, loud * 0.4, 300.0, 0.006, 5);
}

/// The little drum: its skin and the snares under it.
pub(super) fn snare(into: &mut [f64], from: usize, loud: f64, seed: u64) {
    strike(
        into,
        from,
        Partial {
            hertz: 196.0,
            loud: 0.5 * loud,
            falls: 0.03,
            rises: 0.001,
        },
    );
    tap(into, from, loud, 3_000.0, 0.045, seed);
}

/// Cymbals.
pub(super) fn cymbals(into: &mut [f64], from: usize, loud: f64, seed: u64) {
    tap(into, from, loud, 7_500.0, 0.5, seed);
}

/// Noise about a pitch that dies away.
fn tap(into: &mut [f64], from: usize, loud: f64, hertz: f64, falls: f64, seed: u64) {
    let mut chance = Chance::new(seed);
    let mut filter = Filter::about(hertz, 0.6);
    let fall = falls * f64::from(super::SOUND_RATE);
    for (at, sample) in into
        .iter_mut()
        .skip(from)
        .take((7.0 * fall) as usize)
        .enumerate()
    {
        *sample += loud * filter.next(chance.either()) * (-(at as f64) / fall).exp();
    }
}
