//! A set of blocks by their places, small enough to be copied.

use std::hash::Hasher;

const WORDS: usize = 8;

/// Which blocks lie on a roll already.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) struct BlockSet([u64; WORDS]);

impl BlockSet {
    pub(super) const EMPTY: Self = Self([0; WORDS]);
    /// The most blocks that can be told apart.
    pub(super) const MOST: usize = WORDS * 64;

    pub(super) fn has(&self, at: usize) -> bool {
        let word = self.0.get(at / 64).copied().unwrap_or(0);
        word >> (at % 64) & 1 == 1
    }

    /// How many lie before a place.
    pub(super) fn count_below(&self, end: usize) -> usize {
        let words = self.0.iter().enumerate().map(|(word, bits)| {
            let below = end.saturating_sub(word * 64);
            let mask = if below >= 64 {
                u64::MAX
            } else {
                (1 << below) - 1
            };
            (bits & mask).count_ones() as usize
        });
        words.sum()
    }

    pub(super) fn count(&self) -> usize {
        self.0.iter().map(|bits| bits.count_ones() as usize).sum()
    }

    pub(super) const fn insert(&mut self, at: usize) {
        self.0[at / 64] |= 1 << (at % 64);
    }
}

/// Mixes the words of a key by multiplying, which is enough for keys that nobody chose
/// to do harm, and many times quicker than the hash for those that somebody might.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Mixing(u64);

impl Hasher for Mixing {
    fn finish(&self) -> u64 {
        self.0 ^ self.0 >> 29
    }

    fn write(&mut self, bytes: &[u8]) {
        for part in bytes.chunks(8) {
            let mut word = [0; 8];
            word[..part.len()].copy_from_slice(part);
            self.write_u64(u64::from_le_bytes(word));
        }
    }

    fn write_u64(&mut self, word: u64) {
        // The odd number nearest to 2^64 over the golden mean (Knuth, volume 3, 6.4).
        self.0 = (self.0.rotate_left(26) ^ word).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    }

    fn write_u16(&mut self, word: u16) {
        self.write_u64(u64::from(word));
    }
}
