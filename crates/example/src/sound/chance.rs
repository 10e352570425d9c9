//! Chance that is the same every time.

/// A row of numbers without order (Marsaglia's xorshift, 2003).
pub(super) struct Chance(u64);

impl Chance {
    pub(super) fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    /// From 0 to 1.
    pub(super) fn part(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// From −1 to 1.
    pub(super) fn either(&mut self) -> f64 {
        2.0 * self.part() - 1.0
    }

    /// Between two numbers.
    pub(super) fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.part()
    }

    /// White noise, −1 to 1.
    pub(super) fn noise(&mut self, count: usize) -> Vec<f64> {
        (0..count).map(|_| self.either()).collect()
    }
}
