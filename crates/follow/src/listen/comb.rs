//! Speed and place within a frame: where rises stand together.

use std::f64::consts::TAU;

/// The true speed lies within this share of the one written on the machine: ± 1 f/s and
/// 2 % of warming at 18 are 7.6 %.
const WITHIN: f64 = 0.085;
/// Harmonics that are summed.
const HARMONICS: usize = 4;
/// How far the place is looked for to either side. Unit: pulses.
const LOOKED: f64 = 0.32;
/// Half the width of a pulse. Unit: milliseconds.
const PULSE: f64 = 3.0;
/// What is found stands out by so much over the rest, or nothing was found.
const STANDS_OUT: f64 = 1.6;

/// What was found.
#[derive(Debug, Clone, Copy)]
pub(super) struct Found {
    /// Pulses a second.
    pub(super) speed: f64,
    /// The first pulse, in pulses from the first value of the line.
    pub(super) phase: f64,
}

/// The speed that is found stands out by so much over the usual one.
const SPEED_STANDS_OUT: f64 = 8.0;

/// How much of the line stands at pulses of this speed, whatever their phase.
fn together(line: &[f32], speed: f64) -> f64 {
    let mut sum = 0.0;
    for harmonic in 1..=HARMONICS {
        let turn = TAU * speed * harmonic as f64 / 1000.0;
        let (step_sin, step_cos) = turn.sin_cos();
        let (mut cos, mut sin) = (1.0_f64, 0.0_f64);
        let (mut re, mut im) = (0.0, 0.0);
        for value in line {
            let value = f64::from(*value);
            re += value * cos;
            im += value * sin;
            (cos, sin) = (
                cos * step_cos - sin * step_sin,
                sin * step_cos + cos * step_sin,
            );
        }
        sum += re * re + im * im;
    }
    sum
}

/// Looks for the speed over the line; nothing where nothing stands out.
pub(super) fn find(line: &[f32], nominal: f64) -> Option<Found> {
    let seconds = line.len() as f64 / 1000.0;
    // A tenth of a turn over the whole line, at the first harmonic.
    let step = 0.1 / seconds;
    let count = (nominal * WITHIN / step).ceil() as i32;
    let speeds: Vec<f64> = (-count..=count)
        .map(|nth| nominal + f64::from(nth) * step)
        .collect();
    let all: Vec<f64> = speeds.iter().map(|speed| together(line, *speed)).collect();
    let (best, most) = all
        .iter()
        .enumerate()
        .max_by(|a, b| a.1.total_cmp(b.1))
        .map(|(nth, value)| (nth, *value))?;
    let mut sorted = all.clone();
    sorted.sort_by(f64::total_cmp);
    let usual = sorted[sorted.len() / 2];
    if usual <= 0.0 || most < SPEED_STANDS_OUT * usual || best == 0 || best + 1 == all.len() {
        return None;
    }
    // Between the steps, by the parabola through three.
    let (a, b, c) = (all[best - 1], all[best], all[best + 1]);
    let bend = a - 2.0 * b + c;
    let part = if bend < 0.0 {
        0.5 * (a - c) / bend
    } else {
        0.0
    };
    let speed = speeds[best] + part.clamp(-0.5, 0.5) * step;
    let (phase, stands_out) = place(line, 0.0, speed, 0.5);
    (stands_out > STANDS_OUT).then_some(Found {
        speed,
        // A pulse stands where the count is whole.
        phase,
    })
}

/// How far pulses lie from where they are thought, over a line at whose end `count` pulses
/// have gone by; nothing where they do not stand out. Unit: pulses.
pub(super) fn shift(line: &[f32], count: f64, speed: f64) -> Option<f64> {
    let at_first = count - speed * line.len() as f64 / 1000.0;
    let (later, stands_out) = place(line, at_first, speed, LOOKED);
    // Pulses that come later mean that less has gone by.
    (stands_out > STANDS_OUT).then_some(-later)
}

/// The shift of all pulses at which most of the line stands under them, and by how much it
/// stands out. `at_first`: pulses gone by at the first value. Unit: pulses.
fn place(line: &[f32], at_first: f64, speed: f64, looked: f64) -> (f64, f64) {
    // The line folded over one pulse, as finely as milliseconds allow.
    const BINS: usize = 96;
    let mut bins = [0.0_f64; BINS];
    for (nth, value) in line.iter().enumerate() {
        if *value > 0.0 {
            // A value stands for the millisecond behind it.
            let turns = at_first + speed * (nth as f64 + 0.5) / 1000.0;
            let bin = ((turns - turns.floor()) * BINS as f64) as usize;
            bins[bin.min(BINS - 1)] += f64::from(*value);
        }
    }
    let half = ((PULSE * speed / 1000.0 * BINS as f64).round() as i64).max(2);
    let under = |shift: i64| -> f64 {
        (-half..=half)
            .map(|off| {
                let weight = 1.0 - (off.unsigned_abs() as f64) / (half as f64 + 1.0);
                let bin = (shift + off).rem_euclid(BINS as i64) as usize;
                weight * bins[bin]
            })
            .sum()
    };
    let far = (looked * BINS as f64) as i64;
    let all: Vec<(i64, f64)> = (-far..=far).map(|shift| (shift, under(shift))).collect();
    let mean = (0..BINS as i64).map(under).sum::<f64>() / BINS as f64;
    let Some((best, most)) = all.iter().copied().max_by(|a, b| a.1.total_cmp(&b.1)) else {
        return (0.0, 0.0);
    };
    if mean <= 0.0 {
        return (0.0, 0.0);
    }
    let (a, c) = (under(best - 1), under(best + 1));
    let bend = a - 2.0 * most + c;
    let part = if bend < 0.0 {
        0.5 * (a - c) / bend
    } else {
        0.0
    };
    (
        (best as f64 + 0.5 + part.clamp(-0.5, 0.5)) / BINS as f64,
        most / mean,
    )
}
