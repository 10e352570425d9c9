//! Numbers that look like chance and are the same each time.

/// A stream of numbers from a seed (splitmix64: Steele, Lea, Flood 2014, from
/// memory).
#[derive(Debug, Clone)]
pub struct Chance(u64);

impl Chance {
    /// The stream of a seed.
    #[must_use]
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The stream of one thing of many: the `number`th frame, row or scene of
    /// what `seed` draws.
    #[must_use]
    pub fn of(seed: u64, number: u64) -> Self {
        let mut chance = Self(seed ^ number.wrapping_mul(0xD6E8_FEB8_6659_FD93));
        chance.bits();
        chance
    }

    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A whole number from 0 up to, not including, `end`.
    pub fn below(&mut self, end: u32) -> u32 {
        (((self.bits() >> 32) * u64::from(end)) >> 32) as u32
    }

    /// From 0 up to 1.
    pub fn unit(&mut self) -> f32 {
        (self.bits() >> 40) as f32 / (1 << 24) as f32
    }

    /// Between −1 and 1.
    pub fn signed(&mut self) -> f32 {
        2.0 * self.unit() - 1.0
    }

    /// Mean 0, standard deviation 1, never beyond 3.5: four equal spreads of
    /// variance 1/12 each.
    pub fn bell(&mut self) -> f32 {
        let bits = self.bits();
        let sum: u64 = (0..4).map(|part| (bits >> (16 * part)) & 0xFFFF).sum();
        (sum as f32 / 65_535.0 - 2.0) * (3.0_f32).sqrt()
    }
}

/// A table of bell-shaped numbers, from which grain is taken by the run: each
/// row of each frame begins at a place of its own.
#[derive(Debug, Clone)]
pub(crate) struct GrainTable(Vec<f32>);

impl GrainTable {
    const LENGTH: usize = 1 << 17;

    pub(crate) fn new(seed: u64) -> Self {
        let mut chance = Chance::of(seed, 77);
        Self((0..Self::LENGTH).map(|_| chance.bell()).collect())
    }

    /// A run of `length` numbers that begins where `chance` says.
    pub(crate) fn run(&self, length: usize, chance: &mut Chance) -> &[f32] {
        let from = chance.below((Self::LENGTH - length) as u32) as usize;
        &self.0[from..from + length]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bell_has_its_mean_and_spread() {
        let mut chance = Chance::new(4);
        let drawn: Vec<f32> = (0..40_000).map(|_| chance.bell()).collect();
        let mean = drawn.iter().sum::<f32>() / 40_000.0;
        let spread = drawn.iter().map(|v| v * v).sum::<f32>() / 40_000.0;
        assert!(
            mean.abs() < 0.02 && (spread - 1.0).abs() < 0.03,
            "{mean} {spread}"
        );
    }

    #[test]
    fn neighbouring_streams_are_strangers() {
        let (mut a, mut b) = (Chance::of(1, 2), Chance::of(1, 3));
        let shared: f32 = (0..10_000).map(|_| a.bell() * b.bell()).sum();
        assert!((shared / 10_000.0).abs() < 0.04);
    }
}
