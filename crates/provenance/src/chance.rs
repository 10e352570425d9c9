//! Chance that comes out the same each time: a search must not answer otherwise tomorrow.

/// `SplitMix64`, as published by Steele, Lea and Flood, 2014.
#[derive(Debug)]
pub(crate) struct Chance(u64);

impl Chance {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// 0 up to 1.
    pub(crate) fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// One of so many, at least one.
    pub(crate) fn below(&mut self, many: usize) -> usize {
        (self.share() * many as f64) as usize % many.max(1)
    }
}
