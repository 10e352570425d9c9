//! Numbers that look like chance and are the same each time.

/// A stream of numbers from a seed (splitmix64: Steele, Lea, Flood 2014, from
/// memory).
#[derive(Clone)]
pub(crate) struct Noise(u64);

impl Noise {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0xD134_2543_DE82_EF95) ^ 0x51C5)
    }

    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// 0 up to, not including, `end`.
    pub(crate) fn below(&mut self, end: u32) -> u32 {
        (((self.next() >> 32) * u64::from(end)) >> 32) as u32
    }

    /// 0 to 1.
    pub(crate) fn unit(&mut self) -> f32 {
        (self.next() >> 40) as f32 / (1 << 24) as f32
    }

    /// −1 to 1.
    pub(crate) fn signed(&mut self) -> f32 {
        2.0 * self.unit() - 1.0
    }

    /// Mean 0, standard deviation near 1, never beyond 3.5.
    pub(crate) fn bell(&mut self) -> f32 {
        let bits = self.next();
        let sum: u64 = (0..4).map(|part| (bits >> (16 * part)) & 0xFFFF).sum();
        (sum as f32 / 65_535.0 - 2.0) * (3.0_f32).sqrt()
    }
}
