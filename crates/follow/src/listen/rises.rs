//! Sound as a line of rises, one value a millisecond.

/// A rise above this counts no more: a door is no louder tick. Unit: nepers.
const MOST: f32 = 3.0;

/// Noise alone rises by so much. Unit: nepers.
const STIRS: f64 = 0.25;

/// Makes rises of samples as they come.
#[derive(Debug, Clone)]
pub(super) struct Rises {
    rate: f64,
    high: bool,
    /// What is left of the filter: input and output before.
    before: (f64, f64),
    again: (f64, f64),
    keep: f64,
    sum: f64,
    /// Samples gone by since the last value.
    gone: f64,
    /// How loud it is in the mean, as a logarithm.
    floor: f64,
    last: [f64; 6],
    energy: f64,
    begun: bool,
}

impl Rises {
    /// `high`: what lies below about 1 kHz is taken away first, where voices and hum are.
    pub(super) fn new(rate: f64, high: bool) -> Self {
        let edge = (1000.0_f64).min(rate / 8.0);
        Self {
            rate,
            high,
            before: (0.0, 0.0),
            again: (0.0, 0.0),
            keep: (-std::f64::consts::TAU * edge / rate).exp(),
            sum: 0.0,
            gone: 0.0,
            floor: 0.0,
            last: [0.0; 6],
            energy: 0.0,
            begun: false,
        }
    }

    /// How much was heard that has no value yet. Unit: seconds.
    pub(super) fn held_back(&self) -> f64 {
        self.gone / self.rate
    }

    pub(super) fn of(&mut self, samples: &[f32]) -> Vec<f32> {
        let each = self.rate / 1000.0;
        let mut values = Vec::with_capacity((samples.len() as f64 / each) as usize + 1);
        for sample in samples {
            let heard = if sample.is_finite() {
                f64::from(*sample)
            } else {
                0.0
            };
            let passed = if self.high { self.passed(heard) } else { heard };
            self.sum += passed * passed;
            self.gone += 1.0;
            if self.gone >= each {
                self.gone -= each;
                values.push(self.value());
            }
        }
        values
    }

    /// Two steps of a filter that lets through what is high.
    fn passed(&mut self, heard: f64) -> f64 {
        let one = self.keep * (self.before.1 + heard - self.before.0);
        self.before = (heard, one);
        let two = self.keep * (self.again.1 + one - self.again.0);
        self.again = (one, two);
        two
    }

    fn value(&mut self) -> f32 {
        // Two milliseconds at a time, so that little noise is left in the logarithm.
        let loud = 0.5 * (self.sum + self.energy + 1e-12).ln();
        self.energy = self.sum;
        self.sum = 0.0;
        if !self.begun {
            self.begun = true;
            self.floor = loud;
            self.last = [loud; 6];
        }
        // What the room is like: it sinks faster than it rises, over about half a second.
        let toward = if loud < self.floor { 0.004 } else { 0.002 };
        self.floor += toward * (loud - self.floor).clamp(-2.0, 2.0);
        // Beside what was some milliseconds ago, so that a tick is not measured against its
        // own beginning.
        let before = self.last[3..].iter().copied().fold(self.floor, f64::max);
        self.last.rotate_right(1);
        self.last[0] = loud;
        ((loud - before - STIRS) as f32).clamp(0.0, MOST)
    }
}
