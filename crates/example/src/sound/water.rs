//! Water: along the landing, and when a rope falls into it.

use super::chance::Chance;
use super::tones::{Filter, Partial, strike};
use super::{finish, samples_of};

/// How long the loops are, and how much passes into the beginning. Unit: seconds.
const LOOP: f64 = 14.0;
const OVER: f64 = 1.5;

/// The river: a low flow, a wash that comes and goes, small bubbles.
pub(super) fn river() -> Vec<f32> {
    let count = samples_of(LOOP + OVER);
    let mut chance = Chance::new(11);
    let mut flow = chance.noise(count);
    Filter::below(320.0, 0.6).through(&mut flow);
    let mut wash = chance.noise(count);
    Filter::about(900.0, 0.5).through(&mut wash);
    Filter::below(2_600.0, 0.6).through(&mut wash);
    let mut sound = vec![0.0; count];
    for (at, sample) in sound.iter_mut().enumerate() {
        let time = at as f64 / f64::from(super::SOUND_RATE);
        // Waves of several lengths, none of them strong enough to be counted.
        let lap = (1.9 * time).sin() + 0.7 * (3.1 * time + 1.0).sin() + 0.5 * (0.83 * time).cos();
        *sample = 0.9 * flow[at] + wash[at] * (0.55 + 0.09 * lap);
    }
    bubbles(&mut sound, &mut chance, 0.0, LOOP + OVER, 22.0, 0.05);
    finish::round(sound, samples_of(LOOP), 0.094)
}

/// The air of the place: a murmur that is hardly there.
pub(super) fn air() -> Vec<f32> {
    let count = samples_of(LOOP + OVER);
    let mut sound = Chance::new(12).noise(count);
    Filter::below(700.0, 0.5).through(&mut sound);
    Filter::below(1_800.0, 0.5).through(&mut sound);
    finish::round(sound, samples_of(LOOP), 0.004)
}

/// A rope into the water: the slap, the rush after it, bubbles.
pub(super) fn splash() -> Vec<f32> {
    let count = samples_of(1.9);
    let mut chance = Chance::new(13);
    let mut slap = chance.noise(count);
    Filter::about(700.0, 0.5).through(&mut slap);
    let mut rush = chance.noise(count);
    Filter::above(900.0, 0.6).through(&mut rush);
    Filter::below(6_500.0, 0.6).through(&mut rush);
    let mut sound = vec![0.0; count];
    for (at, sample) in sound.iter_mut().enumerate() {
        let time = at as f64 / f64::from(super::SOUND_RATE);
        let first = (-time / 0.035).exp();
        let second = (time / 0.09) * (1.0 - time / 0.09).exp().min(3.0);
        *sample = 2.4 * slap[at] * first
            + 0.5 * rush[at] * (first + 0.9 * second.min(1.0) * (-time / 0.35).exp());
    }
    bubbles(&mut sound, &mut chance, 0.12, 1.3, 60.0, 0.16);
    finish::effect(sound)
}

/// Bubbles: short tones whose pitch is that of their size (M. Minnaert, 1933:
/// about 3 mm of radius at 1 kHz), so many a second.
fn bubbles(sound: &mut [f64], chance: &mut Chance, from: f64, to: f64, a_second: f64, loud: f64) {
    for _ in 0..((to - from) * a_second) as usize {
        let start = samples_of(chance.between(from, to));
        let hertz = 500.0 * (1.7 * chance.part()).exp();
        strike(
            sound,
            start,
            Partial {
                hertz,
                loud: loud * chance.part() * chance.part(),
                falls: 12.0 / hertz,
                rises: 0.002,
            },
        );
    }
}
