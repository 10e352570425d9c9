//! A projector that is worked out: run-up, warming, flutter, and the hand beside it.

use std::f64::consts::TAU;

/// Numbers that look thrown, the same each time (`SplitMix64`, Steele and others 2014).
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0x5851_F42D_4C95_7F2D)
    }

    pub(crate) fn even(&mut self, from: f64, to: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^= z >> 31;
        from + (to - from) * ((z >> 11) as f64 / (1_u64 << 53) as f64)
    }

    /// Normal, by Box and Muller.
    pub(crate) fn normal(&mut self, sigma: f64) -> f64 {
        let far = (-2.0 * self.even(1e-12, 1.0).ln()).sqrt();
        sigma * far * self.even(0.0, TAU).cos()
    }
}

/// What a projector is like.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Drawn {
    pub(crate) nominal: f64,
    /// The share of its speed that comes only as it warms.
    pub(crate) warms: f64,
    pub(crate) flutter: f64,
}

/// A projector: the motor goes on at 0 s with frame `first` in the gate.
#[derive(Debug)]
pub(crate) struct Projector {
    first: f64,
    speed: f64,
    run_up: f64,
    warms: f64,
    warms_in: f64,
    /// Turns a second, phase, and how far each carries the film to and fro, in frames.
    wobbles: [(f64, f64, f64); 3],
}

impl Projector {
    /// 18 or 24 ± 1 f/s, run-up 1 to 2 s to 95 %, warming up to `warms` within 60 to 240 s.
    pub(crate) fn new(dice: &mut Dice, drawn: Drawn, first: f64) -> Self {
        let speed = drawn.nominal + dice.even(-1.0, 1.0);
        // Three wobbles, of a reel, a pulley and the shaft of the claw, that make the flutter
        // together: root of the mean square.
        let each = drawn.flutter * (2.0_f64 / 3.0).sqrt();
        let wobbles = [0.6, 2.3, 5.7].map(|hz| {
            let hz = hz * dice.even(0.8, 1.2);
            (hz, dice.even(0.0, TAU), each * speed / (TAU * hz))
        });
        Self {
            first,
            speed,
            run_up: dice.even(1.0, 2.0) / 3.0,
            warms: dice.even(drawn.warms.min(0.0), drawn.warms.max(0.0)),
            warms_in: dice.even(60.0, 240.0),
            wobbles,
        }
    }

    /// The frame in the gate at a time: the sum of speed × warming × run-up, with wobbles.
    pub(crate) fn frame(&self, at: f64) -> f64 {
        if at <= 0.0 {
            return self.first;
        }
        let gone = |time: f64| time * (1.0 - (-at / time).exp());
        let both = 1.0 / (1.0 / self.warms_in + 1.0 / self.run_up);
        let warm = self.warms * (gone(self.warms_in) - gone(both));
        let wobble: f64 = self
            .wobbles
            .iter()
            .map(|(hz, phase, far)| far * ((TAU * hz * at + phase).cos() - phase.cos()))
            .sum();
        let up = 1.0 - (-at / self.run_up).exp();
        self.first + self.speed * (at - gone(self.run_up) - warm) - wobble * up * up
    }

    /// When a frame comes into the gate.
    pub(crate) fn at(&self, frame: f64) -> f64 {
        assert!(frame >= self.first, "gone before it began");
        let (mut low, mut high) = (0.0, 3600.0);
        while high - low > 1e-7 {
            let middle = 0.5 * (low + high);
            if self.frame(middle) < frame {
                low = middle;
            } else {
                high = middle;
            }
        }
        high
    }
}

/// Cuts as a film has them: 36 to 220 frames apart.
pub(crate) fn cuts(dice: &mut Dice, until: u32) -> Vec<u32> {
    let mut cuts = vec![0];
    loop {
        let next = cuts[cuts.len() - 1] + dice.even(36.0, 220.0) as u32;
        if next > until {
            return cuts;
        }
        cuts.push(next);
    }
}

/// A share in words.
pub(crate) fn percent(count: usize, of: usize) -> f64 {
    100.0 * count as f64 / of as f64
}
