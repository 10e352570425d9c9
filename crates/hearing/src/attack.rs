//! Where exactly an attack begins.

use crate::{Heard, middle};

/// How far before the highest rise an attack may begin, and how far after it may
/// still grow. Unit: seconds.
const BEFORE: f64 = 0.05;
const AFTER: f64 = 0.04;

/// Step in which loudness is read. Unit: seconds.
const STEP: f64 = 0.0005;

/// The beginning of the attack near a time. Unit: seconds.
///
/// Read on what changes from sample to sample, so that rumble does not hide a
/// click. Where the attack stands clear of what goes before, it begins where it
/// first does: fingers are heard sliding before they snap. Else the sound is
/// taken as two stretches of noise and parted where both together are likeliest:
/// Akaike's criterion as seismology uses it for first arrivals (N. Maeda, 1985).
pub(crate) fn place(heard: Heard<'_>, near: f64) -> f64 {
    let start = heard.sample_at(near - BEFORE);
    let end = heard.sample_at(near + AFTER);
    let step = ((STEP * heard.rate()) as usize).max(1);
    let energy = energies(heard, start, end, step);
    // Only up to where it is loudest: a stroke dies away after that.
    let top = (0..energy.len()).max_by(|&a, &b| energy[a].total_cmp(&energy[b]));
    let Some(top) = top.filter(|top| *top >= 2) else {
        return near.clamp(0.0, heard.seconds());
    };
    let begins = first_clear(&energy[..=top]).unwrap_or_else(|| part(&energy[..=top]));
    (start + begins * step) as f64 / heard.rate()
}

/// How many times what goes before an attack must exceed to be part of it, and
/// the share of its peak below which nothing counts: −30 dB.
const CLEARS: f64 = 3.0;
const COUNTS: f64 = 1e-3;

/// Longest lull inside an attack, and what before its peak is taken as "before".
/// Unit: steps.
const LULL: usize = 12;
const AWAY: usize = 30;

/// Going back from the peak, the first step of those that stand clear of what
/// goes before; none when the peak itself hardly does.
fn first_clear(energy: &[f64]) -> Option<usize> {
    let top = energy.len() - 1;
    let before = energy
        .get(..top.checked_sub(AWAY)?)
        .filter(|steps| steps.len() >= 20)?;
    let bar = (CLEARS * middle::quantile(before, 0.9)).max(COUNTS * energy[top]);
    if energy[top] < 4.0 * bar {
        return None;
    }
    let mut first = top;
    for at in (0..top).rev() {
        if energy[at] > bar {
            first = at;
        } else if first - at > LULL {
            break;
        }
    }
    Some(first)
}

/// How many times more energy there is just after a time than just before it.
pub(crate) fn growth(heard: Heard<'_>, at: f64) -> f64 {
    let mean = |from: f64, to: f64| {
        let (start, end) = (heard.sample_at(from), heard.sample_at(to));
        let sum: f64 = energies(heard, start, end, 64).iter().sum();
        sum / end.saturating_sub(start).max(1) as f64
    };
    mean(at, at + 0.02) / (mean(at - 0.025, at - 0.001) + 1e-18)
}

/// The energy of the changes in each step.
fn energies(heard: Heard<'_>, start: usize, end: usize, step: usize) -> Vec<f64> {
    let samples = heard.samples();
    let change = |at: usize| {
        let before = at.checked_sub(1).map_or(0.0, |before| samples[before]);
        f64::from(samples[at] - before)
    };
    (start..end)
        .step_by(step)
        .map(|from| {
            (from..(from + step).min(end))
                .map(|at| change(at).powi(2))
                .sum()
        })
        .collect()
}

/// Where two stretches part best: the least of
/// `k·ln(mean before) + (n − k)·ln(mean after)`.
fn part(energy: &[f64]) -> usize {
    let total: f64 = energy.iter().sum();
    let foot = 1e-6 * total / energy.len() as f64 + 1e-24;
    let n = energy.len() as f64;
    let mut before = 0.0;
    let mut best = (f64::INFINITY, 0);
    for (at, &value) in energy
        .iter()
        .enumerate()
        .skip(1)
        .map(|(at, _)| (at, &energy[at - 1]))
    {
        before += value;
        let k = at as f64;
        let cost = k * (before / k + foot).ln()
            + (n - k) * ((total - before).max(0.0) / (n - k) + foot).ln();
        if cost < best.0 {
            best = (cost, at);
        }
    }
    best.1
}
