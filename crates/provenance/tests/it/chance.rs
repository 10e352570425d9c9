//! Chance that comes out the same each time.

/// `SplitMix64`, as published by Steele, Lea and Flood, 2014.
pub(crate) struct Chance(u64);

impl Chance {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x1234_5678)
    }

    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// 0 up to 1.
    pub(crate) fn share(&mut self) -> f32 {
        (self.next() >> 40) as f32 / (1_u64 << 24) as f32
    }

    pub(crate) fn between(&mut self, low: f32, high: f32) -> f32 {
        low + (high - low) * self.share()
    }

    pub(crate) fn below(&mut self, n: usize) -> usize {
        (self.next() % n as u64) as usize
    }

    /// About normal, of spread one: four shares less two.
    pub(crate) fn normal(&mut self) -> f32 {
        let bits = self.next();
        let sum: u64 = (0..4).map(|part| (bits >> (16 * part)) & 0xffff).sum();
        (sum as f32 / 65_536.0 - 2.0) * 1.732
    }
}
