//! What a plain transfer would show, and how well strides agree with it.

use crate::stride::Stride;

/// Phases told apart within a film frame.
pub(crate) const PHASES: usize = 48;

/// Expected strides by the phase at which a file frame's exposure begins.
#[derive(Debug, Clone)]
pub(crate) struct Pattern {
    pub(crate) one: [f32; PHASES],
    pub(crate) bend: [f32; PHASES],
}

impl Pattern {
    /// For a speed and an exposure, both in film frames a file frame.
    pub(crate) fn new(step: f64, open: f64) -> Self {
        let (step, open) = (step as f32, open.max(1e-3) as f32);
        let table = |expected: &dyn Fn(f32) -> f32| {
            std::array::from_fn(|bin| expected((bin as f32 + 0.5) / PHASES as f32))
        };
        Self {
            one: table(&|at| amplitude(|b| passed(at, open, b) - passed(at - step, open, b))),
            bend: table(&|at| {
                amplitude(|b| {
                    passed(at + step, open, b) - 2.0 * passed(at, open, b)
                        + passed(at - step, open, b)
                })
            }),
        }
    }
}

/// The part of an exposure from `from` to `from + open` that lies beyond a
/// boundary between film frames.
pub(crate) fn passed(from: f32, open: f32, boundary: f32) -> f32 {
    ((from + open - boundary) / open).clamp(0.0, 1.0)
}

/// Size of a sum of changes at boundaries, with what each weighs in it.
///
/// Changes at neighbouring boundaries are taken half for strangers, as when a
/// scene moves on, and half as grain makes them, where each film frame's own
/// grain comes at one and goes at the next.
pub(crate) fn amplitude(weight: impl Fn(f32) -> f32) -> f32 {
    // Boundaries lie at whole positions; four on either side are enough.
    let weights: [f32; 9] = std::array::from_fn(|at| weight(at as f32 - 4.0));
    let alone: f32 = weights.iter().map(|w| w * w).sum();
    let shared: f32 = weights.windows(2).map(|two| two[0] * two[1]).sum();
    (alone - 0.5 * shared).max(0.0).sqrt()
}

/// Phases taken together where any shape will do.
const PART: usize = 3;

/// How much of what varies in strides of one kind is explained, 0 to 1.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Explained {
    /// By the pattern of a cadence.
    pub(crate) by_pattern: f32,
    /// By the phase alone, whatever its shape.
    pub(crate) by_phase: f32,
}

/// Strides of one kind laid over each other by phase.
#[derive(Debug, Clone)]
struct Layer {
    sum: [f32; PHASES],
    squares: f32,
}

/// Strides of a stretch laid over each other by phase.
#[derive(Debug, Clone)]
pub(crate) struct Fold {
    weight: [f32; PHASES],
    layers: [Layer; 2],
}

impl Fold {
    /// An empty fold.
    pub(crate) fn new() -> Self {
        let layer = Layer {
            sum: [0.0; PHASES],
            squares: 0.0,
        };
        Self {
            weight: [0.0; PHASES],
            layers: [layer.clone(), layer],
        }
    }

    /// Strides around a middle, at a speed in film frames a file frame; the
    /// middle stands at phase 0.
    pub(crate) fn of(strides: &[Stride], step: f64) -> Self {
        let mut fold = Self::new();
        let middle = (strides.len() / 2) as f64;
        for (at, stride) in strides.iter().enumerate() {
            fold.add(step * (at as f64 - middle), stride);
        }
        fold
    }

    /// Lays one stride on.
    pub(crate) fn add(&mut self, position: f64, stride: &Stride) {
        let phase = position - position.floor();
        let bin = (phase * PHASES as f64) as usize % PHASES;
        self.weight[bin] += stride.seen;
        for (layer, size) in self.layers.iter_mut().zip([stride.one, stride.bend]) {
            layer.sum[bin] += stride.seen * size;
            layer.squares += stride.seen * size * size;
        }
    }

    /// How much of what varies a pattern explains when it begins `shift` bins
    /// later: 0 to 1.
    pub(crate) fn fit(&self, pattern: &Pattern, shift: usize) -> f32 {
        let one = self.layer_fit(&self.layers[0], &pattern.one, shift);
        let bend = self.layer_fit(&self.layers[1], &pattern.bend, shift);
        (one + bend) / 2.0
    }

    fn layer_fit(&self, layer: &Layer, table: &[f32; PHASES], shift: usize) -> f32 {
        let (mut w, mut s, mut t, mut tt, mut st) = (0.0_f32, 0.0, 0.0, 0.0, 0.0);
        // The table from `shift` on and round to it.
        let turned = table[shift..].iter().chain(&table[..shift]);
        for ((weight, sum), value) in self.weight.iter().zip(&layer.sum).zip(turned) {
            w += weight;
            s += sum;
            t += weight * value;
            tt += weight * value * value;
            st += sum * value;
        }
        if w < 1.0 {
            return 0.0;
        }
        let shared = st - s * t / w;
        let of_table = tt - t * t / w;
        let of_strides = layer.squares - s * s / w;
        if shared <= 0.0 || of_table <= 1e-4 * w || of_strides <= 1e-4 * w {
            return 0.0;
        }
        (shared * shared / (of_table * of_strides)).min(0.999)
    }

    /// What a pattern that begins `shift` bins later explains of the strides of either
    /// kind.
    pub(crate) fn explained(&self, pattern: &Pattern, shift: usize) -> [Explained; 2] {
        let tables = [&pattern.one, &pattern.bend];
        [0, 1].map(|kind| Explained {
            by_pattern: self.layer_fit(&self.layers[kind], tables[kind], shift),
            by_phase: self.by_phase(&self.layers[kind]),
        })
    }

    /// How much of what varies the phase explains, whatever the shape of it.
    fn by_phase(&self, layer: &Layer) -> f32 {
        let sum = |parts: &[f32]| parts.iter().sum::<f32>();
        let of_mean = |sum: f32, weight: f32| {
            if weight > 0.0 {
                sum * sum / weight
            } else {
                0.0
            }
        };
        let all = of_mean(sum(&layer.sum), sum(&self.weight));
        let parts = layer.sum.chunks(PART).zip(self.weight.chunks(PART));
        let apart: f32 = parts.map(|(s, w)| of_mean(sum(s), sum(w))).sum();
        (apart - all) / (layer.squares - all).max(1e-6)
    }

    /// The mean stride at phases where the pattern says that nothing passes, when
    /// it begins `shift` bins later; without bound where no file frame is there.
    pub(crate) fn rests(&self, pattern: &Pattern, shift: usize) -> f32 {
        let turned = pattern.one[shift..].iter().chain(&pattern.one[..shift]);
        let at_rest = turned.enumerate().filter(|(_, value)| **value < 0.05);
        let (mut weight, mut sum) = (0.0_f32, 0.0);
        for (bin, _) in at_rest {
            weight += self.weight[bin];
            sum += self.layers[0].sum[bin];
        }
        if weight > 0.0 { sum / weight } else { f32::MAX }
    }

    /// All that was seen, in whole frames.
    pub(crate) fn seen(&self) -> f32 {
        self.weight.iter().sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_moment_of_exposure_shows_whole_frames_or_none() {
        let pattern = Pattern::new(0.72, 0.0);
        let high = pattern.one.iter().filter(|v| **v > 0.9).count();
        let low = pattern.one.iter().filter(|v| **v < 0.1).count();
        assert_eq!(high + low, PHASES);
        assert!((high as f32 / PHASES as f32 - 0.72).abs() < 0.03);
    }

    #[test]
    fn a_fold_knows_its_own_pattern_and_phase() {
        let pattern = Pattern::new(0.72, 0.72);
        let strides: Vec<Stride> = (0..128)
            .map(|k| {
                let position = 0.72 * f64::from(k - 64) + 0.25;
                let bin = ((position - position.floor()) * PHASES as f64) as usize;
                Stride {
                    one: pattern.one[bin],
                    bend: pattern.bend[bin],
                    seen: 1.0,
                    usual: 1.0,
                }
            })
            .collect();
        let fold = Fold::of(&strides, 0.72);
        let best =
            (0..PHASES).max_by(|a, b| fold.fit(&pattern, *a).total_cmp(&fold.fit(&pattern, *b)));
        assert_eq!(best, Some(PHASES / 4));
        assert!(fold.fit(&pattern, PHASES / 4) > 0.95);
        assert!(Fold::of(&strides, 0.6).fit(&Pattern::new(0.6, 0.6), 0) < 0.2);
    }
}
