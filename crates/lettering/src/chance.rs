//! Chance that falls the same way each time: seeded by the words.

/// A number out of words (FNV-1a, 64 bits).
pub(crate) fn seed_of(words: &str) -> u64 {
    words.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

/// Scatters the bits of a number (the finalizer of `SplitMix64`).
fn scattered(mut value: u64) -> u64 {
    value = (value ^ (value >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    value = (value ^ (value >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    value ^ (value >> 31)
}

/// Numbers drawn one after the other (`SplitMix64`).
#[derive(Debug, Clone)]
pub(crate) struct Chance(u64);

impl Chance {
    pub(crate) fn new(seed: u64, which: u64) -> Self {
        Self(seed ^ which.wrapping_mul(0x9e37_79b9_7f4a_7c15))
    }

    /// Evenly from 0 to 1.
    pub(crate) fn part(&mut self) -> f32 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        (scattered(self.0) >> 40) as f32 / (1_u64 << 24) as f32
    }

    /// From -1 to 1, more often near 0.
    pub(crate) fn swing(&mut self) -> f32 {
        self.part() + self.part() - 1.0
    }
}

/// A field of soft hills: value noise on a lattice of whole numbers.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Hills {
    seed: u32,
}

impl Hills {
    pub(crate) fn new(seed: u64, which: u64) -> Self {
        Self {
            seed: (scattered(seed ^ (which << 17)) >> 32) as u32,
        }
    }

    /// Height of the lattice point, 0 to 1.
    fn corner(self, x: i32, y: i32) -> f32 {
        let mut hash = (x as u32).wrapping_mul(0x85eb_ca6b) ^ (y as u32).wrapping_mul(0xc2b2_ae35);
        hash ^= self.seed;
        hash = (hash ^ (hash >> 15)).wrapping_mul(0x2c1b_3c6d);
        hash = (hash ^ (hash >> 12)).wrapping_mul(0x297a_2d39);
        hash ^= hash >> 15;
        (hash >> 8) as f32 * (1.0 / 16_777_216.0)
    }

    /// Height at a place, 0 to 1.
    pub(crate) fn at(self, x: f32, y: f32) -> f32 {
        let (floor_x, floor_y) = (x.floor(), y.floor());
        let (left, top) = (floor_x as i32, floor_y as i32);
        let ease = |part: f32| part * part * (3.0 - 2.0 * part);
        let (across, down) = (ease(x - floor_x), ease(y - floor_y));
        let between = |a: f32, b: f32, part: f32| a + (b - a) * part;
        between(
            between(self.corner(left, top), self.corner(left + 1, top), across),
            between(
                self.corner(left, top + 1),
                self.corner(left + 1, top + 1),
                across,
            ),
            down,
        )
    }

    /// Two scales of hills together, 0 to 1.
    pub(crate) fn rough(self, x: f32, y: f32) -> f32 {
        self.at(x, y) * 0.65 + self.at(x * 2.3 + 17.0, y * 2.3 + 5.0) * 0.35
    }

    /// Grain without direction, 0 to 1 and seldom near either: hills of three sizes
    /// turned against each other, so that no lattice shows.
    pub(crate) fn grain(self, x: f32, y: f32) -> f32 {
        let one = self.at(x * 0.81 + y * 0.59, y * 0.81 - x * 0.59);
        let two = self.at(x * 1.62 - y * 0.94 + 31.0, y * 1.62 + x * 0.94 + 11.0);
        let three = self.at(x * 1.1 + y * 2.9 + 53.0, y * 1.1 - x * 2.9 + 71.0);
        let sum = one * 0.42 + two * 0.34 + three * 0.24;
        // Three evenly spread values summed lie about the middle: spread them again.
        ((sum - 0.5) * 1.7 + 0.5).clamp(0.0, 1.0)
    }
}
