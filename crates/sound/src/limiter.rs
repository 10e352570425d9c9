//! The limiter: looks ahead five milliseconds, and between the samples too.
//!
//! What lies between samples is found at three places in each gap (four times as many
//! samples, as ITU-R BS.1770-4 annex 2 asks), with a longer filter than the one printed
//! there, which reads sharp sounds up to 0.3 dB too low (check value M036).

use std::collections::VecDeque;
use std::f64::consts::PI;

/// How far it looks ahead. Unit: samples.
pub(crate) const AHEAD: usize = 240;
/// How far the filter between samples reaches to each side.
pub(crate) const REACH: usize = 16;
/// How fast it lets go: the part that is left after a sample, 200 ms.
const LETS_GO_S: f64 = 0.2;

/// How many samples the filter between samples sees.
const TAPS: usize = 2 * REACH;

/// The filter for the three places between two samples: a sinc under a Kaiser window.
fn phases() -> [[f64; TAPS]; 3] {
    let mut phases = [[0.0; TAPS]; 3];
    for (part, phase) in (1..).zip(&mut phases) {
        for (n, tap) in phase.iter_mut().enumerate() {
            let x = n as f64 - (REACH as f64 - 1.0) - f64::from(part) / 4.0;
            let sinc = (PI * x).sin() / (PI * x);
            let side = (x / REACH as f64).clamp(-1.0, 1.0);
            *tap = sinc * bessel(KAISER * (1.0 - side * side).sqrt()) / bessel(KAISER);
        }
    }
    phases
}

/// The shape of the window: about 70 dB of stop band.
const KAISER: f64 = 6.5;

/// The modified Bessel function of order 0, by its series.
fn bessel(x: f64) -> f64 {
    let mut term = 1.0;
    let mut sum = 1.0;
    for n in 1..40 {
        term *= (x / (2.0 * f64::from(n))).powi(2);
        sum += term;
    }
    sum
}

/// The last samples of a channel. Each stands twice, so that they lie in a row wherever the
/// newest is.
#[derive(Debug, Clone)]
struct Near {
    twice: [f64; 2 * TAPS],
    newest: usize,
    /// For so many samples yet a loud one is among them.
    loud: usize,
}

impl Near {
    const fn silent() -> Self {
        Self {
            twice: [0.0; 2 * TAPS],
            newest: TAPS - 1,
            loud: 0,
        }
    }

    /// Takes a sample in; whether any of the last is above `bound`.
    fn push(&mut self, sample: f64, bound: f64) -> bool {
        self.newest = (self.newest + 1) % TAPS;
        self.twice[self.newest] = sample;
        self.twice[self.newest + TAPS] = sample;
        self.loud = if sample.abs() > bound {
            TAPS
        } else {
            self.loud.saturating_sub(1)
        };
        self.loud > 0
    }

    /// The last samples, newest last.
    fn row(&self) -> &[f64] {
        &self.twice[self.newest + 1..=self.newest + TAPS]
    }
}

/// A limiter for one or two channels.
#[derive(Debug, Clone)]
pub(crate) struct Limiter {
    ceiling: f64,
    channels: usize,
    /// The last samples that went in, newest last, for the filter.
    near: Vec<Near>,
    phases: [[f64; TAPS]; 3],
    /// Where all samples near a place lie below this, the place does not reach the ceiling.
    bound: f64,
    /// Samples that wait to come out.
    waiting: VecDeque<[f32; 2]>,
    /// The gains wanted inside the window, lowest first: (sample, gain).
    lowest: VecDeque<(u64, f64)>,
    /// The gain after letting go, for the last `AHEAD` samples, and their sum.
    followed: VecDeque<f64>,
    sum: f64,
    now: f64,
    at: u64,
    lets_go: f64,
}

impl Limiter {
    pub(crate) fn new(ceiling_db: f64, channels: usize) -> Self {
        let phases = phases();
        let most = phases
            .iter()
            .map(|p| p.iter().map(|c| c.abs()).sum::<f64>());
        let ceiling = 10_f64.powf(ceiling_db / 20.0);
        Self {
            bound: ceiling / most.fold(1.0, f64::max),
            phases,
            ceiling,
            channels,
            near: vec![Near::silent(); channels],
            waiting: VecDeque::from(vec![[0.0; 2]; AHEAD + REACH]),
            lowest: VecDeque::new(),
            followed: VecDeque::from(vec![1.0; AHEAD]),
            sum: AHEAD as f64,
            now: 1.0,
            at: 0,
            lets_go: (-1.0 / (LETS_GO_S * f64::from(crate::RATE))).exp(),
        }
    }

    /// How far behind what comes out is. Unit: samples.
    pub(crate) const fn delay() -> usize {
        AHEAD + REACH
    }

    /// The highest that a channel gets about the middle of the filter.
    fn highest(phases: &[[f64; TAPS]; 3], near: &[f64]) -> f64 {
        let mut highest = near[REACH - 1].abs();
        for phase in phases {
            let between: f64 = phase.iter().zip(near).map(|(c, s)| c * s).sum();
            highest = highest.max(between.abs());
        }
        highest
    }

    /// One sample of each channel goes in, and the one of [`Limiter::delay`] before comes
    /// out.
    pub(crate) fn pass(&mut self, sample: [f32; 2]) -> [f32; 2] {
        let mut loudest = 0.0_f64;
        for (channel, near) in self.near.iter_mut().enumerate() {
            if near.push(f64::from(sample[channel]), self.bound) {
                loudest = loudest.max(Self::highest(&self.phases, near.row()));
            }
        }
        let wanted = if loudest > self.ceiling {
            self.ceiling / loudest
        } else {
            1.0
        };
        while self.lowest.back().is_some_and(|last| last.1 >= wanted) {
            self.lowest.pop_back();
        }
        self.lowest.push_back((self.at, wanted));
        while self
            .lowest
            .front()
            .is_some_and(|first| first.0 + (AHEAD as u64) < self.at)
        {
            self.lowest.pop_front();
        }
        let least = self.lowest.front().map_or(1.0, |first| first.1);
        let risen = 1.0 - (1.0 - self.now) * self.lets_go;
        self.now = least.min(risen);
        let oldest = self.followed.pop_front().unwrap_or(1.0);
        self.followed.push_back(self.now);
        self.sum += self.now - oldest;
        self.at += 1;
        if self.at.is_multiple_of(4096) {
            // So that rounding does not add up over an evening.
            self.sum = self.followed.iter().sum();
        }
        let gain = (self.sum / AHEAD as f64).min(1.0);
        self.waiting.push_back(sample);
        let out = self.waiting.pop_front().unwrap_or([0.0; 2]);
        let mut limited = [0.0; 2];
        for channel in 0..self.channels {
            limited[channel] = (f64::from(out[channel]) * gain) as f32;
        }
        limited
    }
}
