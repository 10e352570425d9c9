//! When the shutter of the file's camera was open, and what was in the gate.

use crate::{Planted, gate_order};

/// How a roll is transferred.
///
/// File frame k is exposed while the film moves from p(k) to p(k) + w, in turns
/// of the film machine: p(k) = phase + k·film/file, bent by the drift, and
/// w = exposure·film/file.
#[derive(Debug, Clone, PartialEq)]
pub struct Transfer {
    /// Speed of the film in frames a second, as a fraction.
    pub film: (u32, u32),
    /// Rate of the file (of its fields, when it is interlaced), as a fraction.
    pub file: (u32, u32),
    /// Share of the file frame's time for which its shutter is open; 0 for a
    /// moment.
    pub exposure: f64,
    /// Where the first file frame begins, in turns of the machine.
    pub phase: f64,
    /// How the film's speed wanders.
    pub drift: Drift,
    /// Faults of the machine.
    pub planted: Vec<Planted>,
}

/// A speed that swings about its middle: film/file·(1 + share·sin(2πk/period)).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drift {
    /// The most it is off, as a share of the speed.
    pub share: f64,
    /// File frames from swing to swing.
    pub period: f64,
}

/// What one file frame shows: film frames with their weights, summing to 1, in
/// order along the film.
#[derive(Debug, Clone, PartialEq)]
pub struct Shown {
    /// Film frame and weight.
    pub weights: Vec<(u32, f32)>,
}

impl Shown {
    /// The film frame with the largest weight.
    #[must_use]
    pub fn most(&self) -> u32 {
        let most = self.weights.iter().max_by(|a, b| a.1.total_cmp(&b.1));
        most.map_or(0, |most| most.0)
    }

    /// Whether it shows one film frame alone.
    #[must_use]
    pub fn is_clean(&self) -> bool {
        self.weights.len() == 1
    }
}

impl Transfer {
    /// A transfer with a shutter open for a moment, in step from the first frame.
    #[must_use]
    pub fn clean(film: (u32, u32), file: (u32, u32)) -> Self {
        Self {
            film,
            file,
            exposure: 0.0,
            phase: 0.0,
            drift: Drift {
                share: 0.0,
                period: 1.0,
            },
            planted: Vec::new(),
        }
    }

    /// The same with the shutter open for a share of the file frame.
    #[must_use]
    pub fn exposed(self, exposure: f64) -> Self {
        Self { exposure, ..self }
    }

    /// The same with a speed that wanders.
    #[must_use]
    pub fn drifting(self, share: f64, period: f64) -> Self {
        Self {
            drift: Drift { share, period },
            ..self
        }
    }

    /// The same, begun elsewhere within a film frame.
    #[must_use]
    pub fn from_phase(self, phase: f64) -> Self {
        Self { phase, ..self }
    }

    /// The same with faults of the machine.
    #[must_use]
    pub fn with(self, planted: &[Planted]) -> Self {
        Self {
            planted: planted.to_vec(),
            ..self
        }
    }

    /// Film frames a file frame, on average.
    #[must_use]
    pub fn step(&self) -> f64 {
        let (num, den) = self.terms();
        num as f64 / den as f64
    }

    fn terms(&self) -> (u64, u64) {
        let num = u64::from(self.film.0) * u64::from(self.file.1);
        (num, u64::from(self.film.1) * u64::from(self.file.0))
    }

    /// Where file frame `k` begins, in turns of the machine. Without drift it
    /// is exact wherever it is whole.
    #[must_use]
    pub fn position(&self, k: u64) -> f64 {
        let (num, den) = self.terms();
        let even = (k * num) as f64 / den as f64;
        let turn = std::f64::consts::TAU * k as f64 / self.drift.period;
        let swing = self.drift.share * self.drift.period / std::f64::consts::TAU;
        self.phase + even + self.step() * swing * (1.0 - turn.cos())
    }

    /// What every file frame of a roll of `film_frames` shows: the truth.
    #[must_use]
    pub fn truth(&self, film_frames: u32) -> Vec<Shown> {
        let gate = gate_order(film_frames, &self.planted);
        let turns = gate.len() as f64;
        let open = |k: u64| {
            let from = self.position(k);
            let step = self.position(k + 1) - from;
            (from, from + self.exposure * step)
        };
        (0..)
            .map(open)
            .take_while(|&(from, until)| from < turns && until <= turns + 1e-9)
            .map(|(from, until)| shown(&gate, from, until))
            .collect()
    }
}

/// What passes the open shutter between two positions of the machine.
fn shown(gate: &[u32], from: f64, until: f64) -> Shown {
    let first = from.floor() as usize;
    let mut weights: Vec<(u32, f32)> = Vec::new();
    for (turn, &frame) in gate.iter().enumerate().skip(first) {
        let seen = (until.min(turn as f64 + 1.0) - from.max(turn as f64)) / (until - from);
        let seen = if until > from { seen } else { 1.0 };
        // Less than this is rounding.
        if seen > 1e-6 {
            match weights.last_mut() {
                Some(last) if last.0 == frame => last.1 += seen as f32,
                _ => weights.push((frame, seen as f32)),
            }
        }
        if until <= turn as f64 + 1.0 {
            break;
        }
    }
    Shown { weights }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn eighteen_into_twenty_five_repeats_seven_in_twenty_five() {
        let truth = Transfer::clean((18, 1), (25, 1)).truth(3600);
        assert_eq!(truth.len(), 5000);
        let frames: Vec<u32> = truth[..9].iter().map(Shown::most).collect();
        assert_eq!(frames, [0, 0, 1, 2, 2, 3, 4, 5, 5]);
        assert!(truth.iter().all(Shown::is_clean));
    }

    #[test]
    fn a_copy_off_the_wall_blends_at_every_boundary() {
        let wall = Transfer::clean((441, 25), (30_000, 1001)).exposed(1.0);
        let truth = wall.truth(3600);
        assert_eq!(truth.len(), 6116);
        assert_eq!(truth.iter().filter(|shown| !shown.is_clean()).count(), 3599);
    }

    #[test]
    fn weights_sum_to_one_and_a_doubled_frame_has_no_inner_boundary() {
        let transfer = Transfer::clean((18, 1), (25, 1))
            .exposed(0.7)
            .drifting(0.03, 400.0)
            .with(&[Planted::Doubled { at: 9 }]);
        for shown in transfer.truth(40) {
            let sum: f32 = shown.weights.iter().map(|w| w.1).sum();
            assert!((sum - 1.0).abs() < 1e-3, "{shown:?}");
            assert!(shown.weights.windows(2).all(|two| two[0].0 < two[1].0));
        }
    }
}
